package valves

import (
	"strings"
	"time"

	"keeperbook/app/internal/kit/table"
	"keeperbook/model/say"
)

// Burst is what arrived while no cell could take it. It waits in the tray to be placed or dropped.
type Burst struct {
	Text string
	At   time.Time // of its first character
}

// apart is the pause after which characters in the tray are a burst of their own.
const apart = time.Second

// Tray returns what waits, the oldest first.
func (p *Presenter) Tray() []Burst { return append([]Burst(nil), p.tray...) }

// follows reports whether a character or key belongs to the burst before it.
func (p *Presenter) follows() bool {
	return !p.last.IsZero() && p.bench.Now().Sub(p.last) < burstGap
}

func (p *Presenter) recent() bool { return p.bench.Now().Sub(p.last) < apart }

// grow adds a character to the burst that is arriving, or begins one.
func (p *Presenter) grow(r rune) {
	if !p.growing {
		p.tray = append(p.tray, Burst{At: p.bench.Now()})
		p.growing = true
	}
	p.tray[len(p.tray)-1].Text += string(r)
}

// divert begins a burst. What the table took of it before it stopped listening comes along, so that one
// reading is never torn in two.
func (p *Presenter) divert(follows bool) {
	p.growing = false
	if p.held == nil && p.asked == nil && follows && p.edit != nil && !p.edit.modify {
		p.tray = append(p.tray, Burst{Text: string(p.edit.text), At: p.bench.Now()})
		p.growing = true
		p.edit = nil
	}
}

// endsBurst acts on a key that belongs to a burst in the tray, and reports whether it did.
func (p *Presenter) endsBurst(k table.Key) bool {
	follows := p.follows()
	if k == table.Enter && p.busy() && !p.growing {
		p.divert(follows)
	}
	if !p.growing {
		return false
	}
	here := p.busy() || follows || !p.types()
	switch {
	case here && (k == table.Enter || k == table.Tab):
		p.growing = false
		p.refuse(say.New("valves.in-tray", p.tray[len(p.tray)-1].Text, len(p.tray)))
		return true
	case here && k == table.Backspace:
		b := &p.tray[len(p.tray)-1]
		text := []rune(b.Text)
		b.Text = string(text[:len(text)-1])
		if b.Text == "" {
			p.Drop(len(p.tray) - 1)
		}
		return true
	}
	p.growing = false
	return false
}

// Place puts a burst on the cursor's cell as if it were typed there and entered; a block of several
// cells is pasted from there on.
func (p *Presenter) Place(i int) {
	defer p.out.Changed()
	switch {
	case i < 0 || i >= len(p.tray):
		return
	case p.busy():
		p.refuse(say.New("valves.place-later"))
		return
	case p.edit != nil:
		p.refuse(say.New("valves.place-typing"))
		return
	case !p.types():
		p.refuse(p.notHere())
		return
	}
	text := p.tray[i].Text
	p.cut(i)
	if strings.ContainsAny(text, "\t\n") {
		p.block(text)
		return
	}
	p.begin(strings.TrimSpace(text))
	p.commit(p.advance)
}

// Drop takes a burst out of the tray for good.
func (p *Presenter) Drop(i int) {
	if i >= 0 && i < len(p.tray) {
		p.cut(i)
		p.out.Changed()
	}
}

func (p *Presenter) cut(i int) {
	p.tray = append(p.tray[:i:i], p.tray[i+1:]...)
	p.growing = false
}

// Stray takes a reading that a gauge typed into a dialog: it goes to the tray.
func (p *Presenter) Stray(text string) {
	defer p.out.Changed()
	p.stow(text)
	p.refuse(say.New("valves.in-tray", text, len(p.tray)))
}

// stow keeps a text in the tray that could not be taken in.
func (p *Presenter) stow(text string) {
	p.growing = false
	p.tray = append(p.tray, Burst{Text: text, At: p.bench.Now()})
}
