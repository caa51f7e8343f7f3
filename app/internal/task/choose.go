package task

import (
	"context"
	"slices"
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
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

// Questions are what is not known yet and decides about a spring, of all roles, each once.
func (b *Bench) Questions() []string {
	var all []string
	for _, role := range b.Roles() {
		for _, l := range evaluate.Choose(b.rec, role, nil).Asks {
			if text := b.Words().Line(l); !slices.Contains(all, text) {
				all = append(all, text)
			}
		}
	}
	return all
}

// PutOn gives the valves of a role a type of springs. What a single valve carries beside its package stays.
func (b *Bench) PutOn(ctx context.Context, role record.Role, spring string) error {
	pack := b.rec.PackageOf(role)
	pack.Role, pack.Spring = role, spring
	return b.Fit(ctx, pack)
}
