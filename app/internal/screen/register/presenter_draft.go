package register

import (
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Draft is a new head as it is being typed. What most heads share stands in it already, so that a common
// head takes its tag and its cylinders.
type Draft struct {
	Tag       string
	Cylinders string // "6", or the labels from the front: "1 3 5 7"
	Valves    string // of a cylinder: "2", "4", or intakes and exhausts, "2+1"
	Owner     string
	Engine    string
	WorkOrder string
	Casting   string
	Front     string
	Length    string // in or mm
	Kind      string // found or built
}

// NewDraft returns the draft of the first head of a book.
func NewDraft() Draft {
	return Draft{Cylinders: "4", Valves: "2", Length: string(unit.In), Kind: "found"}
}

// Next returns the draft of the head after this one: what is of the head itself is empty, what is of
// the shop's habits and of the engine stays.
func (d Draft) Next() Draft {
	n := NewDraft()
	n.Cylinders, n.Valves, n.Length = d.Cylinders, d.Valves, d.Length
	return n
}

// Head returns what is to be kept, or which field does not read, as a say.Error.
func (d Draft) Head() (task.NewHead, error) {
	for _, check := range []struct {
		of   func(string) error
		text string
	}{{CheckTag, d.Tag}, {CheckCylinders, d.Cylinders}, {CheckValves, d.Valves}, {CheckLength, d.Length}, {CheckKind, d.Kind}} {
		if err := check.of(check.text); err != nil {
			return task.NewHead{}, err
		}
	}
	intakes, exhausts, err := task.Valves(d.Valves)
	units := record.Units{Length: unit.In, Load: unit.Lbf}
	if word(d.Length) == string(unit.Mm) {
		units = record.Units{Length: unit.Mm, Load: unit.N}
	}
	return task.NewHead{
		Owner: d.Owner, Engine: d.Engine, Tag: d.Tag, Casting: d.Casting, WorkOrder: d.WorkOrder, Front: d.Front,
		Cylinders: task.Cylinders(d.Cylinders), Intakes: intakes, Exhausts: exhausts, Kind: kindOf(d.Kind), Units: units,
	}, err
}

// CheckTag says why a text will not do as a tag.
func CheckTag(text string) error {
	if word(text) == "" {
		return say.Fail(say.Invalid, "task.no-tag").About("tag")
	}
	return nil
}

// CheckCylinders says why a text does not name the cylinders.
func CheckCylinders(text string) error { return task.CheckCylinders(task.Cylinders(text)) }

// CheckValves says why a text does not say how many valves a cylinder has.
func CheckValves(text string) error {
	_, _, err := task.Valves(text)
	return err
}

// CheckLength says why a text names no unit that heads are measured in.
func CheckLength(text string) error {
	if w := word(text); w != string(unit.In) && w != string(unit.Mm) {
		return say.Fail(say.Invalid, "register.length", text).About("length")
	}
	return nil
}

// CheckKind says why a text names no kind of set-up.
func CheckKind(text string) error {
	if kindOf(text) == "" {
		return say.Fail(say.Invalid, "register.kind", text).About("kind")
	}
	return nil
}

// kindOf reads "found" and "built", with or without what stands before them, or their first letter.
func kindOf(text string) record.SetupKind {
	w := strings.TrimSpace(strings.TrimPrefix(word(text), "as"))
	switch strings.TrimPrefix(w, "-") {
	case "found", "f":
		return record.AsFound
	case "built", "b":
		return record.AsBuilt
	}
	return ""
}

func word(text string) string { return strings.ToLower(strings.TrimSpace(text)) }
