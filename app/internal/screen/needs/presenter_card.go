package needs

import (
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// part is one field of several that are only kept together: a card without its ratio says nothing.
type part struct {
	name   string // behind the name of the whole
	label  string // key
	have   string // what the book has
	words  bool   // not asked for
	beside bool
	spec   Field
}

// card is the cam card of a role. It goes into the book once lobe lift, ratio, lash and hot or cold are
// all there, and out of it when the lobe lift is cleared.
func (p *Presenter) card(role record.Role) []spec {
	pack := p.bench.Record().PackageOf(role)
	c := pack.Card
	if c == nil {
		c = &record.Card{}
	}
	parts := []part{
		{name: "lobe", label: "needs.card.lobe", have: p.quantity(c.Lobe), spec: Field{Unit: p.bench.LengthUnit()}},
		{name: "ratio", label: "needs.card.ratio", have: task.Number(c.Ratio), beside: true},
		{name: "lash", label: "needs.card.lash", have: p.quantity(c.Lash), beside: true, spec: Field{Unit: p.bench.LengthUnit()}},
		{name: "at", label: "needs.card.at", have: string(c.At), spec: Field{Options: p.temperatures()}},
		{name: "from", label: "needs.from", have: c.From, words: true, beside: true, spec: Field{Long: true}},
	}
	return p.together(string(role)+".card", parts, "needs.card-part", func(texts map[string]string) ([]record.Noun, error) {
		next := pack
		if texts == nil {
			next.Card = nil
			return []record.Noun{next}, nil
		}
		made, err := p.readCard(*c, texts)
		next.Card = &made
		return []record.Noun{next}, err
	})
}

// readCard reads what differs from the card as it is.
func (p *Presenter) readCard(c record.Card, texts map[string]string) (record.Card, error) {
	err := p.reread(&c.Lobe, texts["lobe"])
	if err == nil {
		err = p.reread(&c.Lash, texts["lash"])
	}
	if err == nil {
		c.Ratio, err = task.ReadRatio(texts["ratio"])
	}
	c.At, c.From = record.Temperature(texts["at"]), strings.TrimSpace(texts["from"])
	return c, err
}

// reread reads a length unless the text only shows what was read before.
func (p *Presenter) reread(q *unit.Quantity, text string) error {
	if text == p.quantity(*q) {
		return nil
	}
	read, err := p.bench.ReadSize(unit.Plain, text)
	if err == nil {
		*q = *read
	}
	return err
}

// lash is the lash a role is set to.
func (p *Presenter) lash(role record.Role) []spec {
	pack := p.bench.Record().PackageOf(role)
	l := pack.Lash
	if l == nil {
		l = &record.Lash{}
	}
	parts := []part{
		{name: "target", label: "needs.lash", have: p.quantity(l.Target), spec: Field{Unit: p.bench.LengthUnit()}},
		{name: "at", label: "needs.lash.at", have: string(l.At), beside: true, spec: Field{Options: p.temperatures()}},
	}
	return p.together(string(role)+".lash", parts, "needs.lash-part", func(texts map[string]string) ([]record.Noun, error) {
		next := pack
		if texts == nil {
			next.Lash = nil
			return []record.Noun{next}, nil
		}
		made := *l
		err := p.reread(&made.Target, texts["target"])
		made.At = record.Temperature(texts["at"])
		next.Lash = &made
		return []record.Noun{next}, err
	})
}

// quantity shows a length, "" where it is no reading.
func (p *Presenter) quantity(q unit.Quantity) string {
	if q.Zero() {
		return ""
	}
	return p.bench.Size(&q)
}

// together makes fields of which the book takes all or none. What is typed into one waits until the last
// of them is there; clearing the first takes the whole away; clearing another one is refused. Build
// gets the texts by name, nil to take the whole away.
func (p *Presenter) together(whole string, parts []part, refusal string, build func(map[string]string) ([]record.Noun, error)) []spec {
	kept := parts[0].have != ""
	var names []string
	for _, one := range parts {
		names = append(names, whole+"."+one.name)
	}
	var all []spec
	for i, one := range parts {
		f := one.spec
		f.Name, f.Label, f.Value, f.Beside = names[i], p.bench.Say(one.label), one.have, one.beside
		put := func(text string) ([]record.Noun, error) {
			text = strings.TrimSpace(text)
			if kept && text == "" && !one.words {
				if i > 0 {
					return nil, say.Fail(say.Invalid, refusal, say.New(one.label))
				}
				for j, other := range parts[1:] {
					p.drafts.Keep(names[j+1], other.have, nil)
				}
				return build(nil)
			}
			texts, lacks := p.texts(whole, parts, one.name, text)
			if lacks {
				return nil, p.readable(one, text)
			}
			return build(texts)
		}
		all = append(all, spec{Field: f, put: put, more: names})
		if kept && i == 0 {
			all[0].more = nil // of a card that is taken away the rest stays typed
		}
	}
	return all
}

// texts gathers what stands in the fields of a whole, with one of them as it is typed now. It reports
// whether one is still lacking.
func (p *Presenter) texts(whole string, parts []part, name, text string) (texts map[string]string, lacks bool) {
	texts = map[string]string{}
	for _, one := range parts {
		t := one.have
		if d, ok := p.drafts.At(whole + "." + one.name); ok {
			t = d.Text
		}
		if one.name == name {
			t = text
		}
		texts[one.name] = t
		lacks = lacks || t == "" && !one.words
	}
	return texts, lacks
}

// readable refuses at once what would be refused when the rest is there.
func (p *Presenter) readable(one part, text string) error {
	switch {
	case text == "":
		return nil
	case one.name == "ratio":
		_, err := task.ReadRatio(text)
		return err
	case one.spec.Unit != "":
		_, err := p.bench.ReadSize(unit.Plain, text)
		return err
	}
	return nil
}
