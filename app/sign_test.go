//go:build cgo && linux

package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/record"
)

// A signer is made and draws, a set-up is signed with that, the sheet is let out, and another shop's book checks it and takes
// it in.
func TestSignInTheWindow(t *testing.T) {
	onceARun(t)
	ctx := context.Background()
	d := newDesktop(t)
	d.locale = "es_ES.UTF-8"
	book, p, h := d.onDemonstration(t)
	h.put("QH-3")
	h.key("ctrl+p")
	h.click(515, 120) // to the page of signers
	h.key("Tab", "Return")
	for _, text := range []string{"J. Peverel", "head porter", "", "grinding paste", "grinding paste"} {
		if text != "" {
			h.puts(text)
		}
		h.pause()
		h.key("Return")
	}
	signers := filepath.Join(d.home, "config", "keeperbook", "signers")
	p.until("the signer's files", func() bool { return count(signers, "*.p12") == 1 && count(signers, "*.json") == 1 })
	h.eye.calm()
	h.key("Tab", "Tab", "Tab", "Tab", "Tab", "Tab", "Tab", "Tab", "Return")
	h.draw([][2]int{{560, 660}, {600, 610}, {640, 670}, {690, 600}, {760, 668}, {900, 640}}, [][2]int{{540, 680}, {1000, 672}})
	h.key("Tab", "Return") // keeps it
	h.puts("grinding paste")
	h.pause()
	h.key("Return")
	p.until("the drawn signature", func() bool { return count(signers, "*.hand") == 1 })
	h.eye.calm()

	// Back at the head, its sheet is signed, and exported under the name that is proposed.
	h.click(82, 50)
	h.key("alt+6", "s", "Return")
	h.puts("grinding paste")
	h.pause()
	h.key("Return")
	const setup = "setup-hill-built"
	p.until("a closed set-up", func() bool {
		w := workedOut(book, setup)
		return w != nil && w.Record.Setup.State == record.Closed
	})
	h.eye.calm()
	h.key("p", "Return")
	sheet := filepath.Join(filepath.Dir(book), "QH-3-as-built.pdf")
	p.until("the signed sheet", func() bool { _, err := os.Stat(sheet); return err == nil })
	p.stop()
	file, err := os.ReadFile(sheet)
	if err != nil {
		t.Fatal(err)
	}
	v, err := task.Verify(context.Background(), file)
	if err != nil || !v.Whole || v.Pages != task.PagesAgree || v.Signatures[0].Name != "J. Peverel" || v.Signatures[0].Reason != "head porter" {
		t.Fatalf("%v, %+v", err, v)
	}
	if ink := v.Signatures[0].Ink; len(ink) != 2 || len(ink[0]) < 4 || len(ink[1]) < 2 {
		t.Errorf("drawn was %v", ink)
	}

	// The other shop looks at it, trusts whoever signed, and takes the record in.
	other := filepath.Join(d.home, "other.keeperbook")
	theirs, err := task.MakeBook(ctx, other, "test", time.Now)
	if err != nil {
		t.Fatal(err)
	}
	if err := theirs.Close(); err != nil {
		t.Fatal(err)
	}
	p = d.start(other)
	p.listen()
	h = &hand{program: p, eye: d.look()}
	h.eye.calm()
	h.check(sheet)
	h.key("Tab", "Return") // takes it in
	p.until("the record in the other book", func() bool { return workedOut(other, setup) != nil })
	h.check(sheet)
	h.key("Return") // trusts whoever signed
	h.pause()
	h.key("Return") // the name that is proposed
	h.puts("by telephone")
	h.pause()
	h.key("Return")
	p.until("the trust in the other book", func() bool { return trusts(other) == 1 })
	p.stop()
	theirs, err = task.OpenBook(ctx, other, "test", time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer theirs.Close()
	kept, err := theirs.Verify(ctx, file)
	if err != nil || kept.Book.Here != task.HereSame || kept.Book.Trusts[0] == nil || kept.Book.Trusts[0].How != "by telephone" {
		t.Errorf("%v, %+v", err, kept.Book)
	}
	same, err := task.Sheet(ctx, theirs.Book, setup, task.A4)
	if err != nil || !bytes.Equal(same, file) {
		t.Errorf("the other book has another sheet: %v", err)
	}
}

// onDemonstration starts the program with the demonstration book, and gives back what types into it.
func (d *desktop) onDemonstration(t *testing.T) (book string, p *program, h *hand) {
	t.Helper()
	book, err := task.DemoBook(context.Background(), d.home, assets.Demo(), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	p = d.start(book)
	p.listen()
	h = &hand{program: p, eye: d.look()}
	h.eye.calm()
	return book, p, h
}

// draw draws strokes with the pointer, each through its places in the window.
func (h *hand) draw(strokes ...[][2]int) {
	h.t.Helper()
	for _, s := range strokes {
		h.xdotool("mousemove", fmt.Sprint(s[0][0]), fmt.Sprint(s[0][1]), "mousedown", "1")
		for _, to := range s[1:] {
			h.xdotool("mousemove", fmt.Sprint(to[0]), fmt.Sprint(to[1]))
			h.eye.calm()
		}
		h.xdotool("mouseup", "1")
		h.eye.calm()
	}
}

// check looks at a sheet, and waits until its pages are there on the right.
func (h *hand) check(sheet string) {
	h.t.Helper()
	h.key("ctrl+k")
	h.key("ctrl+a")
	h.put(sheet)
	right := image.Rect(700, 200, 1100, 700)
	h.until("the pages of the sheet", func() bool { return bytes.Count(h.eye.see(right), []byte{0, 0, 0}) > 200 })
	h.eye.calm()
}

// trusts counts whom the shop of a book trusts.
func trusts(book string) int {
	ctx := context.Background()
	desk, err := task.ReadBook(ctx, book, "test", time.Now)
	if err != nil {
		return 0
	}
	defer desk.Close()
	all, err := desk.Trusted(ctx)
	if err != nil {
		return 0
	}
	return len(all)
}

// count counts the files of a pattern in a folder.
func count(folder, pattern string) int {
	all, _ := filepath.Glob(filepath.Join(folder, pattern))
	return len(all)
}

// click presses the pointer in the window.
func (h *hand) click(x, y int) {
	h.t.Helper()
	h.xdotool("mousemove", fmt.Sprint(x), fmt.Sprint(y), "click", "1")
	h.pause()
	h.eye.calm()
}

// pause waits as somebody does who types: what ends at once was a gauge.
func (h *hand) pause() { time.Sleep(300 * time.Millisecond) }
