package task_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// What stood in the tester is no part of a load's height: DR-01 was read at 1.915 in through a lid of .095 in, which is 1.820 in.
func TestLabelsShowWhatIsTrueOfTheSpring(t *testing.T) {
	ctx := context.Background()
	desk := &task.Desk{Book: demonstration(t), Who: "M. Ashlock", Clock: clock}
	counter, err := desk.OpenCounter(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range counter.Parts().Pieces {
		if p.Tag != "DR-01" {
			continue
		}
		points := evaluate.TestedPoints(&record.Record{Gauges: counter.Gauges()}, &p.Loads[0].Loads)
		if len(points) != 4 || points[0].Height != 1820*unit.Thou || points[3].Height != 1210*unit.Thou {
			t.Errorf("%+v", points)
		}
	}
	path := filepath.Join(t.TempDir(), "labels.pdf")
	ask := task.LabelAsk{Tags: []string{"DR-01", "KV-04"}, Grid: "3x8", From: 2}
	if where, err := counter.SaveLabels(ask, path, false); err != nil || where != path {
		t.Fatal(where, err)
	}
	if _, err := counter.SaveLabels(ask, path, false); say.CodeOf(err) != say.Conflict {
		t.Errorf("written over: %v", err)
	}
	if data, err := os.ReadFile(path); err != nil || !strings.HasPrefix(string(data), "%PDF") {
		t.Errorf("%.8q, %v", data, err)
	}
	for _, c := range []struct {
		ask  task.LabelAsk
		code say.Code
	}{
		{task.LabelAsk{Grid: "9x9", From: 1}, say.Invalid},
		{task.LabelAsk{Grid: "3x8", From: 25}, say.Invalid},
		{task.LabelAsk{Grid: "3x8", From: task.ReadFrom("two")}, say.Invalid},
		{task.LabelAsk{Grid: "3x8", From: task.ReadFrom(" "), Tags: []string{"ZZ-1"}}, say.NotFound},
	} {
		if _, err := counter.Labels(c.ask); say.CodeOf(err) != c.code {
			t.Errorf("%+v: %v", c.ask, err)
		}
	}
}
