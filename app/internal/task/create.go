package task

import (
	"context"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// NewHead is what a person says of a head that came in.
type NewHead struct {
	Owner     string // name; an owner of that name is taken, else made
	Engine    string // name; an engine of that name of that owner is taken, else made
	Tag       string
	Casting   string
	WorkOrder string
	Front     string
	Cylinders []string // labels from the front
	Intakes   int      // of a cylinder
	Exhausts  int
	Kind      record.SetupKind
	Units     record.Units
}

// Begin keeps a new head with its first set-up and returns the set-up's identifier. It begins with a copy
// of the shop's rules of today for its unit of length.
func (d *Desk) Begin(ctx context.Context, n NewHead) (string, error) {
	if err := n.check(); err != nil {
		return "", err
	}
	rules, err := d.rules(ctx, n.Units.Length)
	if err != nil {
		return "", err
	}
	var nouns []record.Noun
	owner, engine, err := d.Book.FindEngine(ctx, strings.TrimSpace(n.Owner), strings.TrimSpace(n.Engine))
	if err != nil {
		return "", err
	}
	if owner.ID == "" && strings.TrimSpace(n.Owner) != "" {
		owner = record.Owner{ID: NewID(), Name: strings.TrimSpace(n.Owner)}
		nouns = append(nouns, owner)
	}
	if engine.ID == "" {
		engine = record.Engine{ID: NewID(), Owner: owner.ID, Name: first(strings.TrimSpace(n.Engine), n.Tag)}
		nouns = append(nouns, engine)
	}
	head := record.Head{
		ID: NewID(), Engine: engine.ID, Tag: strings.TrimSpace(n.Tag), Casting: n.Casting, WorkOrder: n.WorkOrder,
		Front: n.Front, Cylinders: n.Cylinders, Intakes: n.Intakes, Exhausts: n.Exhausts,
	}
	setup := record.Setup{
		ID: NewID(), Head: head.ID, Kind: n.Kind, Begun: d.now(), By: d.Who, State: record.Open, Units: n.Units,
		Rules: rules,
	}
	nouns = append(nouns, head, setup)
	edits := make([]record.Edit, len(nouns))
	for i, noun := range nouns {
		edits[i] = record.Put("", noun)
	}
	return setup.ID, d.keep(ctx, "", edits)
}

func (n NewHead) check() error {
	switch {
	case strings.TrimSpace(n.Tag) == "":
		return say.Fail(say.Invalid, "task.no-tag").About("tag")
	case len(n.Cylinders) < 1 || len(n.Cylinders) > 16:
		return say.Fail(say.Invalid, "task.cylinders", len(n.Cylinders)).About("cylinders")
	case n.Intakes < 1 || n.Intakes > 3 || n.Exhausts < 1 || n.Exhausts > 3:
		return say.Fail(say.Invalid, "task.valves").About("valves")
	}
	for i, label := range n.Cylinders {
		if label == "" || strings.ContainsAny(label, "/\n\t") || slices.Contains(n.Cylinders[:i], label) {
			return say.Fail(say.Invalid, "task.label", label).About("cylinders")
		}
	}
	return nil
}

// Cylinders reads the labels of cylinders as a person writes them: "6" for 1 to 6, or the labels
// themselves, "1 3 5 7" or "1-3-5-7".
func Cylinders(text string) []string {
	fields := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '-' || r == ',' })
	if len(fields) != 1 {
		return fields
	}
	n := 0
	for _, r := range fields[0] {
		if r < '0' || r > '9' || n > 16 {
			return fields
		}
		n = 10*n + int(r-'0')
	}
	if n < 1 || n > 16 {
		return fields
	}
	labels := make([]string, n)
	for i := range labels {
		labels[i] = strconv.Itoa(i + 1)
	}
	return labels
}

// Follow begins a set-up that replaces another one of the same head: it takes over units, needs,
// packages, the parts of each valve, the shared kinds and the checks, and none of the readings. A single spring that is to be
// changed is not built in again. Its rules
// are the shop's of today, not those of the one before: what is measured and decided from now on is held
// against what the shop works to now, also where another shop began the head.
func (d *Desk) Follow(ctx context.Context, setup string, kind record.SetupKind) (string, error) {
	from, err := d.Book.Record(ctx, setup)
	if err != nil {
		return "", err
	}
	s := from.Setup
	rules, err := d.rules(ctx, s.Units.Length)
	if err != nil {
		return "", err
	}
	next := record.Setup{
		ID: NewID(), Head: s.Head, Kind: kind, Replaces: s.ID, Begun: d.now(), By: d.Who, State: record.Open,
		Units: s.Units, Rules: rules, Needs: s.Needs,
	}
	worn, err := d.worn(ctx, from, kind)
	if err != nil {
		return "", err
	}
	edits := []record.Edit{record.Put("", next)}
	for _, p := range s.Packages {
		edits = append(edits, record.Put(next.ID, p))
	}
	for _, v := range s.Valves {
		v.Stack, v.NoShim, v.Note = nil, "", ""
		if worn[v.At] {
			v.Spring = ""
		}
		if !reflect.DeepEqual(v, record.Valve{At: v.At}) {
			edits = append(edits, record.Put(next.ID, v))
		}
	}
	for _, sh := range s.Shared {
		edits = append(edits, record.Put(next.ID, sh))
	}
	for _, c := range s.Checks {
		c.ID, c.Done, c.Note = NewID(), record.NotDoneHere, ""
		edits = append(edits, record.Put(next.ID, c))
	}
	return next.ID, d.keep(ctx, "", edits)
}

// worn are the valves whose spring is to be changed when a head is built again.
func (d *Desk) worn(ctx context.Context, from *record.Record, next record.SetupKind) (map[record.Position]bool, error) {
	worn := map[record.Position]bool{}
	if next != record.AsBuilt {
		return worn, nil
	}
	h, err := livedBy(ctx, d.Book, from, evaluate.Evaluate(from))
	for _, v := range h.Valves {
		worn[v.At] = v.Verdict == life.Replace
	}
	return worn, err
}

// rules are what a set-up begins with that is shown in a unit of length.
func (d *Desk) rules(ctx context.Context, length unit.Symbol) (record.Rules, error) {
	own, err := d.Book.ShopRules(ctx, length)
	return own.Rules(), err
}

func first(texts ...string) string {
	for _, t := range texts {
		if t != "" {
			return t
		}
	}
	return ""
}
