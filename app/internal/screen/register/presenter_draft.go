package register

import (
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
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
	Kind      string // as-found or as-built
}

// NewDraft returns the draft of the first head of a book.
func NewDraft() Draft {
	return Draft{Cylinders: "4", Valves: "2", Length: string(unit.In), Kind: string(record.AsFound)}
}

// Next returns the draft of the head after this one: what is of the head itself is empty, what is of
// the shop's habits and of the engine stays.
func (d Draft) Next() Draft {
	n := NewDraft()
	n.Cylinders, n.Valves, n.Length = d.Cylinders, d.Valves, d.Length
	return n
}

// Head returns what is to be kept, or which field does not read, as a say.Error about it.
func (d Draft) Head() (task.NewHead, error) {
	intakes, exhausts, err := task.Valves(d.Valves)
	if err != nil {
		return task.NewHead{}, err
	}
	units := record.Units{Length: unit.In, Load: unit.Lbf}
	if d.Length == string(unit.Mm) {
		units = record.Units{Length: unit.Mm, Load: unit.N}
	}
	n := task.NewHead{
		Owner: d.Owner, Engine: d.Engine, Tag: d.Tag, Casting: d.Casting, WorkOrder: d.WorkOrder, Front: d.Front,
		Cylinders: task.Cylinders(d.Cylinders), Intakes: intakes, Exhausts: exhausts,
		Kind: record.SetupKind(d.Kind), Units: units,
	}
	return n, nil
}
