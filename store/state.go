package store

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"math/bits"

	"keeperbook/model/record"
)

// sum is the hash of a state: the SHA-256 of every item with its body, added up modulo 2 to the 256th.
// It does not depend on the order of the items, so that it can be carried along while the history
// is read: what an event takes away is subtracted, what it puts there is added. It finds what broke
// by chance; who forges a book rewrites the history too.
type sum [4]uint64

func itemSum(item record.Item, body []byte) (s sum) {
	h := sha256.New()
	text(h, string(item.Kind))
	text(h, item.Setup)
	text(h, item.Key)
	part(h, body)
	b := h.Sum(nil)
	for i := range s {
		s[i] = binary.BigEndian.Uint64(b[len(b)-8*(i+1):])
	}
	return s
}

func (s *sum) add(o sum) {
	var carry uint64
	for i := range s {
		s[i], carry = bits.Add64(s[i], o[i], carry)
	}
}

func (s *sum) sub(o sum) {
	var borrow uint64
	for i := range s {
		s[i], borrow = bits.Sub64(s[i], o[i], borrow)
	}
}

func (s sum) String() string {
	var b [sha256.Size]byte
	for i := range s {
		binary.BigEndian.PutUint64(b[len(b)-8*(i+1):], s[i])
	}
	return hex.EncodeToString(b[:])
}

// stateSum returns the hash of the whole state.
func stateSum(ctx context.Context, src source) (sum, error) {
	var s sum
	err := everyItem(ctx, src, func(item record.Item, body []byte, _ bool) error {
		s.add(itemSum(item, body))
		return nil
	})
	return s, err
}

// everyItem calls found for each item of the book.
func everyItem(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	for _, kind := range itemKinds() {
		s, err := shelfOf(kind)
		if err != nil {
			return err
		}
		if err := s.all(ctx, src, found); err != nil {
			return err
		}
	}
	return nil
}

// state is the body of a checkpoint.
type state struct {
	Schema int    `json:"schema"`
	State  string `json:"state"`
}

func checkpointBody(version int, s sum) []byte {
	return fmt.Appendf(nil, `{"schema":%d,"state":"%s"}`, version, s)
}

func readCheckpoint(body []byte) (s state, err error) {
	err = json.Unmarshal(body, &s)
	return s, err
}
