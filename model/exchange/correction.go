package exchange

import (
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// partWords are the words of a listed correction. The first of each part is the one that is written.
var partWords = []struct {
	word string
	part record.PartOfStack
}{
	{"lid", record.Lid},
	{"locator", record.Floor},
	{"floor", record.Floor},
	{"jaws", record.Jaws},
	{"step", record.RetainerStep},
	{"retainer-step", record.RetainerStep},
	{"locator-step", record.LocatorStep},
	{"zero", record.ZeroOffset},
	{"zero-offset", record.ZeroOffset},
}

// partList is what a refusal offers.
const partList = "lid, locator, jaws, step, locator-step, zero"

// parseCorrection reads a cell of the column "correction". An error's sentence does not name the line.
func parseCorrection(text string) (Correction, *say.Error) {
	switch said := Said(strings.ToLower(text)); said {
	case Unsaid, AsSet, AtTheSpring:
		return Correction{Said: said}, nil
	}
	c := Correction{Said: Listed}
	// A plus joins parts and never belongs to an amount; a step and a zero offset may have a minus.
	for _, piece := range strings.Split(text, "+") {
		p, err := parsePart(strings.Fields(piece), text)
		if err != nil {
			return Correction{}, err
		}
		// There are six parts, so this stays short however long the cell is.
		for _, other := range c.Parts {
			if other.Part == p.Part {
				return Correction{}, say.Fail(say.Invalid, "exchange.csv-part-twice", short(text), written(p.Part))
			}
		}
		c.Parts = append(c.Parts, p)
	}
	return c, nil
}

// parsePart reads "lid .095" or "step .095 zeroed".
func parsePart(words []string, all string) (Part, *say.Error) {
	if len(words) == 0 {
		return Part{}, say.Fail(say.Invalid, "exchange.csv-correction", short(all), partList)
	}
	p := Part{Zero: record.NotZeroed}
	for _, w := range partWords {
		if strings.EqualFold(words[0], w.word) {
			p.Part = w.part
		}
	}
	rest := words[1:]
	if n := len(rest); n > 0 {
		switch z := record.Zeroing(strings.ToLower(rest[n-1])); z {
		case record.Zeroed, record.NotZeroed:
			p.Zero, rest = z, rest[:n-1]
		}
	}
	p.Amount = strings.Join(rest, " ")
	switch {
	case p.Part == "":
		return Part{}, say.Fail(say.Invalid, "exchange.csv-correction", short(all), partList)
	case !strings.ContainsAny(p.Amount, "0123456789"):
		return Part{}, say.Fail(say.Invalid, "exchange.csv-amount", short(all), written(p.Part))
	}
	return p, nil
}

// written returns the word of a part.
func written(p record.PartOfStack) string {
	for _, w := range partWords {
		if w.part == p {
			return w.word
		}
	}
	return string(p)
}

// String returns the correction as it stands in a table.
func (c Correction) String() string {
	if c.Said != Listed {
		return string(c.Said)
	}
	words := make([]string, len(c.Parts))
	for i, p := range c.Parts {
		words[i] = written(p.Part) + " " + p.Amount
		if p.Zero == record.Zeroed {
			words[i] += " " + string(record.Zeroed)
		}
	}
	return strings.Join(words, " + ")
}
