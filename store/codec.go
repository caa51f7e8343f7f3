package store

import (
	"bytes"
	"encoding/json"
	"fmt"
	"sort"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// bodyVersion is the form that bodies are written in. A new form bumps it, so that a program of before
// refuses a body whose keys it would lose; decode keeps the others. Forms 2 to 8 may have keys or kinds that the
// one before does not know: a body of form 1 is one of form 8 as it stands.
const bodyVersion = 8

// readable reports whether bodies of a version can be read.
func readable(version int) bool { return version >= 1 && version <= bodyVersion }

// encode returns the compact JSON of a noun, the lists of a set-up left out. The same noun always
// gives the same bytes.
func encode(n record.Noun) ([]byte, error) {
	if s, ok := n.(record.Setup); ok {
		n = bare(s)
	}
	body, err := compact(n)
	if err != nil {
		return nil, fmt.Errorf("encode %s %s: %w", n.ItemKind(), n.Key(), err)
	}
	if replaced(body) {
		return nil, say.Fail(say.Invalid, "store.text", string(n.ItemKind()), n.Key())
	}
	return body, nil
}

// compact returns JSON as it stands in the book: without spaces, and with every sign as it was typed.
func compact(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), err
}

// replaced reports whether the encoder met bytes that are no UTF-8: it puts the escape \ufffd for
// them, and leaves that character itself unescaped where somebody typed it.
func replaced(body []byte) bool {
	for at := 0; ; {
		i := bytes.Index(body[at:], []byte(`\ufffd`))
		if i < 0 {
			return false
		}
		at += i
		slashes := 1
		for at-slashes >= 0 && body[at-slashes] == '\\' {
			slashes++
		}
		if slashes%2 == 1 { // not itself escaped
			return true
		}
		at++
	}
}

// bare returns a set-up without its lists, which are kept as items of their own.
func bare(s record.Setup) record.Setup {
	s.Packages, s.Valves, s.Readings, s.Shared = nil, nil, nil, nil
	s.SeatWork, s.Deviations, s.Checks = nil, nil, nil
	return s
}

// decode reads a body of any version that this program knows.
func decode(kind record.ItemKind, version int, body []byte) (record.Noun, error) {
	if !readable(version) {
		return nil, fmt.Errorf("decode %s: body version %d is not known", kind, version)
	}
	switch kind {
	case record.ShopItem:
		return noun[record.Shop](body)
	case record.ShopRulesItem:
		return noun[record.ShopRules](body)
	case record.OwnerItem:
		return noun[record.Owner](body)
	case record.EngineItem:
		return noun[record.Engine](body)
	case record.HeadItem:
		return noun[record.Head](body)
	case record.SpringItem:
		return noun[record.Spring](body)
	case record.PieceItem:
		return noun[record.SpringPiece](body)
	case record.RetainerItem:
		return noun[record.Retainer](body)
	case record.LocksItem:
		return noun[record.Locks](body)
	case record.LocatorItem:
		return noun[record.Locator](body)
	case record.SealItem:
		return noun[record.Seal](body)
	case record.ValvePartItem:
		return noun[record.ValvePart](body)
	case record.GaugeItem:
		return noun[record.Gauge](body)
	case record.StudyItem:
		return noun[record.Study](body)
	case record.StockShimItem:
		return noun[record.StockShim](body)
	case record.StockItem:
		return noun[record.Stock](body)
	case record.SignedItem:
		return noun[record.Signed](body)
	case record.TrustItem:
		return noun[record.Trust](body)
	case record.RunItem:
		return noun[record.Run](body)
	case record.SpringCheckItem:
		return noun[record.SpringCheck](body)
	case record.UsualDayItem:
		return noun[record.UsualDay](body)
	case record.TaggedItem:
		return noun[record.Tagged](body)
	case record.SetupItem:
		return noun[record.Setup](body)
	case record.PackageItem:
		return noun[record.Package](body)
	case record.ValveItem:
		return noun[record.Valve](body)
	case record.ReadingItem:
		return noun[record.Reading](body)
	case record.SharedItem:
		return noun[record.Shared](body)
	case record.SeatWorkItem:
		return noun[record.SeatWork](body)
	case record.DeviationItem:
		return noun[record.Deviation](body)
	case record.CheckItem:
		return noun[record.Check](body)
	}
	return nil, fmt.Errorf("decode %q: no such kind of item", kind)
}

func noun[T record.Noun](body []byte) (record.Noun, error) {
	var n T
	if err := json.Unmarshal(body, &n); err != nil {
		return nil, fmt.Errorf("decode %s: %w", n.ItemKind(), err)
	}
	return n, nil
}

// current returns a body in the form that is written now.
func current(kind record.ItemKind, version int, body []byte) ([]byte, error) {
	if body != nil && !readable(version) {
		return nil, fmt.Errorf("decode %s: body version %d is not known", kind, version)
	}
	return body, nil
}

// changedFields returns the top-level keys that differ between two bodies, sorted. It is empty
// where the item came or went as a whole.
func changedFields(before, after []byte) ([]string, error) {
	if before == nil || after == nil {
		return nil, nil
	}
	var was, is map[string]json.RawMessage
	if err := json.Unmarshal(before, &was); err != nil {
		return nil, fmt.Errorf("compare bodies: %w", err)
	}
	if err := json.Unmarshal(after, &is); err != nil {
		return nil, fmt.Errorf("compare bodies: %w", err)
	}
	var fields []string
	for key, value := range is {
		if !bytes.Equal(value, was[key]) {
			fields = append(fields, key)
		}
	}
	for key := range was {
		if _, still := is[key]; !still {
			fields = append(fields, key)
		}
	}
	sort.Strings(fields)
	return fields, nil
}
