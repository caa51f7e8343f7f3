package record

import (
	"encoding/hex"
	"strings"

	"keeperbook/model/say"
)

// Trust says that the shop takes what a certificate signs for its owner's, as somebody compared its fingerprint with them. It
// belongs to the book and is in no Record.
type Trust struct {
	Root string `json:"root"` // SHA-256 of the certificate, hexadecimal
	Name string `json:"name"` // whose it is
	How  string `json:"how"`  // it was compared: by telephone, on paper
	By   string `json:"by"`   // who compared it
	When Stamp  `json:"when"`
}

// ItemKind is the item's.
func (Trust) ItemKind() ItemKind { return TrustItem }

// Key is unique within the book.
func (t Trust) Key() string { return t.Root }

func doubtTrust(t Trust) *say.Error {
	switch b, err := hex.DecodeString(t.Root); {
	case err != nil || len(b) != 32 || strings.ToLower(t.Root) != t.Root:
		return invalid("trust.root", t.Root).About("root")
	case strings.TrimSpace(t.Name) == "":
		return invalid("trust.name").About("name")
	case strings.TrimSpace(t.How) == "":
		return invalid("trust.how").About("how")
	}
	return nil
}
