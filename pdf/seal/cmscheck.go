package seal

import (
	"bytes"
	"crypto"
	"crypto/ecdsa"
	"crypto/rsa"
	"crypto/sha256"
	"crypto/x509"
	"encoding/asn1"
)

// prove checks the signature of bytes with this digest, and returns the certificates from the signer's own to a root, or
// that alone where no others came along; false where it is none, or one of something else. Only the form that [assemble]
// gives is taken, with nought behind it: nothing in the file can be written another way.
func prove(contents []byte, digest [sha256.Size]byte) (chain []*x509.Certificate, ok bool) {
	var outer contentInfo
	rest, err := asn1.Unmarshal(contents, &outer)
	if err != nil || len(bytes.Trim(rest, "\x00")) > 0 {
		return nil, false
	}
	var data signedData
	if _, err := asn1.Unmarshal(outer.Content.Bytes, &data); err != nil || len(data.Signers) != 1 {
		return nil, false
	}
	chain, err = x509.ParseCertificates(data.Certs.Bytes)
	if err != nil || !leads(chain) {
		return nil, false
	}
	attrs, err := attributesOf(digest, chain[0])
	if err != nil {
		return nil, false
	}
	signature := data.Signers[0].Signature
	form, err := assemble(attrs, chain, signature)
	if err != nil || !bytes.Equal(form, contents[:len(contents)-len(rest)]) {
		return nil, false
	}
	hash, err := toSign(attrs)
	if err != nil {
		return nil, false
	}
	switch k := chain[0].PublicKey.(type) {
	case *ecdsa.PublicKey:
		return chain, ecdsa.VerifyASN1(k, hash[:], signature)
	case *rsa.PublicKey:
		return chain, rsa.VerifyPKCS1v15(k, crypto.SHA256, hash[:], signature) == nil
	}
	return nil, false
}

// leads reports whether each of several certificates was signed by the next, and the last by itself. One alone leads
// nowhere and is what it is.
func leads(chain []*x509.Certificate) bool {
	if len(chain) == 1 {
		return true
	}
	for i, c := range chain {
		by := chain[min(i+1, len(chain)-1)]
		if !bytes.Equal(c.RawIssuer, by.RawSubject) || c.CheckSignatureFrom(by) != nil {
			return false
		}
	}
	return len(chain) > 1
}
