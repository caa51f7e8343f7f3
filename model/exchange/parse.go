package exchange

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"keeperbook/model/say"
)

const (
	// maxDepth is how deep objects and lists may nest. A record needs eleven levels.
	maxDepth = 24
	// maxValues is how many texts, numbers, lists and objects a document may hold, one that is empty counting twice. A head of 96 valves
	// with every reading taken three times holds less than half of it; without a limit the faults of a
	// file of noise would fill the memory.
	maxValues = 300_000
	// maxWhole is the largest whole number that every JSON reader keeps exact (RFC 7493, section 2.2).
	maxWhole = 1<<53 - 1
)

// parse reads a JSON text that [glance] has passed into maps, lists, strings and json.Number. Trouble that leaves the text
// readable (a double key, a null, a fraction) is returned as soft, so that kind and version can be
// looked at first: a later version may well allow it.
func parse(data []byte) (tree any, soft *say.Error, err error) {
	if tree, ok := sound(data); ok {
		return tree, nil, nil
	}
	return slowly(data)
}

// slowly is parse of a text that something may have to be said against, and where.
func slowly(data []byte) (tree any, soft *say.Error, err error) {
	// The first pass proves the grammar and finds the end; the second builds the tree.
	dec := json.NewDecoder(bytes.NewReader(data))
	var whole json.RawMessage
	if err := dec.Decode(&whole); err != nil {
		return nil, nil, noJSON(data, err)
	}
	if rest := bytes.TrimLeft(data[dec.InputOffset():], " \t\r\n"); len(rest) > 0 {
		line, _ := lineColumn(data, len(data)-len(rest))
		return nil, nil, say.Fail(say.Invalid, "exchange.trailing", line)
	}
	p := parser{dec: json.NewDecoder(bytes.NewReader(whole))}
	p.dec.UseNumber()
	if tree, err = p.value(); err != nil {
		return nil, nil, noJSON(data, err)
	}
	return tree, p.soft, nil
}

// glance looks at the bytes for what the standard library would mend in silence or run into.
func glance(data []byte) error {
	switch {
	case len(data) > MaxDocument:
		return say.Fail(say.Invalid, "exchange.too-big", strconv.Itoa(MaxDocument>>20))
	case len(bytes.TrimSpace(data)) == 0:
		return say.Fail(say.Foreign, "exchange.empty")
	case !utf8.Valid(data):
		line, _ := lineColumn(data, invalidAt(data))
		return say.Fail(say.Foreign, "exchange.not-utf8", line)
	}
	depth, values, inText := 0, 1, false
	for i := 0; i < len(data); i++ {
		switch c := data[i]; {
		case inText && c == '\\':
			skip, ok := escape(data[i:])
			if !ok {
				line, _ := lineColumn(data, i)
				return say.Fail(say.Invalid, "exchange.half-character", line)
			}
			i += skip - 1
		case c == '"':
			inText = !inText
		case inText:
		// Before each value but the outermost stands one of these.
		case c == ',':
			values++
		case c == '{' || c == '[':
			values++
			if depth++; depth > maxDepth {
				line, _ := lineColumn(data, i)
				return say.Fail(say.Invalid, "exchange.too-deep", line, maxDepth)
			}
		case c == '}' || c == ']':
			depth--
		}
	}
	if values > maxValues {
		return say.Fail(say.Invalid, "exchange.too-much", maxValues)
	}
	return nil
}

// escape returns the length of the escape sequence that data begins with, and false where it is one
// half of a surrogate pair without the other. The standard library reads such a half as U+FFFD.
func escape(data []byte) (int, bool) {
	high, ok := unit16(data)
	switch {
	case !ok:
		return 2, true
	case high < 0xD800 || high > 0xDFFF:
		return 6, true
	case high > 0xDBFF:
		return 6, false
	}
	low, ok := unit16(data[6:])
	return 12, ok && low >= 0xDC00 && low <= 0xDFFF
}

// unit16 reads an escape of the form \u and four digits.
func unit16(data []byte) (uint64, bool) {
	if len(data) < 6 || data[0] != '\\' || data[1] != 'u' {
		return 0, false
	}
	n, err := strconv.ParseUint(string(data[2:6]), 16, 16)
	return n, err == nil
}

func invalidAt(data []byte) int {
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return len(data)
}

// lineColumn returns the line and the column, in bytes, of an offset, both counted from 1.
func lineColumn(data []byte, offset int) (line, column int) {
	before := data[:min(offset, len(data))]
	return bytes.Count(before, []byte("\n")) + 1, len(before) - bytes.LastIndexByte(before, '\n')
}

// noJSON says where a text stops being JSON. The words of the standard library are kept for the log.
func noJSON(data []byte, err error) error {
	if errors.Is(err, io.ErrUnexpectedEOF) {
		return say.Fail(say.Foreign, "exchange.cut-off").From(err)
	}
	offset := 0
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		offset = int(syntax.Offset) - 1
	}
	line, column := lineColumn(data, max(offset, 0))
	return say.Fail(say.Foreign, "exchange.not-json", line, column).From(err)
}

// parser builds the tree and notes the first soft trouble with its place.
type parser struct {
	dec  *json.Decoder
	at   place
	soft *say.Error
}

func (p *parser) value() (any, error) {
	token, err := p.dec.Token()
	if err != nil {
		return nil, err
	}
	switch t := token.(type) {
	case json.Delim:
		if t == '{' {
			return p.object()
		}
		return p.list()
	case string:
		if strings.ContainsRune(t, 0) {
			p.note("exchange.nul")
		}
		return t, nil
	case json.Number:
		switch {
		case strings.ContainsAny(t.String(), ".eE"):
			p.note("exchange.fraction", short(t.String()))
		case !whole(t):
			p.note("exchange.number-large", short(t.String()))
		}
		return t, nil
	case bool:
		p.note("exchange.boolean")
	case nil:
		p.note("exchange.null")
	}
	return token, nil
}

func (p *parser) object() (any, error) {
	object := map[string]any{}
	for p.dec.More() {
		token, err := p.dec.Token()
		if err != nil {
			return nil, err
		}
		key, _ := token.(string)
		if _, twice := object[key]; twice {
			p.note("exchange.double-key", short(key))
		}
		p.at = append(p.at, key)
		v, err := p.value()
		if err != nil {
			return nil, err
		}
		p.at = p.at[:len(p.at)-1]
		object[key] = v
	}
	_, err := p.dec.Token()
	return object, err
}

func (p *parser) list() (any, error) {
	all := []any{}
	for p.dec.More() {
		p.at = append(p.at, strconv.Itoa(len(all)))
		v, err := p.value()
		if err != nil {
			return nil, err
		}
		p.at = p.at[:len(p.at)-1]
		all = append(all, v)
	}
	_, err := p.dec.Token()
	return all, err
}

// note keeps the first soft trouble; what follows from it would only confuse.
func (p *parser) note(key string, args ...any) {
	if p.soft == nil {
		p.soft = p.at.fail(key, args...)
	}
}
