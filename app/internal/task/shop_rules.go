package task

import (
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Rules returns what the shop set for set-ups in a unit of length.
func (c *Counter) Rules(length unit.Symbol) record.ShopRules { return c.rules[length] }

// WithRule returns the shop's rules with one of them as it was typed. A rule cannot be left out, so that
// nothing typed is refused.
func (c *Counter) WithRule(length unit.Symbol, key record.RuleKey, text string) (record.ShopRules, error) {
	s := c.Rules(length)
	if strings.TrimSpace(text) == "" {
		return s, say.Fail(say.Invalid, "shop.rule-empty", UsualRule(length, key))
	}
	q, err := readOne(sizeColumn(length), text)
	if err != nil {
		return s, err
	}
	return s.With(key, *q)
}

// UsualRule writes what common practice is for a rule, in a unit of length.
func UsualRule(length unit.Symbol, key record.RuleKey) string {
	usual := record.DefaultRules(length)
	return evaluate.StyleOf(record.Units{Length: length}).QuantityIn(usual.Of(key))
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
		return "0.75"
	}
	return ".030"
}

func sizeColumn(length unit.Symbol) unit.Column {
	return record.ShimColumn(record.Units{Length: length})
}
