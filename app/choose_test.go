//go:build cgo && linux

package main

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// The types of the shop are held against a head, the first that serves is put on it, and the questions that are open
// go into a form. By the keyboard alone.
func TestChooseInTheWindow(t *testing.T) {
	onceARun(t)
	d := newDesktop(t)
	book := filepath.Join(d.home, "choose.keeperbook")
	setup := bigHead(t, book, "64-1")
	stockTypes(t, book, setup)
	p := d.start(book)
	p.listen()
	h := &hand{program: p, eye: d.look()}
	h.eye.calm()

	h.put("64-1")
	h.key("alt+2")
	h.key("Return", "Return") // looks at the first type, and puts it on
	spring := func() string {
		w := workedOut(book, setup)
		if w == nil {
			return ""
		}
		return w.Record.PackageOf(record.Intake).Spring
	}
	p.until("a spring on the intakes", func() bool { return spring() != "" })
	if got := spring(); got != "short" {
		t.Errorf("put on: %s, want the one that serves", got)
	}
	h.key("q", "Return")
	form := filepath.Join(d.home, "64-1-as-found-questions.pdf")
	p.until("the question form", func() bool { _, err := os.Stat(form); return err == nil })
	// The parts have it too, and one undo takes it off them.
	h.key("alt+3", "ctrl+z")
	p.until("the intakes without it", func() bool { return workedOut(book, setup) != nil && spring() == "" })
	p.stop()
}

// stockTypes puts two invented types into the book, of which one binds too high for what is measured on 1 in.
func stockTypes(t *testing.T, book, setup string) {
	t.Helper()
	ctx := context.Background()
	desk, err := task.OpenBook(ctx, book, "M. Tester", time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer desk.Close()
	b, err := desk.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	of := func(read string, s unit.Symbol) unit.Quantity {
		q, err := unit.Of(read, s)
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	spring := func(name, bind string) record.Spring {
		return record.Spring{ID: name, Name: name, Coils: []record.Coil{{
			Name: "outer", Bind: &record.Bind{Reading: of(bind, unit.In), Source: record.Measured},
			Loads: &record.Loads{Source: record.Measured, Points: []record.Point{
				{Height: of("1.900", unit.In), Load: of("120", unit.Lbf)}, {Height: of("1.140", unit.In), Load: of("424", unit.Lbf)},
			}},
		}}}
	}
	at := b.Record().Head.Positions()[0]
	reading := func(kind record.Kind, read string) record.Reading {
		return record.Reading{At: at, Kind: kind, N: 1, Quantity: of(read, unit.In), Method: record.Typed}
	}
	if err := b.Fit(ctx, spring("short", "1.060"), spring("tall", "1.110"),
		record.Package{Role: record.Intake, Least: []record.Least{{Coil: 1, Margin: of("0.080", unit.In)}}},
		reading(record.BaseHeight, "1.870"), reading(record.LiftChecking, "0.700")); err != nil {
		t.Fatal(err)
	}
}
