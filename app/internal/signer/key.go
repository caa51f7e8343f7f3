package signer

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"keeperbook/app/internal/files"
	"keeperbook/model/say"
	"keeperbook/pdf/seal"
)

// New is what somebody says of a signer who has no key yet.
type New struct{ Name, Role, Shop, Secret, Again string }

// Make makes a key with its certificate under a root of its own, and keeps it under the passphrase. It refuses (say.Invalid)
// what [seal.NewKey] and [seal.Signer.Lock] refuse, and two passphrases that differ.
func (r Ring) Make(n New) (Signer, error) {
	if n.Secret != n.Again {
		return Signer{}, say.Fail(say.Invalid, "signers.differ")
	}
	s, err := seal.NewKey(seal.Person{Name: strings.TrimSpace(n.Name), Shop: strings.TrimSpace(n.Shop)}, r.Clock())
	if err != nil {
		return Signer{}, err
	}
	return r.keep(s, n.Role, n.Secret)
}

// Bring takes in a key of one's own, a PKCS#12 file, which stays where it is. From then on the same passphrase opens the one
// kept here, which is stirred as often as one made here.
func (r Ring) Bring(path, role, secret string) (Signer, error) {
	s, err := OpenFile(path, secret)
	if err != nil {
		return Signer{}, err
	}
	return r.keep(s, role, secret)
}

// BringFrom is [Ring.Bring] with a file that lies in a folder where it is named without a root.
func (r Ring) BringFrom(folder, named, role, secret string) (Signer, error) {
	path := strings.TrimSpace(named)
	switch {
	case path == "":
		return Signer{}, say.Fail(say.Invalid, "files.no-name", filepath.Join(folder, "signer"+keyEnding))
	case !filepath.IsAbs(path):
		path = filepath.Join(folder, path)
	}
	return r.Bring(path, role, secret)
}

// OpenFile opens a key file that nobody else may read.
func OpenFile(path, secret string) (seal.Signer, error) {
	data, err := files.Read(path, mostKey)
	if err != nil {
		return seal.Signer{}, err
	}
	if info, err := os.Stat(path); err != nil || runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0 {
		return seal.Signer{}, say.Fail(say.Invalid, "signers.key-open", path).From(err)
	}
	return seal.OpenKey(data, secret)
}

// keep keeps a key and then its card: a key without a card is none that anybody sees.
func (r Ring) keep(s seal.Signer, role, secret string) (Signer, error) {
	id := idOf(s.Chain[0])
	if _, err := os.Lstat(r.path(id, cardEnding)); err == nil {
		return Signer{}, say.Fail(say.Conflict, "signers.there", s.Chain[0].Subject.CommonName)
	}
	if err := os.MkdirAll(r.Folder, 0o700); err != nil {
		return Signer{}, files.Fault(r.Folder, err)
	}
	if err := r.lock(id, s, secret); err != nil {
		return Signer{}, err
	}
	if err := r.writeCard(id, role, s.Chain); err != nil {
		os.Remove(r.path(id, keyEnding)) // what stays behind if this fails too is a file that nobody sees
		return Signer{}, err
	}
	known, _, err := r.read(id)
	return known, err
}

func (r Ring) lock(id string, s seal.Signer, secret string) error {
	rounds := r.Rounds
	if rounds == 0 {
		rounds = seal.Rounds
	}
	locked, err := s.Lock(secret, rounds)
	if err != nil {
		return err
	}
	return files.WritePrivate(r.path(id, keyEnding), locked)
}

// Unlock opens the key of a signer, which takes half a second, and the signature drawn by hand where there is one.
func (r Ring) Unlock(id, secret string) (seal.Signer, error) {
	_, chain, err := r.read(id)
	if err != nil {
		return seal.Signer{}, err
	}
	path := r.path(id, keyEnding)
	s, err := OpenFile(path, secret)
	if err != nil {
		return seal.Signer{}, err
	}
	if !s.Chain[0].Equal(chain[0]) {
		return seal.Signer{}, say.Fail(say.Damaged, "signers.other-key", path)
	}
	s.Ink, err = r.hand(id, s)
	return s, err
}

// Change puts another passphrase on the key of a signer. The drawn signature is under the key and stays as it is, so that
// one renaming of one file changes both: before it the old passphrase opens them, after it the new one.
func (r Ring) Change(id, old, secret, again string) error {
	if secret != again {
		return say.Fail(say.Invalid, "signers.differ")
	}
	s, err := r.Unlock(id, old)
	if err != nil {
		return err
	}
	return r.lock(id, s, secret)
}
