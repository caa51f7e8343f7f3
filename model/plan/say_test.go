package plan_test

import (
	"testing"

	"keeperbook/model/plan"
)

func TestSay(t *testing.T) {
	goal := func(value, bound int64) plan.Goal { return plan.Goal{Value: value, Bound: bound} }
	for want, p := range map[string]plan.Plan{
		"Nothing is better; that is proved.":                {Outcome: plan.Proven},
		"Nothing fits; that is proved.":                     {Outcome: plan.Nothing},
		"The search was stopped before anything was found.": {Outcome: plan.Unknown, Cancelled: true},
		"After 7 steps of the search it is not known whether anything fits; allow more steps, or fewer sizes.": {Outcome: plan.Unknown, Nodes: 7},
		"The search ended early: the worst is 1.0 off or apart, and it is known only that nothing is under 0.5.": {
			Outcome: plan.Open, Step: 2224, Worst: goal(2, 1), Sum: goal(9, 9),
		},
		"The search ended early: the worst cannot be less; all together are 4.5 off or apart, and it is known only that nothing is under 3.5.": {
			Outcome: plan.Open, Step: 2224, Worst: goal(2, 2), Sum: goal(9, 7), Shims: goal(3, 0),
		},
		"The search ended early: loads and heights cannot be nearer; 3 shims are used, and it is known only that it takes at least 1.": {
			Outcome: plan.Open, Step: 2224, Worst: goal(2, 2), Sum: goal(9, 9), Shims: goal(3, 1), Moves: goal(4, 0),
		},
		"The search ended early: nothing but the number of springs moved could be less, 4, and at least 2 must be.": {
			Outcome: plan.Open, Worst: goal(2, 2), Moves: goal(4, 2),
		},
	} {
		if got := inches.Line(p.Say()); got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
	}
}
