package signer

import (
	"sync"
	"time"

	"keeperbook/pdf/seal"
)

// Held is a key that stays open for a while after its passphrase was typed, where the shop allows that. The zero value, with a
// clock, holds none.
type Held struct {
	Clock func() time.Time

	mu    sync.Mutex
	id    string
	key   seal.Signer
	until time.Time
}

// Hold holds the key of a signer so long, and forgets any other. No time at all holds none.
func (h *Held) Hold(id string, key seal.Signer, so time.Duration) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.id, h.key, h.until = "", seal.Signer{}, time.Time{}
	if so > 0 {
		h.id, h.key, h.until = id, key, h.Clock().Add(so)
	}
}

// Key returns the key of a signer while it is held.
func (h *Held) Key(id string) (seal.Signer, bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.id != id || id == "" || h.Clock().After(h.until) {
		h.id, h.key = "", seal.Signer{}
		return seal.Signer{}, false
	}
	return h.key, true
}

// Forget forgets the key at once.
func (h *Held) Forget() { h.Hold("", seal.Signer{}, 0) }
