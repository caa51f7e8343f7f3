package pdf

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

func someLabels(g LabelGrid, from, n int) Labels {
	l := Labels{
		Grid: g, From: from, Made: time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC),
		Words: evaluate.Words(record.Units{Length: unit.In, Load: unit.Lbf}),
	}
	for range n {
		l.All = append(l.All, Label{
			Tag: "a tag that nobody would write on a bag of a spring",
			Lines: []LabelLine{
				{"bind 1.115", 0}, {"123.3 lbf at 1.820", 1}, {"191.5 lbf at 1.600", 4}, {"320 lbf at 1.210", 2}, {strings.Repeat("a long name of a type ", 12), 3},
				{strings.Repeat("x", 90), 5}, {"tested 2026-05-11", 1},
			},
			Code: "keeperbook:spring:DR-01",
		})
	}
	return l
}

// Labels of every grid lie on their paper and beside each other: what the columns and rows take is no more than the sheet has
// (ISO 216: A4 is 210 mm by 297 mm; Letter is 8.5 in by 11 in). Nothing that is set on a label leaves it.
func TestLabelsStayOnTheirLabels(t *testing.T) {
	for _, g := range LabelGrids {
		t.Run(g.Name, func(t *testing.T) {
			width, height, err := g.Paper.size()
			if err != nil {
				t.Fatal(err)
			}
			if g.OnX < g.Wide || g.OnY < g.High || g.Left < 0 || g.Top < 0 {
				t.Error("labels lie on each other, or off the paper")
			}
			right := g.Left + float64(g.Columns-1)*g.OnX + g.Wide
			bottom := g.Top + float64(g.Rows-1)*g.OnY + g.High
			// What is left at the right and below is what is left at the left and above, to a tenth of a millimetre and a half.
			if math.Abs(width-right-g.Left) > 0.5 || math.Abs(height-bottom-g.Top) > 1.6 {
				t.Errorf("left %g, right %g, above %g, below %g points", g.Left, width-right, g.Top, height-bottom)
			}
			on := g.Columns * g.Rows
			p := someLabels(g, on, 2).press(width, height)
			if p.pages() != 2 {
				t.Errorf("two labels from the last place on take %d sheets", p.pages())
			}
			p = someLabels(g, 2, 1).press(width, height)
			// The second label of the first row.
			x0, y0 := g.Left+g.OnX, g.Top
			n := 0
			for _, m := range p.marks {
				x1, y1, x2, y2, ok := reach(p, m)
				if !ok {
					continue
				}
				n++
				if x1 < x0 || x2 > x0+g.Wide || y1 < y0 || y2 > y0+g.High {
					t.Errorf("%+v leaves its label: %.1f to %.1f of %.1f to %.1f, %.1f to %.1f of %.1f to %.1f", m, x1, x2, x0, x0+g.Wide, y1, y2, y0, y0+g.High)
				}
			}
			if n < 50 {
				t.Errorf("%d marks", n)
			}
		})
	}
}

// Of the lines that have no room those go that matter least, the others keep their order, and a sign says that some are gone. A tag
// that no code can show leaves the code out.
func TestWhatALabelLeavesOut(t *testing.T) {
	all := someLabels(LabelGrids[0], 1, 1).All[0].Lines
	for room, want := range map[int]string{
		0: "", 1: "bind 1.115", 3: "bind 1.115|123.3 lbf at 1.820|tested 2026-05-11",
		4: "bind 1.115|123.3 lbf at 1.820|320 lbf at 1.210|tested 2026-05-11",
	} {
		if lines, cut := fitting(all, room); strings.Join(lines, "|") != want || !cut {
			t.Errorf("room for %d: %q, cut %v", room, lines, cut)
		}
	}
	if lines, cut := fitting(all, 9); len(lines) != len(all) || cut {
		t.Errorf("%q, %v", lines, cut)
	}
	l := someLabels(LabelGrids[0], 1, 1)
	l.All[0].Code = strings.Repeat("x", 2400)
	if err := WriteLabels(&bytes.Buffer{}, l); err != nil {
		t.Error(err)
	}
}

// A scanner reads the tag off a label.
func TestAScannerReadsALabel(t *testing.T) {
	for _, program := range []string{"pdftoppm", "zbarimg"} {
		if _, err := exec.LookPath(program); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatalf("%s is missing; app/setup.sh installs it under CI", program)
			}
			t.Skipf("%s is not installed; sh app/setup.sh with CI=true installs it", program)
		}
	}
	for _, g := range LabelGrids {
		var b bytes.Buffer
		if err := WriteLabels(&b, someLabels(g, 1, 1)); err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "page.pdf"), b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, run := range [][]string{{"pdftoppm", "-r", "200", "-png", "-singlefile", "page.pdf", "page"}, {"zbarimg", "-q", "--raw", "page.png"}} {
			cmd := exec.Command(run[0], run[1:]...)
			cmd.Dir = dir
			out, err := cmd.Output()
			if err != nil {
				t.Fatalf("%s: %v", run[0], err)
			}
			if run[0] == "zbarimg" && strings.TrimSpace(string(out)) != "keeperbook:spring:DR-01" {
				t.Errorf("%s: it reads %q", g.Name, out)
			}
		}
	}
}

// reach is the rectangle that a mark takes; false where it sets nothing.
func reach(p *press, m mark) (x1, y1, x2, y2 float64, ok bool) {
	switch m := m.(type) {
	case lettering:
		return m.x, m.y - m.set.size, m.x + p.widthOf(m.set, m.line), m.y + 0.25*m.set.size, true
	case block:
		return m.x, m.y, m.x + m.w, m.y + m.h, true
	}
	return 0, 0, 0, 0, false
}
