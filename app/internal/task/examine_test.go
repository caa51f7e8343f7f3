package task_test

import (
	"context"
	"strings"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/store"
)

// A sheet that was kept for a set-up whose record it does not show is found, and the demonstration's own is sound.
func TestExamineLooksIntoTheSheets(t *testing.T) {
	ctx := context.Background()
	book := demonstration(t)
	look := func() store.Result {
		t.Helper()
		r, err := task.Examine(ctx, book.Path())
		if err != nil {
			t.Fatal(err)
		}
		last := r.Results[len(r.Results)-1]
		if last.Name != "sheets" {
			t.Fatalf("%+v", r.Results)
		}
		return last
	}
	if r := look(); !r.OK || r.Line.Args[0] != 1 {
		t.Errorf("%+v", r)
	}
	s, err := book.Sheet(ctx, "setup-launch-found")
	if err != nil {
		t.Fatal(err)
	}
	rec, err := book.Record(ctx, "setup-launch-built")
	if err != nil {
		t.Fatal(err)
	}
	other := *s
	other.Setup, other.N, other.Record = "setup-launch-built", 1, strings.Repeat("0", 64)
	if _, err := book.Sign(ctx, other, rec, nil, record.Action{Token: "wrong", By: "x", At: "2026-06-01T12:00:00Z"}); err != nil {
		t.Fatal(err)
	}
	if r := look(); r.OK || !strings.Contains(r.Line.Args[0].(string), "DR-1L (setup-launch-built)") {
		t.Errorf("%+v", r)
	}
}
