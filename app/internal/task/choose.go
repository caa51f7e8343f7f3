package task

import (
	"context"
	"slices"
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Roles are those of the open head, intakes first.
func (b *Bench) Roles() []record.Role {
	var roles []record.Role
	for _, v := range b.ev.Valves {
		if !slices.Contains(roles, v.Role) {
			roles = append(roles, v.Role)
		}
	}
	slices.SortFunc(roles, func(x, y record.Role) int { return strings.Compare(string(y), string(x)) }) // in, ex
	return roles
}

// Choice holds all spring types of the book against what a role of the head asks for.
func (b *Bench) Choice(ctx context.Context, role record.Role) (evaluate.Choice, error) {
	shelf, err := b.Shelf(ctx)
	if err != nil {
		return evaluate.Choice{}, err
	}
	rec := *b.rec
	// A type may have been tested between parts, and on gauges, that the set-up itself does not hold.
	rec.Parts, rec.Gauges = shelf.Parts, shelf.Gauges
	return evaluate.Choose(&rec, role, shelf.Parts.Springs), nil
}

// Questions are what is not known yet and decides about a spring, of all roles, each once: what is asked of
// intakes and exhausts alike is one question.
func (b *Bench) Questions() []string {
	var all []say.Line
	asked := map[string]int{}
	for _, role := range b.Roles() {
		for _, l := range evaluate.Choose(b.rec, role, nil).Asks {
			at, twice := asked[l.Key]
			switch {
			case !twice:
				asked[l.Key] = len(all)
				all = append(all, l)
			case len(l.Args) == 1:
				all[at] = say.New(l.Key, say.New("choose.both"))
			case len(l.Args) > 1: // with a number of its own
				all = append(all, l)
			}
		}
	}
	texts := make([]string, len(all))
	for i, l := range all {
		texts[i] = b.Words().Line(l)
	}
	return texts
}

// PutOn gives the valves of a role a type of springs. What a single valve carries beside its package stays.
func (b *Bench) PutOn(ctx context.Context, role record.Role, spring string) error {
	pack := b.rec.PackageOf(role)
	pack.Role, pack.Spring = role, spring
	return b.Fit(ctx, pack)
}
