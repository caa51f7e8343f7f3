package seal

import (
	"bytes"
	"crypto"
	"crypto/ecdsa"
	"crypto/rsa"
	"crypto/sha256"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/asn1"
	"math/big"
	"sort"

	"keeperbook/model/say"
)

// What a signature is made of: Cryptographic Message Syntax (RFC 5652), with the attributes of CAdES (RFC 5126) and the
// certificate named in what is signed (RFC 5035). The moment is not among them: without an outside clock it is what the
// signer says, and stands in the dictionary around.

var (
	oidData       = asn1.ObjectIdentifier{1, 2, 840, 113549, 1, 7, 1}
	oidSigned     = asn1.ObjectIdentifier{1, 2, 840, 113549, 1, 7, 2}
	oidType       = asn1.ObjectIdentifier{1, 2, 840, 113549, 1, 9, 3}
	oidDigest     = asn1.ObjectIdentifier{1, 2, 840, 113549, 1, 9, 4}
	oidCertV2     = asn1.ObjectIdentifier{1, 2, 840, 113549, 1, 9, 16, 2, 47}
	oidSHA256     = asn1.ObjectIdentifier{2, 16, 840, 1, 101, 3, 4, 2, 1}
	oidECDSA256   = asn1.ObjectIdentifier{1, 2, 840, 10045, 4, 3, 2}
	oidSHA256RSA  = asn1.ObjectIdentifier{1, 2, 840, 113549, 1, 1, 11}
	algoSHA256    = pkix.AlgorithmIdentifier{Algorithm: oidSHA256}
	algoECDSA     = pkix.AlgorithmIdentifier{Algorithm: oidECDSA256}
	algoRSASHA256 = pkix.AlgorithmIdentifier{Algorithm: oidSHA256RSA, Parameters: asn1.NullRawValue}
)

type contentInfo struct {
	Type    asn1.ObjectIdentifier
	Content asn1.RawValue `asn1:"explicit,tag:0"`
}

type signedData struct {
	Version int
	Digests []pkix.AlgorithmIdentifier `asn1:"set"`
	Encap   struct{ Type asn1.ObjectIdentifier }
	Certs   asn1.RawValue `asn1:"optional,tag:0"`
	Signers []signerInfo  `asn1:"set"`
}

type signerInfo struct {
	Version   int
	ID        issuerAndSerial
	Digest    pkix.AlgorithmIdentifier
	Attrs     asn1.RawValue `asn1:"optional,tag:0"`
	Algorithm pkix.AlgorithmIdentifier
	Signature []byte
}

type issuerAndSerial struct {
	Issuer asn1.RawValue
	Serial *big.Int
}

type attribute struct {
	Type   asn1.ObjectIdentifier
	Values []asn1.RawValue `asn1:"set"`
}

// certRef names the certificate by its fingerprint; SHA-256 is what it says where it says none.
type certRef struct{ Hash []byte }

// sign makes the signature of bytes with this digest.
func sign(digest [sha256.Size]byte, s Signer) ([]byte, error) {
	attrs, err := attributesOf(digest, s.Chain[0])
	if err != nil {
		return nil, err
	}
	signed, err := toSign(attrs)
	if err != nil {
		return nil, err
	}
	// Without a source of chance the same bytes are signed the same way (RFC 6979).
	signature, err := s.Key.Sign(nil, signed[:], crypto.SHA256)
	if err != nil {
		return nil, say.Fail(say.Invalid, "seal.key").From(err)
	}
	return assemble(attrs, s.Chain, signature)
}

// assemble puts a signature and the certificates that lead from it to a root together. Of the same parts there is one form.
func assemble(attrs [][]byte, chain []*x509.Certificate, signature []byte) ([]byte, error) {
	leaf := chain[0]
	algorithm, err := algorithmOf(leaf.PublicKey)
	if err != nil {
		return nil, err
	}
	info := signerInfo{
		Version: 1, ID: issuerAndSerial{asn1.RawValue{FullBytes: leaf.RawIssuer}, leaf.SerialNumber}, Digest: algoSHA256,
		Attrs: tagged(attrs), Algorithm: algorithm, Signature: signature,
	}
	var certs [][]byte
	for _, c := range chain {
		certs = append(certs, c.Raw)
	}
	data := signedData{
		Version: 1, Digests: []pkix.AlgorithmIdentifier{algoSHA256},
		Certs:   tagged(certs),
		Signers: []signerInfo{info},
	}
	data.Encap.Type = oidData
	inner, err := asn1.Marshal(data)
	if err != nil {
		return nil, err
	}
	return asn1.Marshal(contentInfo{oidSigned, tagged([][]byte{inner})})
}

// algorithmOf is how a key signs; only such as readers of PDF know.
func algorithmOf(public crypto.PublicKey) (pkix.AlgorithmIdentifier, error) {
	switch k := public.(type) {
	case *ecdsa.PublicKey:
		if bits := k.Curve.Params().BitSize; bits == 256 || bits == 384 {
			return algoECDSA, nil
		}
	case *rsa.PublicKey:
		if bits := k.N.BitLen(); bits >= 2048 && bits <= 8192 {
			return algoRSASHA256, nil
		}
	}
	return pkix.AlgorithmIdentifier{}, say.Fail(say.Invalid, "seal.key-kind")
}

// attributesOf are the signed attributes, in the order that DER has them.
func attributesOf(digest [sha256.Size]byte, leaf *x509.Certificate) ([][]byte, error) {
	print := sha256.Sum256(leaf.Raw)
	named, err := asn1.Marshal(struct{ Certs []certRef }{[]certRef{{print[:]}}})
	if err != nil {
		return nil, err
	}
	kind, err := asn1.Marshal(oidData)
	if err != nil {
		return nil, err
	}
	hash, err := asn1.Marshal(digest[:])
	if err != nil {
		return nil, err
	}
	var all [][]byte
	for _, a := range []attribute{
		{oidType, []asn1.RawValue{{FullBytes: kind}}}, {oidDigest, []asn1.RawValue{{FullBytes: hash}}}, {oidCertV2, []asn1.RawValue{{FullBytes: named}}},
	} {
		der, err := asn1.Marshal(a)
		if err != nil {
			return nil, err
		}
		all = append(all, der)
	}
	sort.Slice(all, func(i, j int) bool { return bytes.Compare(all[i], all[j]) < 0 })
	return all, nil
}

// tagged is encoded values together under tag 0, as where they stand in what holds them.
func tagged(all [][]byte) asn1.RawValue {
	return asn1.RawValue{Class: asn1.ClassContextSpecific, Tag: 0, IsCompound: true, Bytes: bytes.Join(all, nil)}
}

// toSign is the digest of the signed attributes: what is signed is the set, under its own tag (RFC 5652 §5.4).
func toSign(attrs [][]byte) ([sha256.Size]byte, error) {
	set, err := asn1.Marshal(asn1.RawValue{Class: asn1.ClassUniversal, Tag: asn1.TagSet, IsCompound: true, Bytes: bytes.Join(attrs, nil)})
	return sha256.Sum256(set), err
}
