package task

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"keeperbook/model/budget"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Studies is where it is tried how well one gauge repeats: the study that is being read, those that were
// made before, and which of them the gauge counts with. Every reading is in the book before it is
// acknowledged, so that a study that is not finished today goes on tomorrow.
type Studies struct {
	desk   *Desk
	gauge  record.Gauge
	units  record.Units
	rules  record.ShopRules
	all    []record.Study // of this gauge, the newest first
	open   record.Study   // being read, or looked at; not in the book until it has a reading
	people []string       // who has read on any gauge, and who is at the keyboard
	by     string         // who reads now
}

// OpenStudies opens the studies of a gauge, at the newest one where that is still being read and at a new one
// where it is in force.
func (d *Desk) OpenStudies(ctx context.Context, gauge string) (*Studies, error) {
	s := &Studies{desk: d, by: d.Who}
	if err := s.load(ctx, gauge); err != nil {
		return nil, err
	}
	s.Begin()
	if len(s.all) > 0 && !s.InForce(s.all[0].ID) {
		s.Choose(s.all[0].ID)
	}
	return s, nil
}

// Load takes the gauge and its studies from the book again. One that was begun and has no reading stays.
func (s *Studies) Load(ctx context.Context) error {
	if err := s.load(ctx, s.gauge.ID); err != nil {
		return err
	}
	for _, o := range s.all {
		if o.ID == s.open.ID {
			s.open = o
		}
	}
	return nil
}

func (s *Studies) load(ctx context.Context, gauge string) error {
	gauges, err := s.desk.Book.Gauges(ctx)
	if err != nil {
		return err
	}
	at := slices.IndexFunc(gauges, func(g record.Gauge) bool { return g.ID == gauge })
	if at < 0 {
		return say.Fail(say.NotFound, "study.no-gauge")
	}
	units, err := s.desk.units(ctx)
	if err != nil {
		return err
	}
	rules, err := s.desk.Book.ShopRules(ctx, gaugeUnit(gauges[at], units.Length))
	if err != nil {
		return err
	}
	studies, err := s.desk.Book.Studies(ctx)
	if err != nil {
		return err
	}
	s.gauge, s.units, s.rules, s.all, s.people = gauges[at], units, rules, nil, nil
	slices.SortStableFunc(studies, func(a, b record.Study) int { return cmp.Compare(begun(b), begun(a)) })
	s.meet(s.desk.Who)
	for _, o := range studies {
		if o.Gauge == gauge {
			s.all = append(s.all, o)
		}
		for _, r := range o.Readings {
			s.meet(r.By)
		}
	}
	return nil
}

// begun is when the first reading of a study was taken.
func begun(s record.Study) record.Stamp {
	if len(s.Readings) == 0 {
		return ""
	}
	return s.Readings[0].When
}

func (s *Studies) meet(name string) {
	if !slices.Contains(s.people, name) {
		s.people = append(s.people, name)
	}
}

// Gauge returns the gauge as the book has it.
func (s *Studies) Gauge() record.Gauge { return s.gauge }

// All returns the studies of the gauge, the newest first.
func (s *Studies) All() []record.Study { return s.all }

// Open returns the study that is being read, or looked at.
func (s *Studies) Open() record.Study { return s.open }

// Words returns the printer in the unit of the open study.
func (s *Studies) Words() say.Printer {
	return evaluate.Spoken(record.Units{Length: s.open.Unit, Load: s.units.Load})
}

// Assumed returns what a set-up that is begun now assumes of such a gauge until it has a study.
func (s *Studies) Assumed() (record.Assumed, bool) { return assumed(s.rules, s.gauge.Kind) }

// InForce reports whether the gauge counts with a study.
func (s *Studies) InForce(id string) bool { return s.gauge.Repeat != nil && s.gauge.Repeat.Study == id }

// Begin opens a new study, in the unit that the gauge shows.
func (s *Studies) Begin() {
	s.open = record.Study{ID: NewID(), Gauge: s.gauge.ID, Unit: gaugeUnit(s.gauge, s.units.Length)}
}

// Choose opens a study that was made before, and has whoever read last in it read on.
func (s *Studies) Choose(id string) {
	for _, o := range s.all {
		if o.ID != id {
			continue
		}
		s.open = o
		if n := len(o.Readings); n > 0 {
			s.by = o.Readings[n-1].By
		}
	}
}

// People are those who may read: who is at the keyboard first, then whoever read in a study before.
func (s *Studies) People() []string { return s.people }

// By is who reads now.
func (s *Studies) By() string { return s.by }

// ReadBy has somebody read from now on. It refuses nobody's name (say.Invalid).
func (s *Studies) ReadBy(name string) error {
	name = strings.TrimSpace(name)
	if name == "" {
		return say.Fail(say.Invalid, "study.no-name")
	}
	s.meet(name)
	s.by = name
	return nil
}

// column is how readings are typed: as the gauge shows them, which may be below nought.
func (s *Studies) column() unit.Column {
	c := record.PlainColumn(s.open.Unit)
	c.Kind = unit.Signed
	return c
}

// Understand says what a text reads as, in the words of a column; its errors are those of [unit.Parse].
func (s *Studies) Understand(text string) (string, error) {
	read, err := unit.Parse(s.column(), text)
	return read.Understood, err
}

// Name says what is being measured. A text that is a reading is refused (say.Invalid): it was meant for
// the study.
func (s *Studies) Name(ctx context.Context, what string) error {
	what = strings.TrimSpace(what)
	if _, err := s.Understand(what); err == nil {
		return say.Fail(say.Invalid, "study.what-number", what)
	}
	next := s.open
	next.What = what
	return s.keep(ctx, next)
}

// Take keeps a reading of whoever reads now. A study that the gauge counts with takes no more: its figures
// would not be those of the gauge any longer (say.Conflict).
func (s *Studies) Take(ctx context.Context, text string) error {
	if s.InForce(s.open.ID) {
		return say.Fail(say.Conflict, "study.fixed")
	}
	read, err := unit.Parse(s.column(), text)
	if err != nil {
		return err
	}
	next := s.open
	next.Readings = append(slices.Clone(next.Readings), record.StudyReading{By: s.by, Quantity: read.Quantity, When: s.desk.now()})
	return s.keep(ctx, next)
}

// Strike says of reading n, counted from nought, that it does not count, and why. Without a reason it is
// refused (say.Invalid). It stays in the study.
func (s *Studies) Strike(ctx context.Context, n int, reason string) error {
	return s.mark(ctx, n, &record.Strike{Reason: strings.TrimSpace(reason), By: s.desk.Who, When: s.desk.now()})
}

// CountAgain takes back that a reading does not count.
func (s *Studies) CountAgain(ctx context.Context, n int) error { return s.mark(ctx, n, nil) }

func (s *Studies) mark(ctx context.Context, n int, struck *record.Strike) error {
	if s.InForce(s.open.ID) {
		return say.Fail(say.Conflict, "study.fixed")
	}
	next := s.open
	next.Readings = slices.Clone(next.Readings)
	next.Readings[n].Struck = struck
	return s.keep(ctx, next)
}

// keep puts a study into the book once it has a reading. On an error it is as it was.
func (s *Studies) keep(ctx context.Context, next record.Study) error {
	if len(next.Readings) > 0 {
		if err := s.desk.keep(ctx, "", []record.Edit{record.Put("", next)}); err != nil {
			return err
		}
	}
	s.open = next
	return s.Load(ctx)
}

// Use has the gauge count with the open study, in one action that [Studies.TakeBack] takes back. It is
// refused (say.Invalid) where nobody said what was measured, and where too few readings say how far they
// scatter; the study stays in the book as it is.
func (s *Studies) Use(ctx context.Context) error {
	found := evaluate.StudyOf(&s.open)
	switch wanting := found.Wanting(); {
	case wanting > 0:
		return say.Fail(say.Invalid, "study.too-few", found.Freedom, budget.LeastNu, wanting)
	case s.open.What == "":
		return say.Fail(say.Invalid, "study.no-what")
	}
	g, repeat := s.gauge, found.Repeat()
	g.Repeat = &repeat
	err := s.desk.keep(ctx, s.scope(), []record.Edit{record.Put("", s.open), record.Put("", g)})
	if err != nil {
		return err
	}
	return s.Load(ctx)
}

// scope is whose undo it belongs to which study a gauge counts with. No set-up has such an identifier.
func (s *Studies) scope() string { return "gauge/" + s.gauge.ID }

// CanTakeBack reports whether there is a [Studies.Use] to take back.
func (s *Studies) CanTakeBack(ctx context.Context) (bool, error) {
	step, err := s.desk.Book.PeekUndo(ctx, s.scope())
	return step != nil, err
}

// TakeBack has the gauge count with what it counted with before. The study stays in the book, with all its
// readings. Where the gauge was changed otherwise meanwhile it is refused (say.Conflict).
func (s *Studies) TakeBack(ctx context.Context) error {
	_, err := s.desk.Book.Undo(ctx, s.scope(), s.desk.Who, s.desk.now(), NewID())
	if say.CodeOf(err) == say.Conflict {
		return say.Fail(say.Conflict, "study.changed").From(err)
	}
	if err != nil {
		return err
	}
	return s.Load(ctx)
}
