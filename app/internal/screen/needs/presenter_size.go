package needs

import (
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// bands are the loads that are asked for of a role, and who set them.
func (p *Presenter) bands(role record.Role) []spec {
	pack := p.bench.Record().PackageOf(role)
	return append(
		p.band(string(role)+".seat-load", "needs.seat-load.", pack, func(n *record.Package) **record.Band { return &n.SeatLoad }),
		p.band(string(role)+".open-load", "needs.open-load.", pack, func(n *record.Package) **record.Band { return &n.OpenLoad })...)
}

// band is one load: its least, what it aims at, its most, and whose word that is. A band of which nothing is left
// goes away.
func (p *Presenter) band(name, label string, pack record.Package, at func(*record.Package) **record.Band) []spec {
	have := record.Band{}
	if b := *at(&pack); b != nil {
		have = *b
	}
	put := func(set func(*record.Band, string) error) func(string) ([]record.Noun, error) {
		return func(text string) ([]record.Noun, error) {
			next, band := pack, have
			if err := set(&band, text); err != nil {
				return nil, err
			}
			*at(&next) = &band
			if band == (record.Band{}) {
				*at(&next) = nil
			}
			return []record.Noun{next}, nil
		}
	}
	load := func(part string, q *unit.Quantity, to func(*record.Band) **unit.Quantity) spec {
		return spec{
			Field: Field{Name: name + "." + part, Label: p.bench.Say(label + part), Value: p.bench.Size(q), Unit: p.bench.LoadUnit(), Beside: part != "least"},
			put: put(func(b *record.Band, text string) (err error) {
				*to(b), err = p.bench.ReadLoad(text)
				return err
			}),
		}
	}
	return []spec{
		load("least", have.Least, func(b *record.Band) **unit.Quantity { return &b.Least }),
		load("target", have.Target, func(b *record.Band) **unit.Quantity { return &b.Target }),
		load("most", have.Most, func(b *record.Band) **unit.Quantity { return &b.Most }),
		{
			Field: Field{Name: name + ".from", Label: p.bench.Say("needs.from"), Value: have.From, Long: true, Beside: true},
			put:   put(func(b *record.Band, text string) error { b.From = strings.TrimSpace(text); return nil }),
		},
	}
}

// casting is what the head is cast of, and its sizes that springs and their parts go into.
func (p *Presenter) casting() section {
	h := p.bench.Record().Head
	material := spec{
		Field: Field{Name: "needs.material", Label: p.bench.Say("needs.material"), Value: string(h.Material), Options: []Option{
			{"", p.bench.Say("needs.unsaid")}, {string(record.Iron), p.bench.Say("needs.iron")}, {string(record.Aluminium), p.bench.Say("needs.aluminium")},
		}},
		put: func(text string) ([]record.Noun, error) {
			h.Material = record.HeadMaterial(text)
			return []record.Noun{h}, nil
		},
	}
	size := func(key string, beside bool, at func(*record.Needs) **unit.Quantity) spec {
		return p.needed(key, beside, p.bench.LengthUnit(), at, func(text string) (*unit.Quantity, error) { return p.bench.ReadSize(unit.Plain, text) })
	}
	return section{"casting", p.bench.Say("needs.group.casting"), "", []spec{
		material,
		size("needs.pocket", false, func(n *record.Needs) **unit.Quantity { return &n.Pocket }),
		size("needs.boss", true, func(n *record.Needs) **unit.Quantity { return &n.Boss }),
		size("needs.centres", true, func(n *record.Needs) **unit.Quantity { return &n.Centres }),
	}}
}

// allowed is the most open load that a maker allows.
func (p *Presenter) allowed(key string, at func(*record.Needs) **unit.Quantity) spec {
	return p.needed(key, false, p.bench.LoadUnit(), at, p.bench.ReadLoad)
}

// needed is a number among the needs of a set-up.
func (p *Presenter) needed(key string, beside bool, in string, at func(*record.Needs) **unit.Quantity,
	read func(string) (*unit.Quantity, error)) spec {
	s := p.bench.Record().Setup
	return spec{
		Field: Field{Name: key, Label: p.bench.Say(key), Value: p.bench.Size(*at(&s.Needs)), Unit: in, Beside: beside},
		put: func(text string) ([]record.Noun, error) {
			q, err := read(text)
			if err != nil {
				return nil, err
			}
			*at(&s.Needs) = q
			return []record.Noun{s}, nil
		},
	}
}
