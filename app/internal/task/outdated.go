package task

import (
	"slices"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// withOutdated adds to what is kept the readings that it makes worthless, struck: binds and loads of another type of spring, gaps to
// another seal. They go in the same action, so that one undo brings them back, and [Bench.Notice] says how many they were.
func (b *Bench) withOutdated(nouns []record.Noun) []record.Noun {
	b.notice = say.Line{}
	if !slices.ContainsFunc(nouns, func(n record.Noun) bool {
		return n.ItemKind() == record.PackageItem || n.ItemKind() == record.ValveItem
	}) {
		return nouns
	}
	trial := trialOf(b.rec)
	trial.Setup.Packages = slices.Clone(b.rec.Setup.Packages)
	trial.Parts.Seals, trial.Parts.Pieces = slices.Clone(b.rec.Parts.Seals), slices.Clone(b.rec.Parts.Pieces)
	for _, n := range nouns {
		switch n.ItemKind() {
		case record.PackageItem, record.ValveItem, record.SealItem, record.PieceItem: // nothing else of it is its own
			trial.Put(n)
		}
	}
	all := slices.Clone(nouns)
	for _, r := range evaluate.Outdated(b.rec, &trial) {
		if slices.ContainsFunc(nouns, func(n record.Noun) bool { return n.ItemKind() == record.ReadingItem && n.Key() == r.Key() }) {
			continue // it is struck already, or kept anew
		}
		r.Struck = &record.Strike{Reason: b.Words().Line(say.New("task.outdated-why")), By: b.desk.Who, When: b.desk.now()}
		all = append(all, r)
	}
	if n := len(all) - len(nouns); n > 0 {
		b.notice = say.New("task.outdated", n)
	}
	return all
}

// Notice says, once, what came of the last thing that was kept beside what was asked for; nothing where nothing did.
func (b *Bench) Notice() say.Line {
	n := b.notice
	b.notice = say.Line{}
	return n
}
