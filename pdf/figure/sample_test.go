package figure_test

import (
	"image/color"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/pdf/face"
	"keeperbook/pdf/figure"
)

// The samples are invented. Lengths of the inch valve are in thousandths, of the metric one in
// hundredths of a millimetre.

func thou(n float64) unit.Length { return unit.Length(n * float64(unit.Thou)) }
func cmm(n float64) unit.Length  { return unit.Length(n * float64(unit.MM) / 100) }

func measured(l unit.Length) evaluate.Figure { return evaluate.Figure{Known: true, Value: l} }
func computed(l unit.Length) evaluate.Figure {
	return evaluate.Figure{Known: true, Value: l, Mark: evaluate.Computed}
}

func shim(l unit.Length, under record.Under) record.Shim {
	return record.Shim{Thickness: unit.Quantity{Unit: unit.Mm, Value: int64(l)}, Under: under}
}

func coil(n int, name string, height, lift, bind, least unit.Length) evaluate.Coil {
	margin := height - lift - bind
	return evaluate.Coil{
		Index: n, Name: name, Height: computed(height), Open: computed(height - lift), Bind: measured(bind),
		Margin: computed(margin), Least: measured(least), Slack: computed(margin - least), Proven: true,
	}
}

// nested is a valve with three coils, whose inner coil governs and is short.
func nested() (evaluate.Valve, figure.Parts) {
	lift := thou(692)
	v := evaluate.Valve{
		Label: "3 ex", Base: measured(thou(1860)), Shims: measured(thou(45)), StackSaid: true,
		Stack:     []record.Shim{shim(thou(30), record.UnderLocator), shim(thou(15), record.UnderOuter)},
		Installed: computed(thou(1815)), Height: computed(thou(1815)), Lift: measured(lift), LiftKind: record.LiftChecking,
		Seal: measured(thou(780)), SealOpen: computed(thou(780) - lift),
		Coils: []evaluate.Coil{
			coil(1, "outer", thou(1815), lift, thou(1060), thou(60)),
			coil(2, "damper", thou(1770), lift, thou(960), thou(60)),
			coil(3, "inner", thou(1735), lift, thou(987), thou(60)),
		},
		Governing: 2,
	}
	lift3(&v)
	lid, floor := thou(105), thou(60)
	return v, figure.Parts{
		Lid: &lid, Floor: &floor, RetainerSteps: []unit.Length{thou(60), thou(95)},
		LocatorSteps: []unit.Length{0, 0}, SealOn: record.OnGuide,
	}
}

// lift3 lifts the governing coil's figures to the valve, as an evaluation does.
func lift3(v *evaluate.Valve) {
	c := v.Coils[v.Governing]
	v.Open, v.Bind, v.Margin, v.Least = c.Open, c.Bind, c.Margin, c.Least
	v.UpTo = computed(c.Height.Value - c.Bind.Value - c.Least.Value)
}

// single is a metric valve with one coil and plenty of margin.
func single() (evaluate.Valve, figure.Parts) {
	lift := cmm(840)
	v := evaluate.Valve{
		Label: "2 in 1", Base: computed(cmm(3480)), StackSaid: true, Shims: measured(cmm(50)),
		Stack:     []record.Shim{shim(cmm(50), record.UnderLocator)},
		Installed: computed(cmm(3430)), Check: measured(cmm(3428)), Height: measured(cmm(3428)), Lift: measured(lift),
		Seal: measured(cmm(1040)), SealOpen: computed(cmm(200)),
		Coils: []evaluate.Coil{coil(1, "outer", cmm(3428), lift, cmm(2310), cmm(150))},
	}
	lift3(&v)
	lid, floor := cmm(230), cmm(100)
	return v, figure.Parts{Lid: &lid, Floor: &floor, SealOn: record.OnGuide}
}

// paper is the look of a page.
func paper() figure.Look {
	return figure.Look{
		Ink: color.Gray{0}, Faint: color.Gray{130}, Fill: color.Gray{215}, Paper: color.Gray{255},
		Regular: face.Regular(9), Bold: face.Bold(9), TextSize: 9, OnPaper: true,
	}
}

func words(s unit.Style) say.Printer { return say.In(s.Show) }
