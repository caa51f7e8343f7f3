package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/binary"
	"os"

	"keeperbook/model/say"
)

// This file looks at the log beside a book before SQLite does. SQLite reads in whatever log has the book's name and hangs together,
// also that of another book, and then writes it into the book. Layouts are those of the published file format
// (https://www.sqlite.org/fileformat2.html, section 4), from memory.

const (
	logHead      = 32
	logFrameHead = 24
	logMagic     = 0x377f0682 // with its lowest bit set the sums run over big-endian words
)

// committed are the pages of the log beside a book that SQLite would read in: those of transactions that were ended, in their
// order. It is nil where there is no such log.
func committed(path string) *pages {
	data, err := os.ReadFile(path + "-wal")
	if err != nil || len(data) < logHead {
		return nil
	}
	magic, size := binary.BigEndian.Uint32(data), int(binary.BigEndian.Uint32(data[8:]))
	if magic&^1 != logMagic || size < 512 || size > 65536 || size&(size-1) != 0 {
		return nil
	}
	sum := logSum{order: binary.LittleEndian}
	if magic&1 == 1 {
		sum.order = binary.BigEndian
	}
	if sum.add(data[:24]); !sum.is(data[24:]) {
		return nil
	}
	p := &pages{size: size, usable: size, later: map[int][]byte{}}
	var open [][]byte // of a transaction whose end has not been seen yet, each with the head of its frame
	for at := logHead; at+logFrameHead+size <= len(data); at += logFrameHead + size {
		head, page := data[at:at+logFrameHead], data[at+logFrameHead:at+logFrameHead+size]
		sum.add(head[:8])
		if sum.add(page); string(head[8:16]) != string(data[16:24]) || !sum.is(head[16:]) {
			break
		}
		if open = append(open, data[at:at+logFrameHead+size]); binary.BigEndian.Uint32(head[4:]) == 0 {
			continue
		}
		for _, frame := range open {
			p.all = append(p.all, frame[logFrameHead:])
			p.later[int(binary.BigEndian.Uint32(frame))] = frame[logFrameHead:]
		}
		open = nil
	}
	return p
}

// logSum is the running sum of a log.
type logSum struct {
	order  binary.ByteOrder
	s0, s1 uint32
}

func (s *logSum) add(data []byte) {
	for at := 0; at+8 <= len(data); at += 8 {
		s.s0 += s.order.Uint32(data[at:]) + s.s1
		s.s1 += s.order.Uint32(data[at+4:]) + s.s0
	}
}

func (s *logSum) is(data []byte) bool {
	return binary.BigEndian.Uint32(data) == s.s0 && binary.BigEndian.Uint32(data[4:]) == s.s1
}

// ownLog refuses a book beside which another log lies than its own. Nothing is written.
//
// It must not run while this process or another has the book open.
func ownLog(ctx context.Context, path string) error {
	if of, from, to := whoseLog(ctx, path); of == another || of == doubtful && gap(ctx, path, from, to) {
		return otherLog(path)
	}
	return nil
}

func otherLog(path string) error { return say.Fail(say.Conflict, "store.log", path, path+"-wal") }

// whose says what a log shows about the book that it lies beside.
type whose int

const (
	own      whose = iota // or nothing speaks against it
	doubtful              // what comes between the end of the book and the beginning of the log is not in the book
	another               // it tells the history otherwise
)

// whoseLog holds the events in the log against the history in the book alone, as it was when the log was last written into
// it. Only events that prove themselves count, and what cannot be told is let through: a book whose power went while its log was
// being written into it may be unreadable without the log. In doubt it returns the two numbers between which events are missing.
func whoseLog(ctx context.Context, path string) (of whose, from, to int64) {
	log := committed(path)
	if log == nil {
		return own, 0, 0
	}
	// A log that nobody looked through to its end must not pass, so this is not given up.
	events, _, _ := provenIn(context.Background(), log)
	if len(events) == 0 {
		return own, 0, 0
	}
	first, last := events[0], events[len(events)-1]
	told := map[int64][sha256.Size]byte{first.seq - 1: first.prev}
	for _, e := range events {
		told[e.seq] = e.hash
	}
	b := unopened(path)
	defer b.Close()
	if b.tryReading(ctx, path, unchanged) != nil {
		return own, 0, 0
	}
	// From the last one before the log on: two books that were one once, a copy and where it came from, begin alike.
	both := `SELECT ` + eventColumns + ` FROM event WHERE seq <= ? AND seq >= (SELECT max(seq) FROM event WHERE seq <= ?)`
	err := b.read(ctx, func(src source) error {
		return each(ctx, src, both, []any{last.seq, max(first.seq-1, 1)}, func(rows *sql.Rows) error {
			e, err := scanEvent(rows)
			if err != nil || e.sum() != e.hash {
				return err
			}
			from = max(from, e.seq)
			if hash, there := told[e.seq]; there && hash != e.hash {
				of = another
			}
			return nil
		})
	})
	if err == nil && of == own && from > 0 && from < first.seq-1 {
		of = doubtful
	}
	return of, from, first.seq
}

// gap reports whether the history misses events between two numbers also when the log is read in, on a copy, or nothing can be read
// of it then.
func gap(ctx context.Context, path string, from, to int64) bool {
	b := unopened(path)
	defer b.Close()
	copied, err := b.copyAside()
	if err != nil {
		return false
	}
	if err := b.tryReading(ctx, copied, reading); err != nil {
		return say.CodeOf(err) == say.Damaged
	}
	there := int64(0)
	err = b.read(ctx, func(src source) error {
		_, err := one(ctx, src, `SELECT count(*) FROM event WHERE seq > ? AND seq < ?`, []any{from, to}, &there)
		return err
	})
	return say.CodeOf(fault(err, path)) == say.Damaged || err == nil && there < to-from-1
}
