package task

import (
	"regexp"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// ReadBoost reads a pressure over the outside air. "none" and 0 say that there is no boost; nothing typed
// leaves the question open.
func (b *Bench) ReadBoost(text string) (*unit.Quantity, error) {
	t := strings.TrimSpace(text)
	if t == "" {
		return nil, nil
	}
	if strings.EqualFold(t, "none") {
		t = "0"
	}
	q, err := readOne(record.PlainColumn(b.BoostUnit()), t)
	if q != nil {
		q.Typed = text
	}
	return q, err
}

// BoostUnit is the unit of a pressure that has none behind it: psi in inches, kPa in millimetres.
func (b *Bench) BoostUnit() unit.Symbol {
	if b.rec.Setup.Units.Length == unit.Mm {
		return unit.KPa
	}
	return unit.Psi
}

// ReadLoad reads a load. Nothing typed is none.
func (b *Bench) ReadLoad(text string) (*unit.Quantity, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	return readOne(record.ColumnOf(record.SeatLoad, b.rec.Setup.Units), text)
}

// LoadUnit is the unit of a load that has none behind it.
func (b *Bench) LoadUnit() string { return string(b.rec.Setup.Units.Load) }

// ratioForm is a rocker ratio as records take it: one plain decimal.
var ratioForm = regexp.MustCompile(`^([0-9]{1,2}(\.[0-9]{0,4})?|\.[0-9]{1,4})$`)

// ReadRatio reads a rocker ratio: 1.6, or 1 for a bucket. A ratio of nought would make every lift
// nought.
func ReadRatio(text string) (string, error) {
	t := strings.Replace(strings.TrimSpace(text), ",", ".", 1)
	t = strings.TrimSuffix(t, ":1")
	if !ratioForm.MatchString(t) || strings.Trim(t, "0.") == "" {
		return "", say.Fail(say.Invalid, "needs.ratio", t)
	}
	return t, nil
}

// UsualChecks are the works of a job that somebody has to say of whether they were done, as keys of
// their words: common practice, no published source.
func UsualChecks() []string {
	return []string{
		"needs.check.crack", "needs.check.guides", "needs.check.seats", "needs.check.leak", "needs.check.piston",
		"needs.check.geometry", "needs.check.loads", "needs.check.run-in",
	}
}

// NewCheck is a work of the job that was done here, by whoever is at the bench, or was not.
func (b *Bench) NewCheck(what string, done record.Done) record.Check {
	c := record.Check{ID: NewID(), What: strings.TrimSpace(what), Done: done}
	if done == record.DoneHere {
		c.Who = b.desk.Who
	}
	return c
}
