package store

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"io"
	"math"
	"os"

	"keeperbook/model/say"
)

// This file reads rows out of the pages of a damaged book, past SQLite, which stops at the first page that does not fit. What
// it finds may be anything: only rows that prove themselves are believed. Layouts are those of SQLite's published file format
// (https://www.sqlite.org/fileformat2.html, sections 1.6 and 2.1; of the log beside it section 4.1), from memory.

// pages are those of a file, with those of the log beside it, which are newer.
type pages struct {
	size, usable int
	whole        []byte         // the file
	later        map[int][]byte // the last copy of a page in the log
	all          [][]byte       // every copy of every page
}

// The kinds of pages that hold rows: leaves of tables, and both kinds of pages of tables that are kept by their key.
const (
	leafOfTable = 0x0d
	leafOfIndex = 0x0a
	nodeOfIndex = 0x02
)

// mostPages is the largest file that is looked through, in bytes.
const mostPages = 4 << 30

func readPages(ctx context.Context, path string) (*pages, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if info.Size() > mostPages {
		return nil, errors.New("larger than 4 GiB")
	}
	p := &pages{size: 4096, later: map[int][]byte{}}
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	whole := bytes.NewBuffer(make([]byte, 0, info.Size()+bytes.MinRead))
	if _, err := whole.ReadFrom(&wanted{ctx, file}); err != nil {
		return nil, err
	}
	p.whole = whole.Bytes()
	if len(p.whole) >= headerLength {
		if n := int(binary.BigEndian.Uint16(p.whole[16:])); n >= 512 && n&(n-1) == 0 {
			p.size = n
		}
	}
	p.usable = p.size // our books keep no room at the end of pages
	for at := 0; at+p.size <= len(p.whole); at += p.size {
		p.all = append(p.all, p.whole[at:at+p.size])
	}
	log, err := os.Open(path + "-wal")
	if err != nil {
		return p, nil // there is none, or it cannot be read, which is the same here
	}
	defer log.Close()
	frames, err := io.ReadAll(&wanted{ctx, io.LimitReader(log, mostPages)})
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil {
		return p, nil
	}
	const head, frame = 32, 24
	for at := head; at+frame+p.size <= len(frames); at += frame + p.size {
		page := frames[at+frame : at+frame+p.size]
		p.later[int(binary.BigEndian.Uint32(frames[at:]))] = page
		p.all = append(p.all, page)
	}
	return p, nil
}

// wanted reads while somebody wants it, and looks every few megabytes whether that is so.
type wanted struct {
	ctx context.Context
	io.Reader
}

func (w *wanted) Read(into []byte) (int, error) {
	if err := w.ctx.Err(); err != nil {
		return 0, err
	}
	const few = 4 << 20
	return w.Reader.Read(into[:min(len(into), few)])
}

// page is the newest copy of a page; nil where there is none.
func (p *pages) page(n int) []byte {
	if l, ok := p.later[n]; ok {
		return l
	}
	if at := (n - 1) * p.size; n > 0 && at+p.size <= len(p.whole) {
		return p.whole[at : at+p.size]
	}
	return nil
}

// rows calls found for everything that looks like a row: its number, nought where its table has none, and its columns. It
// fails only where it is given up.
func (p *pages) rows(ctx context.Context, found func(rowid int64, columns []any)) error {
	for i, page := range p.all {
		if err := ctx.Err(); err != nil {
			return err
		}
		say.Tell(ctx, "work.pages", i+1, len(p.all))
		start := 0
		if i == 0 && len(page) > headerLength {
			start = headerLength // the first page begins with the header of the file
		}
		kind := page[start]
		head := 8
		if kind == nodeOfIndex {
			head = 12
		}
		if kind != leafOfTable && kind != leafOfIndex && kind != nodeOfIndex {
			continue
		}
		cells := int(binary.BigEndian.Uint16(page[start+3:]))
		for c := range min(cells, p.size/4) {
			at := start + head + 2*c
			if at+2 > len(page) {
				break
			}
			if rowid, payload, ok := p.cell(page, int(binary.BigEndian.Uint16(page[at:])), kind); ok {
				if columns, ok := columnsOf(payload); ok {
					found(rowid, columns)
				}
			}
		}
	}
	return nil
}

// cell reads the cell at a place of a page, with what of it lies on other pages.
func (p *pages) cell(page []byte, at int, kind byte) (rowid int64, payload []byte, ok bool) {
	if kind == nodeOfIndex {
		at += 4 // the page below it
	}
	if at >= len(page) {
		return 0, nil, false
	}
	size, n := varint(page[at:])
	if n == 0 || size <= 0 || size > mostPages {
		return 0, nil, false
	}
	at += n
	most := p.usable - 35
	if kind == leafOfTable {
		if rowid, n = varint(page[at:]); n == 0 {
			return 0, nil, false
		}
		at += n
	} else {
		most = (p.usable-12)*64/255 - 23
	}
	here := int(size)
	if here > most {
		least := (p.usable-12)*32/255 - 23
		if here = least + (int(size)-least)%(p.usable-4); here > most {
			here = least
		}
	}
	if at+here > len(page) {
		return 0, nil, false
	}
	payload = append(payload, page[at:at+here]...)
	if here == int(size) {
		return rowid, payload, true
	}
	if at+here+4 > len(page) {
		return 0, nil, false
	}
	next := int(binary.BigEndian.Uint32(page[at+here:]))
	for seen := 0; len(payload) < int(size); seen++ {
		more := p.page(next)
		if more == nil || seen > len(p.all) {
			return 0, nil, false
		}
		next = int(binary.BigEndian.Uint32(more))
		payload = append(payload, more[4:min(p.usable, 4+int(size)-len(payload))]...)
	}
	return rowid, payload, true
}

// columnsOf reads a record into nil, int64, float64, string and []byte.
func columnsOf(payload []byte) (columns []any, ok bool) {
	size, n := varint(payload)
	if n == 0 || size < int64(n) || size > int64(len(payload)) {
		return nil, false
	}
	kinds, data := payload[n:size], payload[size:]
	for len(kinds) > 0 {
		kind, n := varint(kinds)
		if n == 0 || kind < 0 {
			return nil, false
		}
		kinds = kinds[n:]
		wide := 0
		switch {
		case kind == 0 || kind == 8 || kind == 9:
		case kind <= 4:
			wide = int(kind)
		case kind == 5:
			wide = 6
		case kind == 6 || kind == 7:
			wide = 8
		case kind == 10 || kind == 11:
			return nil, false
		default:
			if kind > mostPages {
				return nil, false
			}
			wide = int(kind-12) / 2
		}
		if wide > len(data) {
			return nil, false
		}
		columns = append(columns, column(kind, data[:wide]))
		data = data[wide:]
	}
	return columns, true
}

func column(kind int64, data []byte) any {
	switch {
	case kind == 0:
		return nil
	case kind == 8 || kind == 9:
		return kind - 8
	case kind == 7:
		return math.Float64frombits(binary.BigEndian.Uint64(data))
	case kind < 7:
		n := int64(int8(data[0]))
		for _, b := range data[1:] {
			n = n<<8 | int64(b)
		}
		return n
	case kind%2 == 0:
		return append([]byte{}, data...)
	}
	return string(data)
}

// varint reads a number of one to nine bytes; n is nought where it does not end.
func varint(data []byte) (v int64, n int) {
	for n < 9 && n < len(data) {
		b := data[n]
		n++
		if n == 9 {
			return v<<8 | int64(b), n
		}
		v = v<<7 | int64(b&0x7f)
		if b < 0x80 {
			return v, n
		}
	}
	return 0, 0
}
