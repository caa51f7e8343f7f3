package task_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/plan"
)

// Every number of a plan is on its paper, and every line of the pick list, as another reader of the file finds them.
func TestPlanOnPaper(t *testing.T) {
	ctx := context.Background()
	desk := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
	b, err := desk.OpenBench(ctx, "setup-launch-built")
	if err != nil {
		t.Fatal(err)
	}
	p, err := b.NewPlan(ctx, plan.Both, task.MostShims)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.SavePlan(p, task.A4, filepath.Join(t.TempDir(), "none.pdf"), false); err == nil {
		t.Error("a plan that was not made is on paper")
	}
	if err := p.Make(plan.Options{}); err != nil {
		t.Fatal(err)
	}
	for _, paper := range []task.Paper{task.A4, task.Letter} {
		path, err := b.SavePlan(p, paper, filepath.Join(t.TempDir(), "pick"), false)
		if err != nil || filepath.Ext(path) != ".pdf" {
			t.Fatal(path, err)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(textOf(t, data)), " ")
		for i := range p.Made.Rows {
			cells := p.Made.Rows[i].Cells(b.Words())
			for _, c := range cells[:len(cells)-1] { // of the verdict only what will be
				if c.From = ""; !strings.Contains(text, c.Text()) {
					t.Errorf("%s: %s: %q is not on the paper", paper, cells[0].Is, c.Text())
				}
			}
		}
		for _, l := range p.Made.Pick {
			if line := b.Words().Line(l); !strings.Contains(text, line) {
				t.Errorf("%s: %q is not on the paper", paper, line)
			}
		}
	}
}
