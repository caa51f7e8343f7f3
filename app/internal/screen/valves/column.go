package valves

import (
	"slices"

	"keeperbook/app/internal/kit/table"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// column is one column of the table with what is typed into it: readings of a kind and coil, or shims,
// or nothing where its numbers are worked out.
type column struct {
	table.Column
	name  say.Line // what it holds, in a sentence: "base height"
	kind  record.Kind
	coil  int
	under record.Under
	load  bool   // its numbers are loads
	text  string // key of its texts in the evaluation, "" where they are made of readings
}

func (c column) typed() bool { return c.kind != "" || c.under != "" }

// columns returns the columns that this head needs, in bench order but for the margin.
func (p *Presenter) columns(use usage) []column {
	var all []column
	add := func(when bool, c column) {
		if when {
			all = append(all, c)
		}
	}
	depths, lash, room := p.shows(use, Difference), p.shows(use, Lash), p.shows(use, Gap)
	use.whole = p.shows(use, WholeBind)

	add(true, worked("verdict"))
	add(true, column{Column: table.Column{Key: "bar", Computed: true}, name: say.New("valves.bar")})
	// The number stands beside its bar, where it is in sight however many columns there are.
	add(true, worked("margin"))
	add(true, worked("u"))
	add(depths, readings(record.SeatDepth, ""))
	add(depths, readings(record.RetainerDepth, ""))
	if depths && !use.kinds[record.BaseHeight] {
		add(true, worked("base"))
	} else {
		add(true, readings(record.BaseHeight, "base"))
	}
	add(true, readings(record.SealGap, "seal"))
	add(room, readings(record.Room, "room"))
	add(true, shims("shims", record.UnderLocator))
	add(p.shows(use, OuterShims), shims("outer", record.UnderOuter))
	add(true, worked("calc"))
	add(true, readings(record.CheckHeight, "check"))
	add(true, readings(record.LiftChecking, "lift"))
	add(p.shows(use, RunningLift), readings(record.LiftRunning, ""))
	add(true, worked("open"))
	all = append(all, use.binds()...)
	add(true, worked("least"))
	add(true, worked("up-to"))
	add(p.shows(use, SeatLoads), loadsRead())
	add(p.knows("seat-load"), worked("seat-load"))
	add(p.knows("open-load"), worked("open-load"))
	add(true, worked("seal-open"))
	add(room, worked("room-open"))
	add(true, readings(record.Tip, "tip"))
	add(lash, readings(record.LashFound, "lash-found"))
	add(lash, readings(record.LashShim, ""))
	add(lash, worked("lash-shim"))
	add(lash, readings(record.LashLeft, "lash-left"))
	return all
}

// knows reports whether a load of this key is known of any valve.
func (p *Presenter) knows(key string) bool {
	valves := p.bench.Evaluation().Valves
	for i := range valves {
		if l, _ := valves[i].Load(key); l.Known {
			return true
		}
	}
	return false
}

// loadsRead is the column of seat loads that are read on the head.
func loadsRead() column {
	c := readings(record.SeatLoad, "seat-read")
	c.load = true
	return c
}

// worked is a column whose texts the evaluation works out.
func worked(key string) column {
	_, load := (&evaluate.Valve{}).Load(key)
	return column{Column: table.Column{Key: key, Computed: true}, name: say.New("column." + key), text: key, load: load}
}

// readings is a column of readings. Text is the key under which the evaluation has what they come to.
func readings(kind record.Kind, text string) column {
	key := text
	if key == "" {
		key = "taken-" + string(kind)
	}
	return column{Column: table.Column{Key: key}, name: say.New("kind." + string(kind)), kind: kind, text: text}
}

func shims(key string, under record.Under) column {
	name := say.New("column.shims")
	if under == record.UnderOuter {
		name = say.New("valves.outer-shims")
	}
	return column{Column: table.Column{Key: key, Text: true}, name: name, under: under}
}

// title is what stands over a column.
func (c column) title() say.Line {
	switch {
	case c.Key == "bar":
		return c.name
	case c.kind == record.BindReading:
		return c.name
	case c.under == record.UnderOuter:
		return say.New("valves.title.outer")
	case c.text == "" && c.kind != "", c.Key == "seat-read":
		return say.New("valves.title." + string(c.kind))
	}
	return say.New("column." + c.Key)
}

// usage is what the parts and readings of a set-up say of the columns it needs.
type usage struct {
	kinds map[record.Kind]bool
	coils []string // names, outermost first; "" where two roles name a coil differently
	whole bool     // somebody measured the bind of a spring as one
	room  bool     // what the retainer comes closest to is named
	lash  bool     // a lash is to be set
	outer bool     // a shim lies under an outer coil only
}

func usageOf(rec *record.Record) usage {
	u := usage{kinds: map[record.Kind]bool{}, coils: []string{""}}
	for i := range rec.Setup.Readings {
		r := &rec.Setup.Readings[i]
		if r.Struck != nil {
			continue
		}
		u.kinds[r.Kind] = true
		if r.Kind == record.BindReading {
			u.whole = u.whole || r.Coil == 0
			for len(u.coils) < r.Coil {
				u.coils = append(u.coils, "")
			}
		}
	}
	for _, pack := range rec.Setup.Packages {
		u.room = u.room || pack.Nearest != ""
		u.lash = u.lash || pack.Lash != nil
	}
	named := map[int]bool{}
	for _, at := range rec.Head.Positions() {
		for i, coil := range coilsAt(rec, at) {
			switch {
			case i >= len(u.coils):
				u.coils = append(u.coils, coil.Name)
			case !named[i]:
				u.coils[i] = coil.Name
			case u.coils[i] != coil.Name:
				u.coils[i] = ""
			}
			named[i] = true
		}
	}
	for _, v := range rec.Setup.Valves {
		u.outer = u.outer || slices.ContainsFunc(v.Stack, func(s record.Shim) bool { return s.Under == record.UnderOuter })
	}
	return u
}

// binds are the columns of bind heights, one a coil.
func (u usage) binds() []column {
	var all []column
	if u.whole {
		all = append(all, bindColumn("bind-0", 0, say.New("valves.bind", say.New("coil-short.assembly"))))
	}
	for i, name := range u.coils {
		c := bindColumn("bind-"+string(rune('1'+i)), i+1, say.New("valves.bind", coilWord(name, i+1)))
		if len(u.coils) == 1 {
			c.name = say.New("column.bind")
		}
		all = append(all, c)
	}
	return all
}

func bindColumn(key string, coil int, name say.Line) column {
	return column{Column: table.Column{Key: key}, name: name, kind: record.BindReading, coil: coil}
}

// coilWord translates the usual names of coils and leaves a shop's own word as it is.
func coilWord(name string, coil int) say.Line {
	if name == "" {
		return say.New("valves.coil", coil)
	}
	return evaluate.CoilShort(name)
}

// coilsAt returns the coils of the spring at a position, nil while no spring is named.
func coilsAt(rec *record.Record, at record.Position) []record.Coil {
	id := rec.PackageOf(at.Role).Spring
	tag := rec.ValveAt(at).Spring
	for _, piece := range rec.Parts.Pieces {
		if tag != "" && piece.Tag == tag {
			id = piece.Spring
		}
	}
	for _, s := range rec.Parts.Springs {
		if id != "" && s.ID == id {
			return s.Coils
		}
	}
	return nil
}

// bindOf is the bind of a coil of a valve as it is worked with, wherever it comes from.
func bindOf(v *evaluate.Valve, coil int) evaluate.Figure {
	for _, c := range v.Coils {
		if c.Index == coil && c.Name != "assembly" || coil == 0 && c.Name == "assembly" {
			return c.Bind
		}
	}
	return evaluate.Figure{}
}
