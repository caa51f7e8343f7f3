package record

import (
	"errors"
	"testing"

	"keeperbook/model/say"
)

func TestDoubtTagged(t *testing.T) {
	const now = Stamp("2026-06-01T12:00:00Z")
	at := &Position{Cylinder: "1", Role: Intake, N: 1}
	on := func(day Date) Stay { return Stay{Day: day, Head: "H-1", At: at} }
	box := func(day Date) Stay { return Stay{Day: day, Box: "box 4"} }
	fine := Tagged{Of: RetainerItem, Tag: "R-03", Type: "R", Stays: []Stay{on("2026-05-01"), box("2026-05-01"), on("2026-06-01")}}
	if err := Doubt(fine, now); err != nil {
		t.Error(err)
	}
	if fine.Key() == (Tagged{Of: LocksItem, Tag: "R-03"}).Key() {
		t.Error("a retainer and locks of one tag are one")
	}
	for key, change := range map[string]func(*Tagged){
		"tagged.of":           func(t *Tagged) { t.Of = SealItem },
		"tagged.tag":          func(t *Tagged) { t.Tag = " R" },
		"tagged.type":         func(t *Tagged) { t.Type = "" },
		"tagged.order":        func(t *Tagged) { t.Stays[2].Day = "2026-04-30" },
		"record.life-to-come": func(t *Tagged) { t.Stays[2].Day = "2026-06-03" },
		"record.life-day":     func(t *Tagged) { t.Stays[0].Day = "soon" },
		"tagged.where":        func(t *Tagged) { t.Stays[1].Head, t.Stays[1].At = "H-1", at },
		"tagged.spring":       func(t *Tagged) { t.Of = PieceItem },
	} {
		wrong := fine
		wrong.Stays = append([]Stay(nil), fine.Stays...)
		change(&wrong)
		var e *say.Error
		if err := Doubt(wrong, now); !errors.As(err, &e) || e.Code != say.Invalid || e.Line.Key != key {
			t.Errorf("%s: %v", key, err)
		}
	}
	for _, half := range []Stay{{Day: "2026-05-01", Head: "H-1"}, {Day: "2026-05-01", At: at, Box: "4"}, {Day: "2026-05-01"}} {
		if err := Doubt(Tagged{Of: LocksItem, Tag: "K-1", Type: "K", Stays: []Stay{half}}, now); err == nil {
			t.Errorf("%+v passes", half)
		}
	}
}
