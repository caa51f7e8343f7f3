package signer

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"keeperbook/app/internal/files"
)

// Minutes are for how long a shop may allow that a key stays open after its passphrase was typed; none at all is what it is
// where nobody chose.
func Minutes() []int { return []int{0, 5, 15, 30} }

// allowed is what the file says that keeps the choice.
type allowed struct {
	Minutes int `json:"minutes"`
}

func (r Ring) allowPath() string { return filepath.Join(r.Folder, "allow.json") }

// Allowed returns for how long a key stays open; not at all where that is not known.
func (r Ring) Allowed() time.Duration {
	data, err := files.Read(r.allowPath(), 1<<10)
	var a allowed
	if err != nil || json.Unmarshal(data, &a) != nil || !slices.Contains(Minutes(), a.Minutes) {
		return 0
	}
	return time.Duration(a.Minutes) * time.Minute
}

// Allow chooses for how long.
func (r Ring) Allow(minutes int) error {
	if minutes == 0 {
		if err := os.Remove(r.allowPath()); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return files.Fault(r.allowPath(), err)
		}
		return nil
	}
	if err := os.MkdirAll(r.Folder, 0o700); err != nil {
		return files.Fault(r.Folder, err)
	}
	data, err := json.Marshal(allowed{minutes})
	if err != nil {
		return err
	}
	return files.WritePrivate(r.allowPath(), append(data, '\n'))
}
