package signer

import (
	"crypto/aes"
	"crypto/cipher"
	"crypto/hkdf"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"encoding/json"
	"errors"
	"image"
	"io/fs"
	"os"

	"keeperbook/app/internal/files"
	"keeperbook/model/say"
	"keeperbook/pdf/seal"
)

// A signature drawn by hand is sealed with AES-256-GCM (NIST SP 800-38D) under a key that HKDF (RFC 5869) draws from the
// private key, so that what opens that opens this, and the certificate is bound in: the drawing of one signer does not open
// as another's. The file is a first line, sixteen bytes of salt, the nonce and the sealed strokes.
const (
	handLine = "keeperbook hand 1\n"
	saltSize = 16
	mostHand = 256 << 10
)

// The field that a signature is drawn in, in dots.
const (
	InkWide = seal.InkWide
	InkHigh = seal.InkHigh
)

// Draw keeps the signature that a signer drew by hand, over one that was kept before.
func (r Ring) Draw(id, secret string, strokes [][]image.Point) error {
	var ink seal.Ink
	for _, s := range strokes {
		var one seal.Stroke
		for _, d := range s {
			one = append(one, seal.Dot{X: d.X, Y: d.Y})
		}
		ink = append(ink, one)
	}
	if err := ink.Check(); err != nil {
		return err
	}
	if len(ink) == 0 {
		return say.Fail(say.Invalid, "signers.nothing-drawn")
	}
	s, err := r.Unlock(id, secret)
	if err != nil {
		return err
	}
	text, err := json.Marshal(ink)
	if err != nil {
		return err
	}
	salt := make([]byte, saltSize)
	rand.Read(salt) // never fails: it ends the program instead, as its documentation says
	box, err := boxOf(s, salt)
	if err != nil {
		return err
	}
	nonce := make([]byte, box.NonceSize())
	rand.Read(nonce)
	data := append([]byte(handLine), salt...)
	data = append(data, nonce...)
	data = box.Seal(data, nonce, text, s.Chain[0].Raw)
	return files.WritePrivate(r.path(id, handEnding), data)
}

// Drawn returns the signature that a signer drew by hand; nil where there is none.
func (r Ring) Drawn(id, secret string) ([][]image.Point, error) {
	s, err := r.Unlock(id, secret)
	var strokes [][]image.Point
	for _, one := range s.Ink {
		var dots []image.Point
		for _, d := range one {
			dots = append(dots, image.Pt(d.X, d.Y))
		}
		strokes = append(strokes, dots)
	}
	return strokes, err
}

// Erase takes the drawn signature of a signer away.
func (r Ring) Erase(id string) error {
	path := r.path(id, handEnding)
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return files.Fault(path, err)
	}
	return nil
}

// hand is the drawn signature of a signer; nil where there is none.
func (r Ring) hand(id string, s seal.Signer) (seal.Ink, error) {
	path := r.path(id, handEnding)
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	data, err := files.Read(path, mostHand)
	if err != nil {
		return nil, err
	}
	ink, err := opened(data, s)
	if err != nil {
		return nil, say.Fail(say.Damaged, "signers.hand-damaged", path).From(err)
	}
	return ink, nil
}

var errNotDrawn = errors.New("it is no drawing of this program")

// opened opens the file of a drawn signature.
func opened(data []byte, s seal.Signer) (seal.Ink, error) {
	head := len(handLine) + saltSize
	if len(data) < head || string(data[:len(handLine)]) != handLine {
		return nil, errNotDrawn
	}
	box, err := boxOf(s, data[len(handLine):head])
	if err != nil {
		return nil, err
	}
	rest := data[head:]
	if len(rest) < box.NonceSize() {
		return nil, errNotDrawn
	}
	strokes, err := box.Open(nil, rest[:box.NonceSize()], rest[box.NonceSize():], s.Chain[0].Raw)
	if err != nil {
		return nil, err
	}
	var ink seal.Ink
	if err := json.Unmarshal(strokes, &ink); err != nil {
		return nil, err
	}
	return ink, ink.Check()
}

// boxOf is what opens and closes the drawing of a signer.
func boxOf(s seal.Signer, salt []byte) (cipher.AEAD, error) {
	private, err := x509.MarshalPKCS8PrivateKey(s.Key)
	if err != nil {
		return nil, err
	}
	key, err := hkdf.Key(sha256.New, private, salt, handLine, 32)
	if err != nil {
		return nil, err
	}
	block, err := aes.NewCipher(key)
	if err != nil {
		return nil, err
	}
	return cipher.NewGCM(block)
}
