package evaluate_test

import (
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
)

// Cell by cell the texts are those of the whole table.
func TestTextIsWhatFiguresPrint(t *testing.T) {
	r := sixtyFour(t)
	ev, words := evaluate.Evaluate(r), evaluate.Words(r.Setup.Units)
	fig := ev.Figures(words, r.Setup.Units)
	compared := 0
	for col, c := range fig.Columns {
		for row := range fig.Rows {
			if got, want := ev.Valves[row].Text(words, c.Key), fig.Rows[row].Cells[col]; got != want {
				t.Errorf("%s, %s: %q, the table has %q", fig.Rows[row].Valve, c.Key, got, want)
			}
			compared++
		}
	}
	if compared < 64*10 {
		t.Errorf("compared %d cells only", compared)
	}
	if got := ev.Valves[0].Text(words, "no such column"); got != "" {
		t.Errorf("an unknown column says %q", got)
	}
}

// The number under a key is the one that is printed there, for every column that holds a length.
func TestFigureUnderAKey(t *testing.T) {
	r := sixtyFour(t)
	ev, words := evaluate.Evaluate(r), evaluate.Words(r.Setup.Units)
	fig := ev.Figures(words, r.Setup.Units)
	for _, c := range fig.Columns {
		f, ok := ev.Valves[0].Figure(c.Key)
		switch c.Key {
		case "verdict", "coil":
			if ok {
				t.Errorf("%s is a number", c.Key)
			}
		case "margin", "u", "shims": // printed in ways of their own
			if !ok {
				t.Errorf("%s is no number", c.Key)
			}
		default:
			if got := f.Text(words); !ok || got != ev.Valves[0].Text(words, c.Key) {
				t.Errorf("%s is %q, printed %q", c.Key, got, ev.Valves[0].Text(words, c.Key))
			}
		}
	}
	if inner, ok := ev.Valves[0].Figure("bind-2"); !ok || inner.Value != ev.Valves[0].Coils[1].Bind.Value {
		t.Error("bind-2 is not the bind of the second coil")
	}
	if one, _ := ev.Valves[0].Figure("bind-0"); one.Known {
		t.Error("no spring was measured as one")
	}
}

func TestTaken(t *testing.T) {
	r := nested(t)
	r.Head.Cylinders = []string{"1", "2"}
	at := r.Head.Positions()[0]
	words := evaluate.Words(r.Setup.Units)
	lid := record.Taken{Part: record.Lid, Amount: in(t, "0.095"), Zero: record.NotZeroed}
	add(t, r, at, record.SeatDepth, 0, "3.000")
	add(t, r, at, record.SeatDepth, 0, "3.002")
	add(t, r, at, record.RetainerDepth, 0, "1.100", lid)
	add(t, r, at, record.LashShim, 0, "0.110")
	r.Setup.Shared = append(r.Setup.Shared, record.Shared{Kind: record.LashShim, Role: at.Role, From: at})
	for _, c := range []struct {
		kind record.Kind
		want string
	}{{record.SeatDepth, "3.001"}, {record.RetainerDepth, "1.195"}, {record.LashShim, ".110"}, {record.Tip, ""}} {
		if got := evaluate.Taken(r, c.kind, 0)[0].Text(words); got != c.want {
			t.Errorf("%s comes to %q, want %q", c.kind, got, c.want)
		}
	}
	if got := evaluate.Taken(r, record.LashShim, 0)[2].Text(words); got != ".110b" {
		t.Errorf("2 in borrowed it as %q", got)
	}
	// A bind counts for the spring it was read on, and not for another one that is fitted now.
	drop(r, at, record.BindReading)
	add(t, r, at, record.BindReading, 1, "1.100")
	if got := evaluate.Taken(r, record.BindReading, 1)[0].Text(words); got != "1.100" {
		t.Errorf("bind comes to %q", got)
	}
	v := r.ValveAt(at)
	v.Spring = "bag 7"
	r.Put(v)
	if evaluate.Taken(r, record.BindReading, 1)[0].Known {
		t.Error("the bind of another spring counts")
	}
}
