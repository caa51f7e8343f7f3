package task_test

import (
	"errors"
	"slices"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

func TestDraftsUnkept(t *testing.T) {
	var d task.Drafts
	if d.Unkept() != nil {
		t.Error("something is unkept where nothing was typed")
	}
	d.Keep("b", "abc", say.Fail(say.Invalid, "task.reason"))
	d.Keep("a", ".4", nil)
	d.Keep("c", "x", errors.New("the line is dead"))
	var got []string
	for _, l := range d.Unkept() {
		got = append(got, say.English().Line(l))
	}
	want := []string{
		`".4" waits for what belongs to it, and is not kept before.`,
		`"abc" is not kept: A finding is accepted only with a reason; write why it may stay as it is.`,
		`"x" is not kept: the line is dead`,
	}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	d.Drop("a", "b", "c")
	if d.Unkept() != nil {
		t.Error("something is unkept where all was given up")
	}
}
