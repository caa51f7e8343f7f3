package welcome_test

import (
	"slices"
	"testing"

	"keeperbook/app/internal/screen/welcome"
)

// door writes down what it was asked.
type door struct{ asked []string }

func (d *door) NewBook()           { d.asked = append(d.asked, "new") }
func (d *door) OpenBook()          { d.asked = append(d.asked, "open") }
func (d *door) DemoBook()          { d.asked = append(d.asked, "demo") }
func (d *door) FirstHead()         { d.asked = append(d.asked, "first") }
func (d *door) Reopen(path string) { d.asked = append(d.asked, path) }

func TestKeys(t *testing.T) {
	many := []string{"/b/1.keeperbook", "/b/2.keeperbook", "3.k", "4.k", "5.k", "6.k", "7.k", "8.k", "9.k", "10.k"}
	for _, c := range []struct {
		name   string
		recent []string
		keys   string
		want   []string
	}{
		{"new, open, demonstration, first head", nil, "nodf", []string{"new", "open", "demo", "first"}},
		{"capitals", nil, "NODF", []string{"new", "open", "demo", "first"}},
		{"books by number", many, "219", []string{"/b/2.keeperbook", "/b/1.keeperbook", "9.k"}},
		{"no such book", many[:1], "2", nil},
		{"other keys", many, "0x \n", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := &door{}
			p := welcome.NewPresenter(d, c.recent)
			for _, k := range c.keys {
				before := len(d.asked)
				if did := p.Type(k); did != (len(d.asked) > before) {
					t.Errorf("%q: said %v and asked %v", k, did, d.asked[before:])
				}
			}
			if !slices.Equal(d.asked, c.want) {
				t.Errorf("asked %q, want %q", d.asked, c.want)
			}
		})
	}
}

func TestBooks(t *testing.T) {
	got := welcome.NewPresenter(&door{}, []string{"/data/north bay.keeperbook"}).Books()
	want := welcome.Book{Key: '1', Name: "north bay", Folder: "/data", Path: "/data/north bay.keeperbook"}
	if len(got) != 1 || got[0] != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
}
