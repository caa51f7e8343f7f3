package task

import (
	"context"
	"slices"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
)

// Beside is another set-up of a bench's head, to be held against the open one.
type Beside struct {
	Worked
	Later bool // it was begun after the open one
}

// Others returns the other set-ups of the head, oldest first and without their lists, and which of them
// is held against the open one where nobody chose: the one it replaces, else the last one before it, else
// the first one after it. It is −1 where there is no other.
func (b *Bench) Others(ctx context.Context) (others []record.Setup, usual int, err error) {
	all, open, err := b.setups(ctx)
	if err != nil {
		return nil, -1, err
	}
	others = slices.DeleteFunc(slices.Clone(all), func(s record.Setup) bool { return s.ID == b.rec.Setup.ID })
	usual = slices.IndexFunc(others, func(s record.Setup) bool { return s.ID == b.rec.Setup.Replaces })
	if usual < 0 {
		usual = min(max(open-1, 0), len(others)-1)
	}
	return others, usual, nil
}

// setups are those of the head, oldest first, and the place of the open one among them.
func (b *Bench) setups(ctx context.Context) (all []record.Setup, open int, err error) {
	all, err = b.desk.Setups(ctx, b.rec.Head.ID)
	return all, slices.IndexFunc(all, func(s record.Setup) bool { return s.ID == b.rec.Setup.ID }), err
}

// Beside works out another set-up of the head.
func (b *Bench) Beside(ctx context.Context, setup string) (*Beside, error) {
	all, open, err := b.setups(ctx)
	if err != nil {
		return nil, err
	}
	w, err := Work(ctx, b.desk.Book, setup)
	if err != nil {
		return nil, err
	}
	at := slices.IndexFunc(all, func(s record.Setup) bool { return s.ID == setup })
	return &Beside{w, at > open && setup != b.rec.Setup.Replaces}, nil
}

// Against holds the open set-up, as it is now, against another one: the one that was begun earlier is
// what was.
func (b *Bench) Against(o *Beside) []evaluate.Pair {
	if o.Later {
		return evaluate.Compare(&b.ev, &o.Evaluation)
	}
	return evaluate.Compare(&o.Evaluation, &b.ev)
}
