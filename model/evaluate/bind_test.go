package evaluate_test

import (
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// An inner coil whose steps come to nought together stands as high as the outer one and is no surer for it: its height rests on
// the steps of .050 and −.050 as on those of .050 and −.051, and on the outer shim of .060 that a step of .060 makes up for.
func TestStepsThatCancelAreStillDoubted(t *testing.T) {
	doubt := func(retainer, locator string, outer ...string) (string, unit.Length) {
		r := gauged(t)
		r.Parts.Retainers[0].Steps = []unit.Quantity{in(t, retainer)}
		r.Parts.Locators[0].Steps = []unit.Quantity{in(t, locator)}
		v := r.ValveAt(intake)
		for _, read := range outer {
			v.Stack = append(v.Stack, record.Shim{Thickness: in(t, read), Under: record.UnderOuter, Gauge: "M"})
		}
		r.Put(v)
		c := first(r).Coils[1]
		u, ok := c.Height.U()
		if !ok {
			t.Fatalf("nothing is known of the doubt in %s", shown(c.Height))
		}
		return shown(c.Height), u
	}
	for _, c := range []struct {
		height    string
		equal     [2]string
		other     [2]string
		outerShim []string
	}{
		{"1.870", [2]string{"0.050", "-0.050"}, [2]string{"0.050", "-0.051"}, nil},
		{"1.810", [2]string{"0.060", "0.000"}, [2]string{"0.061", "0.000"}, []string{"0.060"}},
	} {
		height, u := doubt(c.equal[0], c.equal[1], c.outerShim...)
		_, near := doubt(c.other[0], c.other[1], c.outerShim...)
		if height != c.height || u != near {
			t.Errorf("inner coil at %s, want %s; ± %d where the steps cancel, %d where they all but cancel", height, c.height, u, near)
		}
	}
}

// Coils that are measured as one bind at 1.095 and keep 1.900 − .030 − .700 − 1.095 = .075: enough for the .060 of the outer coil,
// not for the .100 of the inner one, whichever it is that touches.
func TestSpringAsOneKeepsTheGreatestLeast(t *testing.T) {
	r := nested(t)
	r.Parts.Springs[0].Coils[1].Bind = nil
	r.Parts.Springs[0].Assembly = &record.Assembly{Bind: bind(t, "1.095"), Retainer: "stepped", Locator: "cup"}
	for _, c := range []struct{ outer, inner, least, slack string }{
		{"0.060", "0.100", ".100", "−.025"},
		{"0.100", "0.060", ".100", "−.025"},
		{"0.060", "0.070", ".070", ".005"},
	} {
		p := r.PackageOf(record.Intake)
		// A third coil's is of another spring.
		p.Least = []record.Least{{Coil: 1, Margin: in(t, c.outer)}, {Coil: 2, Margin: in(t, c.inner)}, {Coil: 3, Margin: in(t, "0.200")}}
		r.Put(p)
		v := first(r)
		if shown(v.Margin) != ".075" || shown(v.Least) != c.least || shown(v.Coils[0].Slack) != c.slack {
			t.Errorf("least %s and %s: keeps %s, least %s, slack %s", c.outer, c.inner, shown(v.Margin), shown(v.Least), shown(v.Coils[0].Slack))
		}
	}
}
