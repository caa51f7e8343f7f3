package exchange

import (
	"fmt"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// The generators below draw springs, the tester that tests them, and the sizes of parts: such as can be, in
// any units and with any texts.

// size is a length above nought.
func (d drawer) size(from, to int) *unit.Quantity {
	thou := d.between(from, to)
	q := of(fmt.Sprintf("%d.%03d", thou/1000, thou%1000), unit.In)
	if d.yes() {
		q = of(fmt.Sprintf("%d.%04d", thou*254/10000, thou*254%10000), unit.Mm)
	}
	q.Typed = d.text()
	return map[bool]*unit.Quantity{true: &q}[d.yes()]
}

func (d drawer) load() unit.Quantity { return d.quantity("", unit.Lbf, unit.N, unit.Kgf) }

// loads draws points that rise as the spring is pressed, in any order; the lot is that of a type.
func (d drawer) loads(k drawn, lot bool) *record.Loads {
	if d.yes() {
		return nil
	}
	l := record.Loads{
		Correction: d.taken(k), Source: one(d, record.Measured, record.Supplied, record.Estimated),
		Gauge: d.reference(k.gauges), Heights: d.reference(k.gauges), By: d.text(),
	}
	height, load, u := d.between(1000, 1200), d.between(300, 500), one(d, unit.Lbf, unit.N, unit.Kgf)
	for range d.between(1, 5) {
		p := record.Point{Height: of(fmt.Sprintf("%d.%03d", height/1000, height%1000), unit.In), Load: of(fmt.Sprint(load), u)}
		p.Height.Typed, p.Load.Typed = d.text(), d.text()
		p.Back = sometimes(d, of(fmt.Sprint(load-d.upTo(9)), u))
		height, load = height+d.between(1, 300), load-d.between(1, 50)
		at := d.upTo(len(l.Points))
		l.Points = append(l.Points[:at:at], append([]record.Point{p}, l.Points[at:]...)...)
	}
	if d.yes() {
		l.At = d.stamp()
	}
	if lot {
		l.Lot = sometimes(d, record.Lot{Count: d.between(2, 9), Spread: d.load()})
	}
	return &l
}

func (d drawer) coil(k drawn) record.Coil {
	bind := d.bind(k)
	bind.Lot = d.lot()
	c := record.Coil{
		Name: d.text(), Bind: sometimes(d, bind), Loads: d.loads(k, true),
		Acts:    one(d, "", record.Carries, record.Damps),
		Form:    one(d, "", record.Cylindrical, record.Conical, record.Beehive),
		Outside: d.size(1200, 1600), Small: d.size(1000, 1200), Inside: d.size(700, 1199),
		Active: one(d, "", "4", "4.25"), Total: one(d, "", "6", "6.2525"), Conical: one(d, "", "1.5"),
		Ends: one(d, "", record.SquaredGround, record.Squared, record.PlainGround, record.PlainEnds),
		Free: d.size(1700, 2200), Mass: d.mass(),
	}
	if d.yes() {
		c.Wire = &record.Wire{
			Section: one(d, "", record.Round, record.Ovate, record.Flat), Diameter: d.size(30, 250), Radial: d.size(30, 250),
			Material: one(d, "", "chrome-silicon", d.text()), GFrom: d.text(),
			G:       sometimes(d, one(d, of("77.2", unit.GPa), of("11.2", unit.Mpsi))),
			Surface: one(d, "", record.Unpeened, record.Peened, record.Nitrided),
		}
	}
	return c
}

func (d drawer) mass() *unit.Quantity {
	return sometimes(d, one(d, of("92.5", unit.Gram), of("3.26", unit.Ounce)))
}

func (d drawer) spring(k drawn, id string) record.Spring {
	s := record.Spring{
		ID: id, Name: d.text(), Note: d.text(), Rate: sometimes(d, d.quantity("", unit.LbfPerIn, unit.NPerMm)),
		RatedLift: sometimes(d, d.length()), Mass: d.mass(),
	}
	for range d.between(1, 4) {
		s.Coils = append(s.Coils, d.coil(k))
	}
	bind := d.bind(k)
	bind.Lot = d.lot()
	s.Assembly = sometimes(d, record.Assembly{
		Bind: sometimes(d, bind), Retainer: d.reference(k.retainers), Locator: d.reference(k.locators), Loads: d.loads(k, true),
	})
	return s
}

func (d drawer) piece(k drawn, tag string) record.SpringPiece {
	s := record.SpringPiece{
		Tag: tag, Spring: one(d, k.springs...), Batch: d.text(), Note: d.text(), Free: d.size(1700, 2200),
		Condition: one(d, append(record.Conditions, "")...),
	}
	for coil := 1; coil <= d.upTo(4); coil++ {
		s.Binds = append(s.Binds, record.PieceBind{Coil: coil, Bind: d.bind(k)})
	}
	for coil := 0; coil <= d.upTo(4); coil++ {
		if l := d.loads(k, false); l != nil {
			p := record.PieceLoads{Coil: coil, Loads: *l}
			if coil == 0 {
				p.Retainer, p.Locator = d.reference(k.retainers), d.reference(k.locators)
			}
			s.Loads = append(s.Loads, p)
		}
	}
	return s
}

func (d drawer) registers() []record.Register {
	var all []record.Register
	for coil := 1; coil <= 4; coil++ {
		if q := d.size(500, 1200); q != nil && d.yes() {
			all = append(all, record.Register{Coil: coil, Diameter: *q})
		}
	}
	return all
}

// loadScale draws what is known of the loads that a tester shows.
func (d drawer) loadScale() *record.LoadScale {
	l := &record.LoadScale{Step: sometimes(d, of("0.5", unit.Lbf))}
	if d.yes() {
		l.Calibration = &record.Calibration{U: d.load(), K: d.factor(), Certificate: d.text(), By: d.text()}
	}
	if d.yes() {
		l.Repeat = &record.Repeat{S: d.load(), Freedom: d.factor(), Study: d.text(), People: d.upTo(4)}
	}
	if d.yes() {
		l.Weights = &record.Weights{Degree: d.upTo(2), Gravity: one(d, "", "9.81", "9.8065"), By: d.text()}
		if d.yes() {
			l.Weights.Date = "2025-10-06"
		}
		for i := range d.between(1, 5) {
			l.Weights.Points = append(l.Weights.Points, record.Weighing{
				Applied: of(fmt.Sprint(100*i), unit.N), Shown: of(fmt.Sprint(102*i-1), unit.N),
			})
		}
	}
	return l
}

func (d drawer) band() *record.Band {
	return sometimes(d, record.Band{
		Least: sometimes(d, of("120", unit.Lbf)), Target: sometimes(d, of("583", unit.N)),
		Most: sometimes(d, of("140", unit.Lbf)), From: d.text(),
	})
}

func (d drawer) clearance() *record.Clearance {
	return sometimes(d, record.Clearance{Least: sometimes(d, of("-0.002", unit.In)), Most: sometimes(d, of("0.020", unit.In))})
}

// loadRules fills in the rules for loads and fits.
func (d drawer) loadRules(r *record.Rules) {
	r.AssumedLoad = sometimes(d, record.AssumedLoad{S: d.load(), Step: of("1", unit.Lbf)})
	r.SeatLoads = sometimes(d, record.Within{Load: d.load(), Percent: one(d, "3", "2.5", "100")})
	r.LoadLost = sometimes(d, record.Lost{Watch: one(d, "5", "7.5"), Replace: one(d, "7.5", "10")})
	if d.yes() {
		r.Fits = &record.Fits{
			Boss: d.clearance(), Pocket: d.clearance(), Cup: d.clearance(), Locator: d.clearance(), Retainer: d.clearance(),
			Coils: d.clearance(), Seal: d.clearance(), Neighbour: d.clearance(),
		}
	}
	r.LockAngles = [][]string{nil, {"7"}, {"7", "10"}}[d.upTo(2)]
	r.LockOffsets = d.lengths()
	if q := d.size(400, 700); q != nil {
		r.Bosses = []unit.Quantity{*q}
	}
}
