package search

import (
	"keeperbook/model/plan/internal/proof"
	"keeperbook/model/plan/internal/table"
)

// Least finds the plan that costs least under weights, whatever its worst.
func Least(t *table.Table, w table.Weights, nodes int) ([]int32, proof.Claim, *proof.Node) {
	s := New(t, Options{Nodes: nodes})
	r := s.newTree(proof.Claim{Limit: Unlimited, Weights: w, Below: 1 << 40}, nodes)
	why, _ := r.run()
	return r.plan, r.claim, why
}
