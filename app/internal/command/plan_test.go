package command_test

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/command"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// What does not fit is said in words and numbers, with what would free it; for programs too.
func TestPlanThatDoesNotFit(t *testing.T) {
	ctx := context.Background()
	now := func() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }
	path, err := task.DemoBook(ctx, t.TempDir(), assets.Demo(), now)
	if err != nil {
		t.Fatal(err)
	}
	desk, err := task.OpenBook(ctx, path, "test", now)
	if err != nil {
		t.Fatal(err)
	}
	b, err := desk.OpenBench(ctx, "setup-launch-built")
	if err != nil {
		t.Fatal(err)
	}
	margin, err := unit.Of("0.130", unit.In)
	if err != nil {
		t.Fatal(err)
	}
	pack := b.Record().PackageOf(record.Exhaust)
	pack.Least = []record.Least{{Coil: 1, Margin: margin}}
	if err := b.Keep(ctx, pack); err != nil {
		t.Fatal(err)
	}
	if err := desk.Close(); err != nil {
		t.Fatal(err)
	}
	run := func(more ...string) string {
		var out, wrong bytes.Buffer
		args := append([]string{"plan", path, "DR-1L", "-for", "shims"}, more...)
		if code := command.Run(ctx, command.Env{Out: &out, Err: &wrong, Clock: now, Who: "test"}, args); code != command.OK {
			t.Fatalf("ends with %d: %s", code, wrong.String())
		}
		return out.String()
	}
	text := run()
	for _, want := range []string{"Nothing fits; that is proved.\n", "is to keep .130 and a guard of ", "Locks of +"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	var said struct {
		Proven       bool
		Outcome      string
		Worst        *struct{ Value, Bound int64 }
		Valves       []any
		Reason, Free []string
	}
	if err := json.Unmarshal([]byte(run("-json")), &said); err != nil {
		t.Fatal(err)
	}
	if !said.Proven || said.Outcome != "nothing-fits" || said.Worst != nil || len(said.Valves) > 0 || len(said.Reason) < 2 || len(said.Free) == 0 {
		t.Errorf("%+v", said)
	}
	for _, line := range append(said.Reason, said.Free...) {
		if !strings.Contains(text, line+"\n") {
			t.Errorf("only programs are told %q", line)
		}
	}
}
