//go:build cgo && linux

package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"path/filepath"
	"time"

	"keeperbook/app/internal/task"
)

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
