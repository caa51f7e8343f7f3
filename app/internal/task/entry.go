package task

import (
	"slices"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Entry is one reading as it comes from a person, a gauge or a file.
type Entry struct {
	At         record.Position
	Kind       record.Kind
	Coil       int
	Text       string // as typed; a star behind it makes it a repeat
	Height     string // of a load: what it was taken at, as typed; "" where that is the installed height
	Heights    string // id of what that height was read on, "" where it is the tester's own scale
	Correction []record.Taken
	Gauge      string // id
	Method     record.Method
	By         string
	When       record.Stamp
	Note       string
}

// Reading reads an entry into the reading that is to be kept: the text by its column, what it was
// measured over by what the record says now. A place that is filled takes only a repeat.
//
// Errors are say.Errors with code Invalid, or Conflict where the place is filled.
func Reading(rec *record.Record, e Entry) (record.Reading, error) {
	read, err := unit.Parse(record.ColumnOf(e.Kind, rec.Setup.Units), e.Text)
	if err != nil {
		return record.Reading{}, err
	}
	there := rec.ReadingsAt(e.At, e.Kind, e.Coil)
	counting := slices.DeleteFunc(slices.Clone(there), func(r record.Reading) bool { return r.Struck != nil })
	if len(counting) > 0 && !read.Repeat {
		return record.Reading{}, say.Fail(say.Conflict, "task.filled", rec.Head.Label(e.At),
			say.New("kind."+string(e.Kind)), counting[len(counting)-1].Quantity, read.Quantity)
	}
	r := record.Reading{
		At: e.At, Kind: e.Kind, Coil: e.Coil, N: len(there) + 1, Quantity: read.Quantity, Correction: e.Correction,
		Gauge: e.Gauge, Method: e.Method, By: e.By, When: e.When, Note: e.Note,
		Over: evaluate.Trim(e.Kind, evaluate.OverNow(rec, e.At)),
	}
	if e.Kind.IsLoad() && e.Height == "" {
		r.Correction = nil // of a setting: there is no height that it could come off
	}
	if e.Kind == record.BindReading || e.Kind.IsLoad() {
		r.Piece = rec.ValveAt(e.At).Spring
	}
	if e.Height != "" {
		height, err := unit.Parse(record.ColumnOf(record.CheckHeight, rec.Setup.Units), e.Height)
		if err != nil {
			return record.Reading{}, err
		}
		r.Height, r.Heights = &height.Quantity, e.Heights
	}
	return r, evaluate.Doubt(rec, r)
}

// Stack reads a shim stack for a position. It replaces the shims in that place of the stack and
// leaves those in the other. The gauge of the entry is what the shims were measured on.
func Stack(rec *record.Record, under record.Under, e Entry) (record.Valve, error) {
	shims, none, err := unit.ParseStack(record.ShimColumn(rec.Setup.Units), e.Text)
	if err != nil {
		return record.Valve{}, err
	}
	if !slices.Contains(rec.Head.Positions(), e.At) {
		return record.Valve{}, say.Fail(say.Invalid, "doubt.position", rec.Head.Label(e.At), rec.Head.Tag)
	}
	v := rec.ValveAt(e.At)
	v.Stack = slices.DeleteFunc(slices.Clone(v.Stack), func(s record.Shim) bool { return s.Under == under })
	for _, s := range shims {
		v.Stack = append(v.Stack, record.Shim{Thickness: s, Under: under, Gauge: e.Gauge, Note: e.Note})
	}
	if len(v.Stack) == 0 {
		v.Stack = nil // as the book gives it back
	}
	if under != record.UnderLocator {
		return v, nil // what lies under the locator stays as it was said
	}
	v.NoShim = ""
	if none {
		v.NoShim, v.Note = "none", e.Note
	}
	return v, nil
}
