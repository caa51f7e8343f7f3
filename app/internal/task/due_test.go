package task_test

import (
	"context"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"keeperbook/app/internal/task"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/store"
)

// What falls due is the same whether it is taken from what the book keeps or worked out anew, whatever was entered in between.
func TestKeptDuesAreWhatIsWorkedOut(t *testing.T) {
	ctx := context.Background()
	book := demonstration(t)
	desk := &task.Desk{Book: book, Who: "M. Ashlock", Clock: clock}
	head, err := book.FindHead(ctx, "OF-2P")
	if err != nil {
		t.Fatal(err)
	}
	setup, err := task.InService(ctx, book, "OF-2P", task.StampOf(clock()))
	if err != nil {
		t.Fatal(err)
	}
	bench, err := desk.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	same := func(after string) []task.DueLine {
		t.Helper()
		kept, err := task.Dues(ctx, book, bench.Today())
		if err != nil {
			t.Fatal(err)
		}
		// Rows of another program are none.
		heads, err := book.LivedHeads(ctx)
		if err != nil {
			t.Fatal(err)
		}
		_, upTo, err := book.Reckoned(ctx, "")
		if err != nil {
			t.Fatal(err)
		}
		var none []store.Reckoned
		for _, h := range heads {
			none = append(none, store.Reckoned{Head: h, Setup: setup, By: "another", Body: "[]"})
		}
		if err := book.KeepReckoned(ctx, upTo, none); err != nil {
			t.Fatal(err)
		}
		anew, err := task.Dues(ctx, book, bench.Today())
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(anew, kept, cmpopts.IgnoreFields(life.Due{}, "What")); d != "" {
			t.Errorf("after %s: worked out −, kept +\n%s", after, d)
		}
		return kept
	}
	first := same("nothing")
	run, err := bench.LogRun(ctx, bench.Today(), "6 passes, 8,400 rpm, 1 over-rev")
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(first, same("a run")); d == "" {
		t.Error("an over-rev has nothing watched")
	}
	if err := bench.Forget(ctx, run); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(first, same("no run"), cmpopts.IgnoreFields(life.Due{}, "What")); d != "" {
		t.Error(d)
	}
	counter, err := desk.OpenCounter(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range counter.Gauges() {
		if g.Kind == record.SpringTester {
			g.Note = "moved to the other bench"
			if err := counter.Keep(ctx, g); err != nil {
				t.Fatal(err)
			}
		}
	}
	same("a gauge")
	// How far a lash may move is the shop's to say, and holds for what is in service already: 5 ex closed by .002.
	for text, watched := range map[string]bool{".0015": true, ".0025": false, "": false} {
		rules, err := counter.WithRule(unit.In, record.RuleLash, text)
		if err != nil {
			t.Fatal(err)
		}
		if r := rules.Rules(); r.Fits != nil {
			t.Errorf("set-ups begin with the clearances %+v", r.Fits)
		}
		if err := counter.Keep(ctx, rules); err != nil {
			t.Fatal(err)
		}
		said := false
		for _, d := range same("the rule of lash " + text) {
			said = said || strings.Contains(d.Text, "OF-2P, 5 ex: watch the spring: its lash moved by more than .0015")
		}
		if said != watched {
			t.Errorf("%q: watched %v", text, said)
		}
	}
	if _, err := counter.WithRule(unit.In, record.RuleLash, ".200"); say.CodeOf(err) != say.Invalid {
		t.Errorf("a fifth of an inch: %v", err)
	}
	if err := bench.LogCheck(ctx, task.CheckDraft{
		Day: bench.Today(), Service: record.CheckedLater, Lines: map[record.Position]string{head.Positions()[0]: "crack"},
	}); err != nil {
		t.Fatal(err)
	}
	same("a check")
	// What was found of the springs of before is nothing against those of the next set-up.
	if _, err := desk.Follow(ctx, setup, record.AsBuilt); err != nil {
		t.Fatal(err)
	}
	if all := same("the next set-up"); len(all) >= len(first) {
		t.Errorf("%d things fall due of new springs, %d before", len(all), len(first))
	}
}

// restless is a context under which the language of the window changes whenever somebody looks whether work is still wanted.
type restless struct {
	context.Context
	looked *atomic.Int32
}

func (r restless) Done() <-chan struct{} {
	say.Speak([]string{"en", "de"}[r.looked.Add(1)%2])
	return r.Context.Done()
}

// A language that changes while it is worked out leaves no words of the other one in what it says or keeps.
func TestDuesWhileTheLanguageChanges(t *testing.T) {
	ctx := context.Background()
	defer say.Speak("en")
	texts := func(ctx context.Context, book *store.Book, language string) (all []string) {
		t.Helper()
		say.Speak(language)
		lines, err := task.Dues(ctx, book, "2026-06-01")
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range lines {
			all = append(all, l.Text)
		}
		return all
	}
	for _, language := range []string{"en", "de"} {
		want := texts(ctx, demonstration(t), language)
		book := demonstration(t)
		looked := &atomic.Int32{}
		if d := cmp.Diff(want, texts(restless{ctx, looked}, book, language)); d != "" {
			t.Errorf("%s, worked out: %s", language, d)
		}
		if looked.Load() < 2 {
			t.Fatal("the language did not change")
		}
		if d := cmp.Diff(want, texts(ctx, book, language)); d != "" {
			t.Errorf("%s, kept: %s", language, d)
		}
	}
}

// What falls due is said in the chosen language, also where it was worked out in another one before.
func TestDuesInEachLanguage(t *testing.T) {
	book := demonstration(t)
	defer say.Speak("en")
	for _, c := range []struct{ tag, words string }{{"en", "change the spring"}, {"es", "cambiar el resorte"}, {"de", "Feder ersetzen"}, {"en", "change the spring"}} {
		if !say.Speak(c.tag) {
			t.Fatal(c.tag)
		}
		all, err := task.Dues(context.Background(), book, "2026-06-01")
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(all, func(l task.DueLine) bool { return strings.Contains(l.Text, c.words) }) {
			t.Errorf("%s: nothing says %q: %+v", c.tag, c.words, all)
		}
	}
	if say.Speak("xx") {
		t.Error("it speaks a language that it does not have")
	}
}
