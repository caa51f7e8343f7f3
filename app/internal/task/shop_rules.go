package task

import (
	"slices"
	"strings"
	"unicode"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Rules returns what the shop set for set-ups in a unit of length.
func (c *Counter) Rules(length unit.Symbol) record.ShopRules { return c.rules[length] }

// WithRule returns the shop's rules with one of them as it was typed. A rule that common practice has a figure for
// cannot be left out, so that nothing typed is refused; a clearance then is no rule any more.
func (c *Counter) WithRule(length unit.Symbol, key record.RuleKey, text string) (record.ShopRules, error) {
	s := c.Rules(length)
	text = strings.TrimSpace(text)
	switch {
	case text == "" && key.Optional():
		return s.Without(key), nil
	case text == "":
		return s, say.Fail(say.Invalid, "shop.rule-empty", UsualRule(length, key))
	case slices.Contains(record.LoadRules(), key):
		q, err := readOne(record.PlainColumn(s.Load()), text)
		if err != nil {
			return s, err
		}
		return s.WithLoad(key, *q)
	case slices.Contains(record.ShareRules(), key):
		return s.WithShare(key, decimal(strings.TrimSpace(strings.TrimSuffix(text, "%"))))
	case key == record.RuleAngles:
		var angles []string
		for _, a := range inList(text) {
			angles = append(angles, decimal(strings.TrimSuffix(a, "°")))
		}
		return s.WithAngles(angles)
	case slices.Contains(record.ListRules(), key):
		return c.withLengths(s, key, text)
	}
	q, err := readOne(sizeColumn(length), text)
	if err != nil {
		return s, err
	}
	return s.With(key, *q)
}

// withLengths reads a list of lengths: offsets of locks have a sign.
func (c *Counter) withLengths(s record.ShopRules, key record.RuleKey, text string) (record.ShopRules, error) {
	column := sizeColumn(s.Length)
	if key == record.RuleOffsets {
		column.Kind = unit.Signed
	}
	var all []unit.Quantity
	for _, one := range inList(text) {
		q, err := readOne(column, one)
		if err != nil {
			return s, err
		}
		all = append(all, *q)
	}
	return s.WithList(key, all)
}

// inList takes apart what is typed with spaces or semicolons between.
func inList(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == ';' || unicode.IsSpace(r) })
}

// decimal is a number as records have it; what is none is refused when it is kept.
func decimal(text string) string { return strings.Replace(text, ",", ".", 1) }

// Number is a number as records have it, with the decimal mark of the chosen language.
func Number(text string) string { return say.Chosen().Number(say.Number(text)) }

// RuleTyped writes a rule as [Counter.WithRule] reads it, and the unit behind it. A rule that is not there is empty.
func RuleTyped(r record.Rules, length unit.Symbol, key record.RuleKey) (text string, behind string) {
	own := length
	switch {
	case slices.Contains(record.LoadRules(), key):
		own = record.ShopRules{Length: length}.Load()
	case slices.Contains(record.ShareRules(), key):
		return Number(r.Share(key)), "%"
	case key == record.RuleAngles:
		all := make([]string, len(r.LockAngles))
		for i, a := range r.LockAngles {
			all[i] = Number(a)
		}
		return strings.Join(all, " "), "°"
	case slices.Contains(record.ListRules(), key):
		all := make([]string, len(r.List(key)))
		for i, q := range r.List(key) {
			all[i] = inPair(length, q)
		}
		return strings.Join(all, " "), string(length)
	}
	q := r.Of(key)
	if q == (unit.Quantity{}) {
		return "", string(own)
	}
	// In full, with its unit where that is another than the column's.
	text = record.PlainColumn(own).Understood(q)
	if bare, ok := strings.CutSuffix(text, " "+string(own)); ok {
		return bare, string(own)
	}
	return text, ""
}

// UsualRule writes what common practice is for a rule, in a unit of length; "" where it has none.
func UsualRule(length unit.Symbol, key record.RuleKey) string {
	usual := record.DefaultRules(length)
	if q := usual.Of(key); q.Unit.Dimension() == unit.OfLength {
		return evaluate.StyleOf(record.Units{Length: length}).QuantityIn(q)
	}
	text, behind := RuleTyped(usual, length, key)
	if text == "" {
		return ""
	}
	return text + " " + behind
}

// WithSize returns the shop's rules with one more size of shim, which is typed as a shim is at a valve.
func (c *Counter) WithSize(length unit.Symbol, text string) (record.ShopRules, error) {
	s := c.Rules(length)
	column := sizeColumn(length)
	shims, none, err := unit.ParseStack(column, text)
	switch {
	case err != nil:
		return s, err
	case none:
		return s, say.Fail(say.Invalid, "shop.size-none", strings.TrimSpace(text), SizeExample(length))
	case len(shims) > 1:
		return s, say.Fail(say.Invalid, "shop.size-one", strings.TrimSpace(text), SizeExample(length))
	}
	return s.WithSize(shims[0])
}

// SizeExample is a size of shim as it may be typed.
func SizeExample(length unit.Symbol) string {
	if length == unit.Mm {
		return Number("0.75")
	}
	return Number(".030")
}

func sizeColumn(length unit.Symbol) unit.Column {
	return record.PlainColumn(length)
}
