package evaluate_test

import (
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
)

// A shim of .015 under the outer coil alone leaves open what lies under the locator; with none there the outer coil stands at
// 1.900 − .015 and the inner one at 1.900 − .095.
func TestOuterShimsAreNotTheStack(t *testing.T) {
	r := nested(t)
	v := record.Valve{At: intake, Stack: []record.Shim{{Thickness: in(t, "0.015"), Under: record.UnderOuter}}}
	r.Put(v)
	is := first(r)
	if is.StackSaid || is.Height.Known || is.Margin.Known || is.Verdict == evaluate.Within {
		t.Errorf("outer alone: said %v, height %s, %v", is.StackSaid, shown(is.Height), is.Verdict)
	}
	wantSaid(t, is, "shims")
	v.NoShim = "none"
	r.Put(v)
	is = first(r)
	if !is.StackSaid || shown(is.Coils[0].Height) != "1.885" || shown(is.Coils[1].Height) != "1.805" {
		t.Errorf("none beside it: %v, %s and %s", is.StackSaid, shown(is.Coils[0].Height), shown(is.Coils[1].Height))
	}
	if got := is.Text(evaluate.Spoken(r.Setup.Units), "shims"); got != "none+.015 outer" {
		t.Errorf("shims read %q", got)
	}
}
