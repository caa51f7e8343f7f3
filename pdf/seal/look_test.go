package seal

import (
	"bytes"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// What is drawn in a place comes back out of it, whatever was drawn.
func TestLookComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dot := rapid.Custom(func(t *rapid.T) Dot {
			return Dot{rapid.IntRange(0, InkWide).Draw(t, "x"), rapid.IntRange(0, InkHigh).Draw(t, "y")}
		})
		var k Ink
		for _, s := range rapid.SliceOfN(rapid.SliceOfN(dot, 1, 20), 0, 8).Draw(t, "strokes") {
			k = append(k, s)
		}
		words := []byte(rapid.SampledFrom([]string{"", "1.5 2 m\n3 4 5 6 7 8 c\nh f\n"}).Draw(t, "words"))
		w, h := rapid.Float64Range(1, 600).Draw(t, "w"), rapid.Float64Range(1, 100).Draw(t, "h")
		got, ink, ok := readLook(look(words, k, w, h), w, h)
		if len(k) == 2 && len(k[0]) == 2 && k[0][0] == k[0][1] {
			return // two dots in one place are one
		}
		for _, s := range k {
			if len(s) == 2 && s[0] == s[1] {
				return
			}
		}
		if !ok || !bytes.Equal(got, words) || !cmp.Equal(ink, k) {
			t.Fatalf("%v, %q, %v came back of %v", ok, got, ink, k)
		}
	})
}

// Nothing else may be drawn there: a reader could be led by it.
func TestLookIsPathsAlone(t *testing.T) {
	k := Ink{{{1, 2}, {3, 4}}}
	good := string(look([]byte("1 2 m\n3 4 l\nh f\n"), k, 120, 20))
	if _, _, ok := readLook([]byte(good), 120, 20); !ok {
		t.Fatal("what is drawn here is not read")
	}
	for name, content := range map[string]string{
		"letters":            "BT /F1 12 Tf (1.842) Tj ET\n" + good,
		"a picture":          "/Im0 Do\n" + good,
		"a colour":           "1 g\n" + good,
		"another matrix":     "9 0 0 9 0 0 cm\n" + good,
		"behind it":          good + "0 0 m\n9 9 l\nS\n",
		"a comment":          "% words\n" + good,
		"another pen":        string(bytes.Replace([]byte(good), []byte(" 40 w"), []byte(" 400 w"), 1)),
		"beyond the field":   string(bytes.Replace([]byte(good), []byte("3 4 l\nS"), []byte("9999 4 l\nS"), 1)),
		"a state":            "/GS0 gs\n" + good,
		"an opened stroke":   string(bytes.Replace([]byte(good), []byte("S\nQ\n"), []byte("Q\n"), 1)),
		"of another size":    string(look(nil, k, 240, 40)),
		"longer than a look": string(bytes.Repeat([]byte("1 2 m\n"), mostLook)),
	} {
		if _, _, ok := readLook([]byte(content), 120, 20); ok {
			t.Errorf("%s is taken for a look", name)
		}
	}
}

// A second signer with a key that holds draws something else in the place: the signature is none.
func TestForgedLook(t *testing.T) {
	when := time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)
	key := func(name string) Signer {
		s, err := NewKey(Person{Name: name}, when.Add(-time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		s.When = when
		return s
	}
	first, err := Seal(bare(), Sealing{Made: when, Record: []byte("{}"), Signer: key("M. Ashlock"), Fields: []Field{
		{Name: "one", Page: 1, Rect: [4]float64{10, 10, 130, 30}}, {Name: "two", Page: 1, Rect: [4]float64{10, 40, 130, 60}},
	}})
	if err != nil {
		t.Fatal(err)
	}
	for words, whole := range map[string]bool{"1 2 m\n3 4 l\nh f\n": true, "BT /F1 12 Tf (1.842) Tj ET\n": false, "/Im0 Do\n": false} {
		w, err := further(first, []byte(words), nil)
		if err != nil {
			t.Fatal(err)
		}
		both, err := w.signed(key("J. Peverel"))
		if err != nil {
			t.Fatal(err)
		}
		r, err := Check(both)
		if err != nil || r.Whole() != whole {
			t.Errorf("%q: %v, whole: %v, added: %v", words, err, r.Whole(), r.Added)
		}
		s := key("J. Peverel")
		s.Words = []byte(words)
		if _, err := Countersign(first, s); (err == nil) != whole {
			t.Errorf("%q is signed: %v", words, err)
		}
	}
	// The first signer may draw no more than that either.
	s := key("M. Ashlock")
	s.Ink = Ink{{{InkWide + 1, 0}}}
	if _, err := Countersign(first, s); err == nil {
		t.Error("ink beyond the field is signed")
	}
}

// bare is the least file of one page that can be sealed.
func bare() []byte {
	w := &writer{offsets: map[int]int{}, next: 1}
	w.b.WriteString("%PDF-1.3\n")
	tree, page, content, info, root := w.add(), w.add(), w.add(), w.add(), w.add()
	w.put(tree, dict{"Type": name("Pages"), "Kids": array{ref{page, 0}}, "Count": 1, "MediaBox": array{0, 0, 595, 842}})
	w.put(page, dict{"Type": name("Page"), "Parent": ref{tree, 0}, "Contents": ref{content, 0}})
	w.put(content, lengthened(stream{dict{}, []byte("0 0 m 9 9 l S")}))
	w.put(info, dict{"Producer": text("test")})
	w.put(root, dict{"Type": name("Catalog"), "Pages": ref{tree, 0}})
	w.trailer = dict{"Root": ref{root, 0}, "Info": ref{info, 0}}
	w.end()
	return w.b.Bytes()
}
