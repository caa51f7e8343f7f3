package exchange

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"pgregory.net/rapid"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// The generators below draw whole records that hold together: any layout, any texts, every noun and
// every field now and then.

func of(read string, s unit.Symbol) unit.Quantity {
	q, err := unit.Of(read, s)
	if err != nil {
		panic(err)
	}
	return q
}

type drawer struct{ t *rapid.T }

func (d drawer) yes() bool              { return rapid.Bool().Draw(d.t, "yes") }
func (d drawer) upTo(n int) int         { return rapid.IntRange(0, n).Draw(d.t, "n") }
func (d drawer) between(a, b int) int   { return rapid.IntRange(a, b).Draw(d.t, "n") }
func (d drawer) text() string           { return texts.Draw(d.t, "text") }
func one[T any](d drawer, all ...T) T   { return rapid.SampledFrom(all).Draw(d.t, "one") }
func sometimes[T any](d drawer, v T) *T { return map[bool]*T{true: &v}[d.yes()] }

// texts are any that a record may hold; a few that other formats trip over come often.
var texts = rapid.OneOf(
	rapid.SampledFrom([]string{
		"", "=1+1", "+2", "-3", "@x", "'=1", "''", "'", "\ttab", " outer space ", "a,b;c\td", "two\nlines", "two\r\nlines", "\r",
		`"`, `say "so"`, "<b>&", "\u2028", "é", "ﬁ", "😀", "\ufffd", "*", "\ufeff",
	}),
	rapid.Map(rapid.String(), func(s string) string { return strings.ReplaceAll(s, "\x00", "0") }),
)

var labels = rapid.OneOf(
	rapid.SampledFrom([]string{"1", "3", "1 ex", "a in", " 2", "3 ", "ex", "in 2", "=4", "'5", "6*", "vorn, links"}),
	rapid.Map(rapid.StringN(1, 6, -1), func(s string) string { return strings.NewReplacer("/", "1", "\x00", "0").Replace(s) }),
)

// reference returns "" or one of the keys.
func (d drawer) reference(keys []string) string {
	if len(keys) == 0 || d.yes() {
		return ""
	}
	return one(d, keys...)
}

func (d drawer) stamp() record.Stamp {
	s := rapid.Int64Range(0, 4_000_000_000).Draw(d.t, "stamp")
	return record.Stamp(time.Unix(s, 0).UTC().Format("2006-01-02T15:04:05Z"))
}

// number is a decimal with up to six decimals, the most that an inch holds exactly.
func (d drawer) number(sign string) string {
	read := strconv.Itoa(d.upTo(30))
	if n := d.upTo(6); n > 0 {
		read += fmt.Sprintf(".%0*d", n, rapid.Int64Range(0, pow10(n)-1).Draw(d.t, "frac"))
	}
	if sign != "" && d.yes() {
		read = sign + read
	}
	return read
}

func pow10(n int) int64 {
	p := int64(1)
	for range n {
		p *= 10
	}
	return p
}

func (d drawer) length() unit.Quantity    { return d.quantity("-", unit.In, unit.Mm) }
func (d drawer) thickness() unit.Quantity { return d.quantity("", unit.In, unit.Mm) }

func (d drawer) quantity(sign string, units ...unit.Symbol) unit.Quantity {
	q := of(d.number(sign), one(d, units...))
	q.Typed = d.text()
	return q
}

func (d drawer) taken(k drawn) []record.Taken {
	var all []record.Taken
	for _, p := range record.PartsOfStack {
		if d.upTo(3) == 0 {
			all = append(all, record.Taken{
				Part: p, Amount: d.length(), Zero: one(d, record.Zeroed, record.NotZeroed), Gauge: d.reference(k.gauges),
			})
		}
	}
	return all
}

func (d drawer) stack(k drawn) []record.Shim {
	var all []record.Shim
	for range d.upTo(3) {
		all = append(all, record.Shim{
			Thickness: d.thickness(), Under: one(d, record.UnderLocator, record.UnderOuter), Gauge: d.reference(k.gauges), Note: d.text(),
		})
	}
	return all
}

// gauge draws a gauge that can be.
func (d drawer) gauge(k drawn, id string) record.Gauge {
	g := record.Gauge{
		ID: id, Name: d.text(), Kind: one(d, record.GaugeKinds...), Number: d.text(), Setting: d.taken(k), Note: d.text(),
	}
	if d.yes() {
		g.Step = some(one(d, "0.001", "0.0005", "0.02"), one(d, unit.In, unit.Mm))
	}
	if d.yes() {
		g.Calibration = &record.Calibration{U: d.thickness(), K: d.factor(), Certificate: d.text(), By: d.text()}
		if d.yes() {
			g.Calibration.Date = one[record.Date](d, "2024-02-29", "2025-12-31")
		}
		if d.yes() {
			g.Calibration.Due = one[record.Date](d, "2026-01-01", "2026-02-28")
		}
	}
	if d.yes() {
		g.Repeat = &record.Repeat{S: d.thickness(), Freedom: d.factor(), Study: d.text(), People: d.upTo(4)}
	}
	if g.Kind == record.SpringTester && d.yes() {
		g.LoadScale = d.loadScale()
	}
	return g
}

func (d drawer) factor() string { return one(d, "2", "1.96", "24", "0.5", "193.32") }

func (d drawer) lot() *record.Lot {
	return sometimes(d, record.Lot{Count: d.between(2, 9), Spread: d.thickness()})
}

// keysOf makes up to most keys with this prefix.
func (d drawer) keysOf(prefix string, most int) []string {
	var all []string
	for i := range d.upTo(most) {
		all = append(all, fmt.Sprintf("%s%d %s", prefix, i, d.text()))
	}
	return all
}

// drawn are the keys that the nouns of a record may name.
type drawn struct{ springs, pieces, retainers, locks, locators, seals, valves, gauges []string }

func (d drawer) bind(k drawn) record.Bind {
	b := record.Bind{
		Reading: d.length(), Correction: d.taken(k), By: d.text(),
		Source: one(d, record.Measured, record.Supplied, record.Estimated), Gauge: d.reference(k.gauges),
	}
	if d.yes() {
		b.At = d.stamp()
	}
	return b
}

// drawRecord draws a record.
func drawRecord(t *rapid.T) record.Record {
	d := drawer{t}
	k := drawn{
		d.keysOf("s", 2), nil, d.keysOf("r", 2), d.keysOf("k", 2), d.keysOf("c", 2), d.keysOf("g", 2), d.keysOf("v", 2), d.keysOf("u", 2),
	}
	if len(k.springs) > 0 {
		k.pieces = d.keysOf("p", 2)
	}
	r := record.Record{
		Shop:   record.Shop{Name: d.text(), Place: d.text(), Phone: d.text()},
		Engine: record.Engine{ID: "e", Name: d.text(), Note: d.text()},
		Head:   d.head(),
		Parts:  d.parts(k),
	}
	if d.yes() {
		r.Owner = &record.Owner{ID: "o", Name: d.text()}
		r.Engine.Owner = "o"
	}
	if d.yes() {
		r.Engine.Firing = slices.Clone(r.Head.Cylinders)
	}
	for _, id := range k.gauges {
		r.Gauges = append(r.Gauges, d.gauge(k, id))
	}
	r.Setup = d.setup(k, &r.Head)
	return r
}

func (d drawer) head() record.Head {
	h := record.Head{
		ID: "h", Engine: "e", Tag: d.text(), Casting: d.text(), WorkOrder: d.text(), Front: d.text(), Note: d.text(),
		Cylinders: rapid.SliceOfNDistinct(labels, 1, 3, rapid.ID).Draw(d.t, "cylinders"),
		Intakes:   d.between(1, 3), Exhausts: d.between(1, 3), Material: one(d, "", record.Iron, record.Aluminium),
	}
	if d.yes() {
		h.Order = rapid.Permutation(h.Positions()).Draw(d.t, "order")
	}
	return h
}

func (d drawer) parts(k drawn) record.Parts {
	var p record.Parts
	for _, id := range k.springs {
		p.Springs = append(p.Springs, d.spring(k, id))
	}
	for _, tag := range k.pieces {
		p.Pieces = append(p.Pieces, d.piece(k, tag))
	}
	for _, id := range k.retainers {
		p.Retainers = append(p.Retainers, record.Retainer{
			ID: id, Name: d.text(), Material: d.text(), Lid: sometimes(d, d.length()), Steps: d.lengths(), Gauge: d.reference(k.gauges), Note: d.text(),
			Outside: d.size(1000, 1500), Registers: d.registers(), Stem: d.size(200, 400), Angle: one(d, "", "7", d.text()),
			Groove: one(d, "", record.SingleGroove, record.MultiGroove),
		})
	}
	for _, id := range k.locks {
		p.Locks = append(p.Locks, record.Locks{
			ID: id, Name: d.text(), Offset: sometimes(d, d.length()), Angle: d.text(),
			Groove: one(d, "", record.SingleGroove, record.MultiGroove), Note: d.text(), Stem: d.size(200, 400),
		})
	}
	for _, id := range k.locators {
		p.Locators = append(p.Locators, record.Locator{
			ID: id, Name: d.text(), Floor: sometimes(d, d.length()), Steps: d.lengths(), Gauge: d.reference(k.gauges), Note: d.text(),
			Registers: d.registers(), Cup: d.size(1200, 1400), Outside: d.size(1401, 1600), Bore: d.size(400, 700),
		})
	}
	for _, id := range k.seals {
		p.Seals = append(p.Seals, record.Seal{ID: id, Name: d.text(), Sits: one(d, record.OnGuide, record.OnLocator), Note: d.text(), Outside: d.size(400, 800), Height: d.size(300, 900)})
	}
	for _, id := range k.valves {
		p.Valves = append(p.Valves, record.ValvePart{
			ID: id, Name: d.text(), Material: d.text(), Head: sometimes(d, d.length()), Stem: sometimes(d, d.length()),
			Length: sometimes(d, d.length()), Mass: d.text(), Note: d.text(),
			Groove: one(d, "", record.SingleGroove, record.MultiGroove), Angle: one(d, "", "10", d.text()),
		})
	}
	return p
}

func (d drawer) lengths() []unit.Quantity {
	var all []unit.Quantity
	for range d.upTo(2) {
		all = append(all, d.length())
	}
	return all
}

func (d drawer) setup(k drawn, h *record.Head) record.Setup {
	s := record.Setup{
		ID: "x", Head: "h", Kind: one(d, record.AsFound, record.AsBuilt), Replaces: d.text(), Begun: d.stamp(), By: d.text(),
		State: one(d, record.Open, record.Closed), Note: d.text(),
		Units: record.Units{Length: one(d, unit.In, unit.Mm), Load: one(d, unit.Lbf, unit.N, unit.Kgf)},
		Rules: record.Rules{
			Decision: one(d, record.Decisions...), Agree: d.length(), SealLeast: d.length(), RetainerLeast: d.length(),
			SetHeights: d.length(), RatedOver: d.length(),
		},
		Needs: record.Needs{Use: d.text(), Boost: sometimes(d, d.quantity("-", unit.Psi, unit.KPa, unit.Bar)), Recheck: d.text()},
	}
	s.Needs.Pocket, s.Needs.Boss, s.Needs.Centres = d.size(1400, 1800), d.size(400, 700), d.size(1500, 2500)
	s.Needs.LifterMost, s.Needs.CamMost = sometimes(d, of("420", unit.Lbf)), sometimes(d, of("1900", unit.N))
	d.loadRules(&s.Rules)
	for range d.upTo(3) {
		s.Rules.Sizes = append(s.Rules.Sizes, d.thickness())
	}
	s.Rules.ShimTolerance = sometimes(d, d.thickness())
	for _, kind := range record.GaugeKinds[:d.upTo(3)] {
		s.Rules.Assumed = append(s.Rules.Assumed, record.Assumed{Kind: kind, S: d.thickness(), Step: of("0.01", unit.Mm)})
	}
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		if d.yes() {
			s.Packages = append(s.Packages, d.pack(k, role))
		}
	}
	for i, at := range h.Positions() {
		if d.yes() {
			s.Valves = append(s.Valves, d.valve(k, at))
		}
		if d.yes() {
			s.Readings = append(s.Readings, d.readings(k, at)...)
		}
		id := strconv.Itoa(i)
		switch d.upTo(6) {
		case 0:
			s.SeatWork = append(s.SeatWork, record.SeatWork{ID: id, At: at, Depth: d.thickness(), By: d.text(), When: d.stamp()})
		case 1:
			s.Deviations = append(s.Deviations, record.Deviation{
				ID: id, At: one(d, at, record.Position{}), Finding: "seal", Reason: d.text(), By: d.text(), When: d.stamp(),
				Found: d.found(),
			})
		case 2:
			s.Checks = append(s.Checks, record.Check{
				ID: id, What: d.text(), Done: one(d, record.DoneHere, record.NotDoneHere), Who: d.text(), Note: d.text(),
			})
		case 3:
			if len(s.Shared) == 0 {
				s.Shared = append(s.Shared, record.Shared{Kind: record.LiftChecking, Role: at.Role, From: at})
			}
		}
	}
	return s
}

func (d drawer) pack(k drawn, role record.Role) record.Package {
	p := record.Package{
		Role: role, Spring: d.reference(k.springs), Retainer: d.reference(k.retainers), Locks: d.reference(k.locks),
		Locator: d.reference(k.locators), Seal: d.reference(k.seals), Valve: d.reference(k.valves), Nearest: d.text(),
		Most:     sometimes(d, d.length()),
		Lash:     sometimes(d, record.Lash{Target: d.length(), At: record.Cold}),
		Card:     sometimes(d, record.Card{Lobe: d.length(), Ratio: one(d, "1", "1.6", ".5", "1,75"), Lash: d.length(), At: record.Hot, From: d.text()}),
		SeatLoad: d.band(), OpenLoad: d.band(),
	}
	for coil := 1; coil <= d.upTo(4); coil++ {
		p.Least = append(p.Least, record.Least{Coil: coil, Margin: d.length(), From: d.text()})
	}
	return p
}

func (d drawer) valve(k drawn, at record.Position) record.Valve {
	v := record.Valve{
		At: at, Stack: d.stack(k), Spring: d.reference(k.pieces), Retainer: d.reference(k.retainers), Locks: d.reference(k.locks),
		Locator: d.reference(k.locators), Seal: d.reference(k.seals), Valve: d.reference(k.valves), Note: d.text(),
	}
	if len(v.Stack) == 0 && d.yes() {
		v.NoShim = "none"
	}
	return v
}

func (d drawer) readings(k drawn, at record.Position) []record.Reading {
	var all []record.Reading
	for range d.upTo(3) {
		kind, coil := one(d, record.Kinds...), d.upTo(4)
		for n := 1; n <= d.between(1, 3); n++ {
			r := record.Reading{
				At: at, Coil: coil, Kind: kind, N: n, Quantity: d.length(), Correction: d.taken(k), Gauge: d.reference(k.gauges),
				Method: one(d, methods...), By: d.text(), When: d.stamp(), Piece: d.reference(k.pieces), Note: d.text(),
				Struck: sometimes(d, record.Strike{Reason: d.text(), By: d.text(), When: d.stamp()}),
			}
			if kind.IsLoad() {
				// What is taken off a load is off the height that it was taken at.
				r.Quantity, r.Height, r.Heights = d.load(), d.size(1100, 2000), d.reference(k.gauges)
				if r.Height == nil {
					r.Correction, r.Heights = nil, ""
				}
			}
			if d.yes() {
				r.Over = &record.Over{
					Stack: d.stack(k), Locks: d.reference(k.locks), Retainer: d.reference(k.retainers), Locator: d.reference(k.locators),
					Valve: d.reference(k.valves), Offset: unit.Length(d.upTo(9)), Seat: unit.Length(-d.upTo(9)),
				}
			}
			if !slices.ContainsFunc(all, func(o record.Reading) bool { return o.Key() == r.Key() }) {
				all = append(all, r)
			}
		}
	}
	return all
}

func drawFigures(t *rapid.T) record.Figures {
	d := drawer{t}
	f := record.Figures{Summary: d.text(), Next: d.text()}
	for i := range d.upTo(3) {
		f.Columns = append(f.Columns, record.Column{Key: strconv.Itoa(i), Title: d.text(), Unit: d.text()})
	}
	for range d.upTo(3) {
		row := record.Row{Valve: d.text()}
		for range f.Columns {
			row.Cells = append(row.Cells, d.text())
		}
		f.Rows = append(f.Rows, row)
	}
	for range d.upTo(2) {
		f.Notes = append(f.Notes, d.text())
	}
	return f
}

// found is what was accepted of a finding; nil in what books of before have.
func (d drawer) found() []record.Found {
	if !d.yes() {
		return nil
	}
	f := record.Found{Verdict: "short", Line: d.text()}
	if d.yes() {
		beyond := unit.Length(1 + d.upTo(1_000_000))
		f.Beyond = &beyond
	}
	return []record.Found{f}
}
