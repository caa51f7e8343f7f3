package exchange

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

const everySpringColumn = "tag,spring,batch,condition,what,coil,height,load,back,correction,gauge,height-gauge,retainer,locator,source,by,when,note\n"

func TestReadSprings(t *testing.T) {
	lid := Correction{Listed, []Part{{record.Lid, ".095", record.NotZeroed}}}
	tests := []struct {
		name string
		text string
		want []SpringEntry
	}{
		{"one point", "tag,what,height,load,correction\nA-1,load,1.800,131,as-set\n", []SpringEntry{{
			Line: 2, Tag: "A-1", Loads: []SpringTest{{Correction: Correction{Said: AsSet}, Points: []SpringPoint{{2, "1.800", "131", ""}}}},
		}}},
		{"a spring as one and its inner coil, points in any order, each thing said once", everySpringColumn +
			"A-1,nest 12,B7,run-in,load,,1.895,131,127,lid .095,tester 7,caliper 6,step .095,cup .060,,AB,2026-03-01T08:00:00Z,blue dab\n" +
			"A-1,,,,load,,1.295,382,,lid .095,,,,,,,2026-03-01T08:01:00Z,\n" +
			"A-1,,,,load,2,1.200,60,,at-the-spring,,,,,supplied,,,\n" +
			"A-1,,,,load,,1.595,250,,lid .095,tester 7,,,,,,,\n" +
			"A-1,,,,bind,2,1.030,,,at-the-spring,fixture,,,,,,,\n" +
			"A-1,,,,free,,2.095,,,,,,,,,,,\n",
			[]SpringEntry{{
				Line: 2, Tag: "A-1", Spring: "nest 12", Batch: "B7", Condition: record.RunIn, Note: "blue dab",
				Free:  &SpringPoint{Line: 7, Height: "2.095"},
				Binds: []SpringTest{{Coil: 2, Correction: Correction{Said: AtTheSpring}, Gauge: "fixture", Points: []SpringPoint{{6, "1.030", "", ""}}}},
				Loads: []SpringTest{
					{
						Correction: lid, Gauge: "tester 7", HeightGauge: "caliper 6", Retainer: "step .095", Locator: "cup .060", By: "AB",
						When: "2026-03-01T08:00:00Z", Points: []SpringPoint{{2, "1.895", "131", "127"}, {3, "1.295", "382", ""}, {5, "1.595", "250", ""}},
					},
					{Coil: 2, Correction: Correction{Said: AtTheSpring}, Source: record.Supplied, Points: []SpringPoint{{4, "1.200", "60", ""}}},
				},
			}}},
		{"two springs in turns, semicolons and commas", "tag;what;coil;height;load;correction\nA-1;load;1;1,800;131;as-set\nA-2;load;1;1,800;133;as-set\nA-1;LOAD;1;1,200;382;As-Set\n", []SpringEntry{
			{Line: 2, Tag: "A-1", Loads: []SpringTest{{Coil: 1, Correction: Correction{Said: AsSet}, Points: []SpringPoint{{2, "1,800", "131", ""}, {4, "1,200", "382", ""}}}}},
			{Line: 3, Tag: "A-2", Loads: []SpringTest{{Coil: 1, Correction: Correction{Said: AsSet}, Points: []SpringPoint{{3, "1,800", "133", ""}}}}},
		}},
		{"header alone", "tag,what,height\n", nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			sheet, errs := ReadSprings([]byte(test.text))
			if len(errs) > 0 {
				t.Fatal(errs)
			}
			if diff := cmp.Diff(test.want, sheet.Springs); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestReadSpringsRefusesLines(t *testing.T) {
	const point = "A-1,,,,load,,1.800,131,,lid .095,tester 7,caliper 6,r1,c1,measured,AB,,\n"
	tests := []struct {
		name   string
		text   string
		line   int
		key    string
		column string
	}{
		{"nothing", "", 1, "exchange.csv-empty", ""},
		{"a table of readings", "head,valve,what,reading\n", 1, "exchange.csv-column", "head"},
		{"no column of heights", "tag,what\n", 1, "exchange.csv-column-missing", "height"},
		{"half a line", everySpringColumn + "A-1\n", 2, "exchange.csv-half", ""},
		{"no tag", everySpringColumn + ",,,,load,,1.8,131,,as-set,,,,,,,,\n", 2, "exchange.csv-blank", "tag"},
		{"no height", everySpringColumn + "A-1,,,,load,,,131,,as-set,,,,,,,,\n", 2, "exchange.csv-blank", "height"},
		{"no load", everySpringColumn + "A-1,,,,load,,1.8,,,as-set,,,,,,,,\n", 2, "exchange.csv-blank", "load"},
		{"unknown what", everySpringColumn + "A-1,,,,rate,,1.8,131,,as-set,,,,,,,,\n", 2, "exchange.csv-what", "what"},
		{"unknown condition", everySpringColumn + "A-1,,,fresh,load,,1.8,131,,as-set,,,,,,,,\n", 2, "exchange.springs-condition", "condition"},
		{"unknown source", everySpringColumn + "A-1,,,,load,,1.8,131,,as-set,,,,,hearsay,,,\n", 2, "exchange.springs-source", "source"},
		{"local time", everySpringColumn + "A-1,,,,load,,1.8,131,,as-set,,,,,,,2026-03-01 08:05,\n", 2, "exchange.csv-when", "when"},
		{"coil five", everySpringColumn + "A-1,,,,load,5,1.8,131,,as-set,,,,,,,,\n", 2, "exchange.csv-coil", "coil"},
		{"load of a bind", everySpringColumn + "A-1,,,,bind,1,1.1,131,,as-set,,,,,,,,\n", 2, "exchange.springs-load", "load"},
		{"releasing load of a bind", everySpringColumn + "A-1,,,,bind,1,1.1,,131,as-set,,,,,,,,\n", 2, "exchange.springs-load", "load"},
		{"bind of no coil", everySpringColumn + "A-1,,,,bind,,1.1,,,as-set,,,,,,,,\n", 2, "exchange.springs-coil", "coil"},
		{"coil on a retainer", everySpringColumn + "A-1,,,,load,2,1.8,131,,as-set,,,r1,,,,,\n", 2, "exchange.springs-steps", "retainer"},
		{"free height of a coil", everySpringColumn + "A-1,,,,free,1,2.1,,,,,,,,,,,\n", 2, "exchange.springs-free", "what"},
		{"free height through a lid", everySpringColumn + "A-1,,,,free,,2.1,,,lid .095,,,,,,,,\n", 2, "exchange.springs-free", "what"},
		{"load without the word", everySpringColumn + "A-1,,,,load,,1.8,131,,,,,,,,,,\n", 2, "exchange.csv-through", "correction"},
		{"bind without the word", everySpringColumn + "A-1,,,,bind,1,1.1,,,,,,,,,,,\n", 2, "exchange.csv-through", "correction"},
		{"unknown correction", everySpringColumn + "A-1,,,,load,,1.8,131,,minus lid,,,,,,,,\n", 2, "exchange.csv-line", "correction"},
		{"another type", everySpringColumn + "A-1,nest 12,,,free,,2.1,,,,,,,,,,,\nA-1,nest 13,,,load,1,1.8,131,,as-set,,,,,,,,\n", 3, "exchange.springs-differs", "spring"},
		{"another condition", everySpringColumn + "A-1,,,new,free,,2.1,,,,,,,,,,,\nA-1,,,used,load,1,1.8,131,,as-set,,,,,,,,\n", 3, "exchange.springs-differs", "condition"},
		{"another correction", everySpringColumn + point + "A-1,,,,load,,1.2,382,,at-the-spring,,,,,,,,\n", 3, "exchange.springs-differs", "correction"},
		{"another tester", everySpringColumn + point + "A-1,,,,load,,1.2,382,,lid .095,tester 8,,,,,,,\n", 3, "exchange.springs-differs", "gauge"},
		{"another retainer", everySpringColumn + point + "A-1,,,,load,,1.2,382,,lid .095,,,r2,,,,,\n", 3, "exchange.springs-differs", "retainer"},
		{"bind of a coil twice", everySpringColumn + "A-1,,,,bind,1,1.1,,,as-set,,,,,,,,\nA-1,,,,bind,1,1.1,,,as-set,,,,,,,,\n", 3, "exchange.springs-twice", "what"},
		{"free height twice", everySpringColumn + "A-1,,,,free,,2.1,,,,,,,,,,,\nA-1,,,,free,,2.1,,,,,,,,,,,\n", 3, "exchange.springs-twice", "what"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			sheet, errs := ReadSprings([]byte(test.text))
			if len(errs) != 1 {
				t.Fatalf("%d errors: %v; springs %v", len(errs), errs, sheet.Springs)
			}
			refused(t, errs[0], say.Invalid, test.key, test.column)
			if errs[0].Line != test.line {
				t.Errorf("line %d, want %d", errs[0].Line, test.line)
			}
		})
	}
}

// A line that is refused takes nothing with it, and leaves the spring as it was.
func TestARefusedLineChangesNothing(t *testing.T) {
	sheet, errs := ReadSprings([]byte(everySpringColumn +
		"A-1,,,,load,,1.800,131,,as-set,,,,,,,,\nA-1,,,,load,,1.2,382,,at-the-spring,tester 8,,r2,,,,,\nA-1,,,,load,,1.3,340,,as-set,tester 7,,,,,,,\n"))
	if len(errs) != 1 || len(sheet.Springs) != 1 {
		t.Fatal(errs, sheet.Springs)
	}
	test := sheet.Springs[0].Loads[0]
	if len(test.Points) != 2 || test.Gauge != "tester 7" || test.Retainer != "" {
		t.Errorf("%+v", test)
	}
}

func TestEverySpringComesBackEqual(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecord(t)
		pieces := r.Parts.Pieces
		for i := range pieces {
			// A spring of which nothing was read has no line.
			if len(pieces[i].Binds)+len(pieces[i].Loads) == 0 && pieces[i].Free == nil {
				pieces[i].Free = some("2.100", unit.In)
			}
		}
		var want []SpringEntry
		for _, p := range pieces {
			want = append(want, springEntry(p))
		}
		sheet, errs := ReadSprings(WriteSprings(pieces))
		if len(errs) > 0 {
			t.Fatal(errs)
		}
		lines := cmpopts.IgnoreFields(SpringEntry{}, "Line")
		if diff := cmp.Diff(want, sheet.Springs, cmpopts.EquateEmpty(), lines, cmpopts.IgnoreFields(SpringPoint{}, "Line")); diff != "" {
			t.Fatalf("%s\n%s", diff, WriteSprings(pieces))
		}
	})
}

func TestWriteSprings(t *testing.T) {
	r := sample()
	r.Parts.Pieces[0].Loads = r.Parts.Pieces[0].Loads[:1]
	r.Parts.Pieces[0].Note = "=1+1"
	want := everySpringColumn + strings.ReplaceAll(`A-1,sp1,,,free,,2.095 in,,,,,,,,,,,'=1+1
A-1,sp1,,,bind,1,1.155 in,,,lid 0.095 in,g1,,,,measured,AB,2026-03-01T08:00:00Z,'=1+1
A-1,sp1,,,load,,1.895 in,131 lbf,127 lbf,lid 0.095 in,g3,g2,r1,c1,measured,AB,2026-03-01T08:02:00Z,'=1+1
A-1,sp1,,,load,,1.295 in,382 lbf,,lid 0.095 in,g3,g2,r1,c1,measured,AB,2026-03-01T08:02:00Z,'=1+1
`, "\n", "\r\n")
	if diff := cmp.Diff(want, strings.Replace(string(WriteSprings(r.Parts.Pieces)), "\r\n", "\n", 1)); diff != "" {
		t.Error(diff)
	}
}

// The texts of a table mean what was read, through the parser that takes them in, also where a comma is a decimal mark.
func TestWrittenLoadsMeanTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawer{t}.load()
		for _, c := range []unit.Column{{Unit: unit.Lbf}, {Unit: unit.N}, {Unit: unit.Kgf}, {Unit: unit.N, Comma: true}} {
			entry, err := unit.Parse(c, q.Plain())
			if err != nil {
				t.Fatal(err)
			}
			// A nought behind the point may be more or less.
			if got := entry.Quantity; strings.TrimRight(got.Read, "0") != strings.TrimRight(q.Read, "0") || got.Unit != q.Unit || got.Value != q.Value {
				t.Fatalf("%q became %+v", q.Plain(), entry)
			}
		}
	})
}

// A table is told by its first line: that of springs has a column of tags.
func TestOfSprings(t *testing.T) {
	for table, want := range map[string]bool{
		"tag,what,height\n": true, "\ufeffWhat; Tag ;height": true, "what\ttag": true, "\"tag\",what": true,
		"head,valve,what,reading\nx,1 in,tag,1\n": false, "": false, "tags,what": false,
	} {
		if got := OfSprings([]byte(table)); got != want {
			t.Errorf("%q: %v", table, got)
		}
	}
}
