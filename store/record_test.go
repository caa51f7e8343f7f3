package store

import (
	"context"
	"math/rand/v2"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

func TestRecordComesBackAsItWasKept(t *testing.T) {
	ctx := context.Background()
	want := rich()
	b := newBook(t)
	// Kept in any order of its lists, and beside another set-up with parts of its own.
	shuffled := rich()
	edits := editsOf(shuffled)
	lists := edits[len(edits)-len(listed(&shuffled.Setup)):]
	rand.New(rand.NewPCG(1, 2)).Shuffle(len(lists), func(i, j int) { lists[i], lists[j] = lists[j], lists[i] })
	keep(t, b, "all", "", edits...)
	keepRecord(t, b, small("2"))
	keep(t, b, "shop", "", record.Put("", want.Shop), record.Put("", record.Seal{ID: "SL-9", Name: "nobody's", Sits: record.OnGuide}))

	got, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Fatal(d)
	}
	path := b.Path()
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	for _, open := range []func(context.Context, string, Options) (*Book, error){Open, OpenReadOnly} {
		again, err := open(ctx, path, options())
		if err != nil {
			t.Fatal(err)
		}
		got, err := again.Record(ctx, "S-1")
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Error(d)
		}
		sound(t, again)
		if err := again.Close(); err != nil {
			t.Error(err)
		}
	}
}

// The record that comes back as it was kept has something to bring back in every field there is.
func TestRichFillsEveryField(t *testing.T) {
	filled := map[string]bool{}
	var look func(v reflect.Value)
	look = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer:
			if !v.IsNil() {
				look(v.Elem())
			}
		case reflect.Slice:
			for i := range v.Len() {
				look(v.Index(i))
			}
		case reflect.Struct:
			for i := range v.NumField() {
				name := v.Type().String() + "." + v.Type().Field(i).Name
				filled[name] = filled[name] || !v.Field(i).IsZero()
				look(v.Field(i))
			}
		}
	}
	look(reflect.ValueOf(rich()))
	for name, yes := range filled {
		if !yes {
			t.Errorf("%s is filled nowhere", name)
		}
	}
	if len(filled) < 200 {
		t.Errorf("%d fields only", len(filled))
	}
}

// sound fails the test where Examine finds anything wrong.
func sound(t *testing.T, b *Book) {
	t.Helper()
	report, err := b.Examine(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range report.Results {
		if !r.OK {
			t.Error(r.Name, ": ", say.English().Line(r.Line))
		}
	}
}
