package kit_test

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// asked opens a question and says what was answered.
func asked(t *testing.T, choices func(did func(string) func()) []kit.Choice) (s *stage, did *[]string, below *kit.Field) {
	below = kit.NewField("below", "1.842", nil)
	s = newStage(t, kit.NewForm(below))
	below.Focus()
	did = &[]string{}
	kit.Ask(s.win, "3 ex, base height", "was 1.842, now 1.836", choices(func(what string) func() {
		return func() { *did = append(*did, what) }
	}))
	s.now = s.now.Add(time.Second)
	return s, did, below
}

func three(did func(string) func()) []kit.Choice {
	return []kit.Choice{
		{Label: "Drop", Cancel: true, Do: did("drop")},
		{Label: "Repeat", Key: 'r', Do: did("repeat")},
		{Label: "Strike", Name: fyne.KeyDelete, Do: did("strike")},
		{Label: "Replace", Primary: true, Do: did("replace")},
	}
}

func TestAskKeys(t *testing.T) {
	for _, tt := range []struct {
		name string
		keys func(*stage)
		want string
	}{
		{"Enter is the primary choice", func(s *stage) { s.press(fyne.KeyReturn) }, "replace"},
		{"Enter of the number pad too", func(s *stage) { s.press(fyne.KeyEnter) }, "replace"},
		{"Esc cancels", func(s *stage) { s.press(fyne.KeyEscape) }, "drop"},
		{"a letter picks", func(s *stage) { s.person("r") }, "repeat"},
		{"a capital picks", func(s *stage) { s.person("R") }, "repeat"},
		{"a named key picks", func(s *stage) { s.press(fyne.KeyDelete) }, "strike"},
		{"an arrow and Enter", func(s *stage) { s.press(fyne.KeyLeft, fyne.KeyReturn) }, "strike"},
		{"Tab goes round and Enter", func(s *stage) { s.win.Canvas().FocusNext(); s.press(fyne.KeyReturn) }, "drop"},
		{"Space does nothing, then Enter", func(s *stage) { s.press(fyne.KeySpace, fyne.KeyReturn) }, "replace"},
		{"a strange letter does nothing, then Esc", func(s *stage) { s.person("x", fyne.KeyEscape) }, "drop"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s, did, below := asked(t, three)
			wantSays(t, s, "3 ex, base height", "was 1.842, now 1.836", "Drop Esc", "Repeat R", "Replace Enter")
			if !kit.DialogOpen(s.win) {
				t.Fatal("no dialog is open")
			}
			tt.keys(s)
			if !slices.Equal(*did, []string{tt.want}) {
				t.Errorf("did %q, want %q", *did, tt.want)
			}
			if kit.DialogOpen(s.win) {
				t.Error("the dialog is still open")
			}
			if !below.Focused() {
				t.Errorf("the keyboard did not come back: %T", s.win.Canvas().Focused())
			}
			if below.Text() != "1.842" || len(s.stray) != 0 {
				t.Errorf("what was below changed to %q, stray %q", below.Text(), s.stray)
			}
		})
	}
}

func TestAskWithoutAPrimaryChoice(t *testing.T) {
	s, did, _ := asked(t, func(did func(string) func()) []kit.Choice {
		return []kit.Choice{{Label: "Replace", Do: did("replace")}, {Label: "Drop", Cancel: true, Do: did("drop")}}
	})
	s.press(fyne.KeyReturn)
	if !slices.Equal(*did, []string{"drop"}) {
		t.Errorf("Enter did %q", *did)
	}
}

func TestEscWithoutAChoiceThatCancels(t *testing.T) {
	s, did, _ := asked(t, func(did func(string) func()) []kit.Choice {
		return []kit.Choice{{Label: "Replace", Primary: true, Do: did("replace")}}
	})
	s.press(fyne.KeyEscape)
	if len(*did) != 0 || kit.DialogOpen(s.win) {
		t.Errorf("did %q, open %v", *did, kit.DialogOpen(s.win))
	}
}

// A choice may open the next dialog; the keyboard comes back through both.
func TestAskAfterAsk(t *testing.T) {
	var s *stage
	s, did, below := asked(t, func(did func(string) func()) []kit.Choice {
		return []kit.Choice{{Label: "More", Primary: true, Do: func() {
			kit.Ask(s.win, "second", "", []kit.Choice{{Label: "Yes", Primary: true, Do: did("yes")}})
		}}}
	})
	s.press(fyne.KeyReturn)
	wantSays(t, s, "second")
	s.now = s.now.Add(time.Second)
	s.press(fyne.KeyReturn)
	if !slices.Equal(*did, []string{"yes"}) || !below.Focused() {
		t.Errorf("did %q, keyboard back: %v", *did, below.Focused())
	}
}

// What lies above a dialog that closes by itself stays, with the keyboard in it.
func TestWhatLiesAboveStays(t *testing.T) {
	var work func()
	s := newStage(t, kit.NewForm(kit.NewField("below", "", nil)))
	kit.AskSlow(s.win, kit.Slow{
		Title: "Sign", Yes: "Sign", Waiting: "The key is being opened", Blanks: []kit.Blank{{Label: "Passphrase", Hide: true}},
		Run: func(w func()) { work = w }, Work: func([]string) (func(), error) { return func() {}, nil },
	})
	s.now = s.now.Add(time.Second)
	s.person("secret", fyne.KeyReturn)
	if !kit.Busy(s.win) {
		t.Error("something else can be begun while the key is opened")
	}
	answered := false
	kit.Ask(s.win, "Not everything is kept", "", []kit.Choice{{Label: "Stay", Primary: true, Do: func() { answered = true }}})
	work()
	wantSays(t, s, "Not everything is kept")
	if kit.Busy(s.win) {
		t.Error("it is waited for what is over")
	}
	s.now = s.now.Add(time.Second)
	s.press(fyne.KeyReturn)
	if !answered || kit.DialogOpen(s.win) {
		t.Error("the question cannot be answered")
	}
}

// What a gauge sends while a dialog is open presses no button and is handed on whole.
func TestAGaugeDoesNotAnswer(t *testing.T) {
	for _, tt := range []struct {
		sent string
		each time.Duration
	}{
		{"1.842", 0}, {"1.842", 59 * time.Millisecond}, {"-0.015", time.Millisecond}, {"  1.842", time.Millisecond},
		{"12.345 mm", time.Millisecond}, {"46,02", time.Millisecond}, {"5", time.Millisecond}, {"1.842r", time.Millisecond}, {"1,234 lbf", 0},
	} {
		t.Run(tt.sent, func(t *testing.T) {
			s, did, _ := asked(t, three)
			s.gauge(tt.sent, tt.each)
			s.press(fyne.KeyReturn) // some gauges send a second one
			if len(*did) != 0 || !kit.DialogOpen(s.win) {
				t.Fatalf("the gauge did %q", *did)
			}
			if !slices.Equal(s.stray, []string{tt.sent}) {
				t.Errorf("handed on %q, want %q", s.stray, tt.sent)
			}
			s.person("", fyne.KeyReturn)
			if !slices.Equal(*did, []string{"replace"}) {
				t.Errorf("after the gauge, a person did %q", *did)
			}
		})
	}
	t.Run("one after the other, none lost", func(t *testing.T) {
		s, did, _ := asked(t, three)
		var sent []string
		for _, text := range []string{"1.842", "1.836", "1.851", ".700"} {
			s.gauge(text, 5*time.Millisecond)
			sent = append(sent, text)
		}
		if !slices.Equal(s.stray, sent) || len(*did) != 0 {
			t.Errorf("handed on %q, did %q", s.stray, *did)
		}
	})
	t.Run("an Enter right after the dialog came", func(t *testing.T) {
		s, did, _ := asked(t, three)
		s.press(fyne.KeyEscape)
		kit.Ask(s.win, "second", "", []kit.Choice{{Label: "Yes", Primary: true, Do: func() { *did = append(*did, "yes") }}})
		s.press(fyne.KeyReturn)
		if slices.Contains(*did, "yes") {
			t.Error("the second Enter of a burst answered")
		}
	})
}

// Where the machine was busy for a moment, a reading is still whole.
func TestAReadingIsNotTorn(t *testing.T) {
	for _, pause := range []time.Duration{100 * time.Millisecond, 900 * time.Millisecond} {
		for cut := 1; cut <= len(".630"); cut++ {
			s, did, _ := asked(t, three)
			s.torn(".630", cut, pause)
			if !slices.Equal(s.stray, []string{".630"}) || len(*did) != 0 {
				t.Errorf("%v after %d characters: handed on %q, did %q", pause, cut, s.stray, *did)
			}
		}
	}
	t.Run("nor does its unit answer", func(t *testing.T) {
		s, did, _ := asked(t, three)
		s.torn("12.345r", 6, 100*time.Millisecond)
		if !slices.Equal(s.stray, []string{"12.345r"}) || len(*did) != 0 {
			t.Errorf("handed on %q, did %q", s.stray, *did)
		}
	})
	t.Run("in a text", func(t *testing.T) {
		for cut := 1; cut <= len(".630"); cut++ {
			s := newStage(t, kit.NewForm(kit.NewField("below", "", nil)))
			kit.AskText(s.win, "New gauge", "Name", "", nil, func(text string) { t.Errorf("kept %q", text) })
			s.person("dial ")
			s.torn(".630", cut, 200*time.Millisecond)
			if !slices.Equal(s.stray, []string{".630"}) {
				t.Errorf("after %d characters: handed on %q", cut, s.stray)
			}
		}
	})
}

// A person types digits too, only slower: into a text, Enter then is an answer. To a question digits are none,
// and Enter right behind them is no answer either.
func TestAPersonIsNoGauge(t *testing.T) {
	var kept []string
	s := newStage(t, kit.NewForm(kit.NewField("below", "", nil)))
	kit.AskText(s.win, "New gauge", "Name", "", nil, func(text string) { kept = append(kept, text) })
	s.gauge("1.842", 60*time.Millisecond)
	if !slices.Equal(kept, []string{"1.842"}) || len(s.stray) != 0 {
		t.Errorf("kept %q, handed on %q", kept, s.stray)
	}
	s, did, _ := asked(t, three)
	s.gauge("1.842", 60*time.Millisecond)
	if !slices.Equal(s.stray, []string{"1.842"}) || len(*did) != 0 {
		t.Errorf("did %q, handed on %q", *did, s.stray)
	}
	s.person("5", fyne.KeyReturn)
	if !slices.Equal(*did, []string{"replace"}) {
		t.Errorf("a second later, did %q", *did)
	}
}

func checkName(text string) error {
	if strings.TrimSpace(text) == "" {
		return errors.New("A gauge needs a name; write what stands on it.")
	}
	return nil
}

func TestAskText(t *testing.T) {
	open := func(t *testing.T, start string) (*stage, *[]string) {
		s := newStage(t, kit.NewForm(kit.NewField("below", "", nil)))
		kept := &[]string{}
		kit.AskText(s.win, "New gauge", "Name", start, checkName, func(text string) { *kept = append(*kept, text) })
		s.now = s.now.Add(time.Second)
		return s, kept
	}
	t.Run("typed and kept", func(t *testing.T) {
		s, kept := open(t, "")
		wantSays(t, s, "New gauge", "Name", "Keep Enter", "Cancel Esc")
		s.person("height gauge", fyne.KeyReturn)
		if !slices.Equal(*kept, []string{"height gauge"}) || kit.DialogOpen(s.win) {
			t.Errorf("kept %q, open %v", *kept, kit.DialogOpen(s.win))
		}
	})
	t.Run("typing replaces the start", func(t *testing.T) {
		s, kept := open(t, "old")
		s.person("new", fyne.KeyReturn)
		if !slices.Equal(*kept, []string{"new"}) {
			t.Errorf("kept %q", *kept)
		}
	})
	t.Run("refused, and the text stays", func(t *testing.T) {
		s, kept := open(t, "")
		s.person("  ", fyne.KeyReturn)
		wantSays(t, s, "A gauge needs a name; write what stands on it.")
		s.person("dial", fyne.KeyReturn)
		if !slices.Equal(*kept, []string{"  dial"}) {
			t.Errorf("kept %q", *kept)
		}
	})
	t.Run("Esc keeps nothing", func(t *testing.T) {
		s, kept := open(t, "old")
		s.person("x", fyne.KeyEscape)
		if len(*kept) != 0 || kit.DialogOpen(s.win) {
			t.Errorf("kept %q, open %v", *kept, kit.DialogOpen(s.win))
		}
	})
	t.Run("the button", func(t *testing.T) {
		s, kept := open(t, "dial")
		s.win.Canvas().FocusNext() // Cancel
		s.win.Canvas().FocusNext() // Keep
		s.press(fyne.KeyReturn)
		if !slices.Equal(*kept, []string{"dial"}) {
			t.Errorf("kept %q", *kept)
		}
	})
	t.Run("what a gauge types is taken out again", func(t *testing.T) {
		s, kept := open(t, "")
		s.person("dial ")
		s.gauge("1.842", time.Millisecond)
		if !slices.Equal(s.stray, []string{"1.842"}) || len(*kept) != 0 || !kit.DialogOpen(s.win) {
			t.Fatalf("handed on %q, kept %q", s.stray, *kept)
		}
		s.person("2", fyne.KeyReturn)
		if !slices.Equal(*kept, []string{"dial 2"}) {
			t.Errorf("kept %q", *kept)
		}
	})
}

func TestAskForm(t *testing.T) {
	s := newStage(t, kit.NewForm(kit.NewField("below", "", nil)))
	full := say.Fail(say.Invalid, "unit.nothing-like-it", unit.Inch)
	var kept [][]string
	kit.AskForm(s.win, "New gauge", []kit.Blank{{Label: "Name", Check: checkName}, {Label: "Number", Start: "7"}, {Label: "Reads to", Unit: "in"}},
		func(texts []string) error {
			kept = append(kept, texts)
			if len(kept) == 1 {
				return kit.Said(say.In(unit.Millimetres.Show), full)
			}
			return nil
		})
	s.now = s.now.Add(time.Second)
	wantSays(t, s, "Name", "Number", "Reads to", "in", "7")
	s.person("", fyne.KeyReturn) // an empty name is refused and keeps the keyboard
	wantSays(t, s, "A gauge needs a name")
	s.person("dial", fyne.KeyReturn)
	s.person("12", fyne.KeyReturn)
	s.person(".001", fyne.KeyReturn)
	if want := []string{"dial", "12", ".001"}; len(kept) != 1 || !slices.Equal(kept[0], want) {
		t.Fatalf("kept %q, want %q", kept, want)
	}
	wantSays(t, s, "25.40", "dial", "12", ".001") // refused in the reader's units, with all texts still there
	s.person("", fyne.KeyReturn)
	if len(kept) != 2 || kit.DialogOpen(s.win) {
		t.Errorf("kept %q, open %v", kept, kit.DialogOpen(s.win))
	}
}

// A passphrase that comes as fast as a gauge types is kept where it stands and handed on to nobody.
func TestAskHidden(t *testing.T) {
	s := newStage(t, kit.NewForm(kit.NewField("below", "", nil)))
	var kept []string
	kit.AskForm(s.win, "Sign", []kit.Blank{{Label: "Passphrase", Hide: true}}, func(texts []string) error {
		kept = texts
		return nil
	})
	s.now = s.now.Add(time.Second)
	s.gauge("1.842", time.Millisecond)
	if !slices.Equal(kept, []string{"1.842"}) || len(s.stray) != 0 || kit.DialogOpen(s.win) {
		t.Errorf("kept %q, handed on %q, open %v", kept, s.stray, kit.DialogOpen(s.win))
	}
}

// What is kept may ask the next question.
func TestAskFromAForm(t *testing.T) {
	s := newStage(t, kit.NewForm(kit.NewField("below", "", nil)))
	kit.AskText(s.win, "first", "Name", "dial", nil, func(string) {
		kit.Ask(s.win, "second", "", []kit.Choice{{Label: "Yes", Primary: true}})
	})
	s.person("", fyne.KeyReturn)
	wantSays(t, s, "second")
}

// In a window that is too small, the buttons and the title are still inside it.
func TestDialogsStayInside(t *testing.T) {
	for _, scale := range []float32{1, 2} {
		s := newStage(t, kit.NewForm(kit.NewField("below", "", nil)))
		fyne.CurrentApp().Settings().SetTheme(kit.NewTheme(false, scale))
		s.win.Resize(fyne.NewSize(700, 520))
		blanks := make([]kit.Blank, 10)
		for i := range blanks {
			blanks[i] = kit.Blank{Label: strings.Repeat("word ", 4), Start: "12"}
		}
		kit.AskForm(s.win, "New head", blanks, func([]string) error { return nil })
		size := s.win.Canvas().Size()
		found := 0
		each(s.win.Canvas().Overlays().Top(), func(o fyne.CanvasObject, at fyne.Position) {
			if _, ok := o.(*kit.Button); ok {
				found++
				if at.X < 0 || at.Y < 0 || at.X+o.Size().Width > size.Width || at.Y+o.Size().Height > size.Height {
					t.Errorf("scale %g: a button at %v of %v is outside %v", scale, at, o.Size(), size)
				}
			}
		})
		if found != 2 {
			t.Errorf("scale %g: %d buttons", scale, found)
		}
	}
}
