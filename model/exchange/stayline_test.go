package exchange

import (
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

func TestReadPlace(t *testing.T) {
	ex := record.Position{Cylinder: "3", Role: record.Exhaust, N: 1}
	two := record.Position{Cylinder: "3", Role: record.Exhaust, N: 2}
	for text, want := range map[string]Place{
		"OF-2P 3 ex":             {Head: "OF-2P", At: ex},
		" left  head 3 EX 2 ":    {Head: "left head", At: two},
		"2026-05-02 OF-2P 3 ex":  {Day: "2026-05-02", Head: "OF-2P", At: ex},
		"box 4":                  {Box: "box 4"},
		"2026-05-02 Box blue, 4": {Day: "2026-05-02", Box: "box blue, 4"},
	} {
		if got, err := ReadPlace(text); err != nil || got != want {
			t.Errorf("%q: %+v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "3 ex", "box", "2026-05-02", "OF-2P", "OF-2P 3", "ex 2"} {
		if got, err := ReadPlace(text); say.CodeOf(err) != say.Invalid {
			t.Errorf("%q: %+v, %v", text, got, err)
		}
	}
}
