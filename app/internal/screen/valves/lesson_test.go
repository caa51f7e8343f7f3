package valves_test

import (
	"context"
	"testing"

	"keeperbook/app/internal/screen/valves"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/evaluate"
	"keeperbook/model/say"
)

// The first head goes as its lesson says: each step asks for what the next one stands on, one valve comes out short, and with the
// shims that the lesson names nothing is.
func TestFirstLesson(t *testing.T) {
	ctx, w := context.Background(), newWatch()
	folder := t.TempDir()
	path, err := task.FirstBook(ctx, folder, assets.Demo(), w.clock())
	if err != nil {
		t.Fatal(err)
	}
	if again, err := task.FirstBook(ctx, folder, assets.Demo(), w.clock()); err != nil || again != path {
		t.Fatal(again, err)
	}
	desk, err := task.OpenBook(ctx, path, "M. Ashlock", w.clock())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	bench, err := desk.OpenBench(ctx, task.FirstSetup)
	if err != nil {
		t.Fatal(err)
	}
	r := &rig{TB: t, ctx: ctx, desk: desk, bench: bench, time: w, out: &window{words: bench.Words()}}
	r.Presenter = valves.New(bench, r.out)
	next := func(want string) {
		t.Helper()
		line, over := bench.Lesson()
		got := line.Key
		if !over {
			got = line.Args[2].(say.Line).Key
		}
		if got != want {
			t.Fatalf("next comes %s, want %s", got, want)
		}
	}
	next("lesson.base-in")
	r.on("1 in", "base")
	r.types("1.842⏎")
	next("lesson.base-ex")
	if got := r.Selected().String(); got != "1/ex/1" {
		t.Errorf("Enter leads to %s", got)
	}
	r.types("1.838⏎")
	next("lesson.shims")
	r.on("1 in", "shims")
	r.types(".075⏎")
	r.on("1 ex", "shims")
	r.types(".110⏎")
	next("lesson.lift")
	r.on("1 in", "lift")
	r.types(".560⏎")
	r.on("1 ex", "lift")
	r.types(".560⏎")
	next("lesson.mend")
	if v := bench.Evaluation().Valves[1]; v.Verdict != evaluate.Short {
		t.Errorf("1 ex is %s", v.Verdict)
	}
	r.on("1 ex", "shims")
	r.types(".075⏎")
	r.answer("replace")
	next("lesson.over")
	for _, v := range bench.Evaluation().Valves {
		if v.Verdict != evaluate.Within {
			t.Errorf("%s is %s: %+v", v.Label, v.Verdict, v.Findings)
		}
	}
}
