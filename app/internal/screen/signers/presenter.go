// Package signers is the page of the people who sign on this machine: their keys, their signatures drawn by hand, and what
// other shops have to know of them.
package signers

import (
	"encoding/hex"
	"image"
	"slices"
	"time"

	"keeperbook/app/internal/signer"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// Ink is a signature drawn by hand, in strokes over a field of [signer.InkWide] by [signer.InkHigh] dots.
type Ink = [][]image.Point

// Presenter is the page without a window.
type Presenter struct {
	ring   signer.Ring
	held   *signer.Held // forgets what was opened when a passphrase changes; may be nil
	shop   string       // proposed for new signers
	folder string       // where certificates go
	words  say.Printer
	all    []signer.Signer
	open   string         // identifier
	drawn  map[string]Ink // as they were drawn or shown since the page was opened
}

// NewPresenter returns the page of the signers in a ring. New ones are of a shop; certificates go beside its book.
func NewPresenter(ring signer.Ring, held *signer.Held, shop, folder string) *Presenter {
	return &Presenter{ring: ring, held: held, shop: shop, folder: folder, words: say.Chosen(), drawn: map[string]Ink{}}
}

// Load reads who is there again. Where one of them cannot be read it says so, and the others are there.
func (p *Presenter) Load() error {
	all, err := p.ring.List()
	p.all = all
	if _, ok := p.Chosen(); !ok {
		p.open = ""
		if len(all) > 0 {
			p.open = all[0].ID
		}
	}
	return err
}

// Line is one signer in the list.
type Line struct{ Name, More string }

// Lines returns the list.
func (p *Presenter) Lines() []Line {
	lines := make([]Line, len(p.all))
	for i, s := range p.all {
		more := []say.Line{until(s)}
		if s.Role != "" {
			more = slices.Insert(more, 0, say.New("expr.one", s.Role))
		}
		lines[i] = Line{s.Name, p.words.Line(say.New("expr.one", more))}
	}
	return lines
}

func until(s signer.Signer) say.Line { return say.New("signers.holds-"+string(s.Holds), turns(s)) }

// turns is the day on which a certificate begins or ends to hold, whichever is to come.
func turns(s signer.Signer) say.Day {
	if s.Holds == signer.NotYet {
		return day(s.From)
	}
	return day(s.Until)
}

func day(t time.Time) say.Day { return say.DayOf(t.UTC()) }

// Choose opens the one in a line.
func (p *Presenter) Choose(i int) { p.open = p.all[i].ID }

// Open is the line that is open, −1 where none is.
func (p *Presenter) Open() int {
	return slices.IndexFunc(p.all, func(s signer.Signer) bool { return s.ID == p.open })
}

// Chosen returns the one that is open.
func (p *Presenter) Chosen() (signer.Signer, bool) {
	if i := p.Open(); i >= 0 {
		return p.all[i], true
	}
	return signer.Signer{}, false
}

// Warn says what stands against the certificate of whoever is open; "" where nothing does.
func (p *Presenter) Warn() string {
	s, ok := p.Chosen()
	if !ok || s.Holds == signer.Good {
		return ""
	}
	return p.words.Line(say.New("signers.warn-"+string(s.Holds), turns(s)))
}

// Fact is something that everybody may know of a signer.
type Fact struct{ Name, Value string }

// Facts returns what is known of whoever is open.
func (p *Presenter) Facts() []Fact {
	s, ok := p.Chosen()
	if !ok {
		return nil
	}
	fact := func(key, value string) Fact { return Fact{p.words.Line(say.New(key)), value} }
	all := []Fact{fact("signers.name", s.Name)}
	if s.Shop != "" {
		all = append(all, fact("signers.shop", s.Shop))
	}
	return append(all, fact("signers.kind", s.Kind),
		fact("signers.valid", p.words.Line(say.New("signers.from-until", day(s.From), day(s.Until)))),
		fact("signers.root", say.Grouped(hex.EncodeToString(s.Root[:]))))
}

// Role is in which role whoever is open signs.
func (p *Presenter) Role() string {
	s, _ := p.Chosen()
	return s.Role
}

// As keeps another role.
func (p *Presenter) As(role string) error {
	if err := p.ring.As(p.open, role); err != nil {
		return err
	}
	return p.Load()
}

// Shop is proposed as the shop of a new signer.
func (p *Presenter) Shop() string { return p.shop }

// Make makes a signer. It may run beside other work; what it returns, which shows the signer, may not.
func (p *Presenter) Make(n signer.New) (func() error, error) {
	if err := task.CanBeNamed(n.Name); err != nil {
		return nil, err // before there is a signer who can never sign
	}
	return p.shown(p.ring.Make(n))
}

// Bring takes a key file in as a signer; it is as [Presenter.Make].
func (p *Presenter) Bring(path, role, secret string) (func() error, error) {
	return p.shown(p.ring.BringFrom(p.folder, path, role, secret))
}

func (p *Presenter) shown(s signer.Signer, err error) (func() error, error) {
	return func() error {
		p.open = s.ID
		return p.Load()
	}, err
}

// Change changes the passphrase of whoever is open; it may run beside other work.
func (p *Presenter) Change(old, secret, again string) error {
	if p.held != nil {
		p.held.Forget()
	}
	return p.ring.Change(p.open, old, secret, again)
}

// Draw keeps what whoever is open drew; it is as [Presenter.Make].
func (p *Presenter) Draw(ink Ink, secret string) (func() error, error) {
	id := p.open
	return func() error {
		p.drawn[id] = ink
		return p.Load()
	}, p.ring.Draw(id, secret, ink)
}

// Unveil opens the drawn signature of whoever is open; it is as [Presenter.Make].
func (p *Presenter) Unveil(secret string) (func() error, error) {
	id := p.open
	ink, err := p.ring.Drawn(id, secret)
	return func() error {
		p.drawn[id] = ink
		return nil
	}, err
}

// Drawn returns the drawn signature of whoever is open, where it was opened, and whether there is one at all.
func (p *Presenter) Drawn() (Ink, bool) {
	s, _ := p.Chosen()
	return p.drawn[p.open], s.Drawn
}

// Erase takes the drawn signature away.
func (p *Presenter) Erase() error {
	if err := p.ring.Erase(p.open); err != nil {
		return err
	}
	delete(p.drawn, p.open)
	return p.Load()
}

// Forget takes whoever is open away.
func (p *Presenter) Forget() error {
	if p.held != nil {
		p.held.Forget()
	}
	if err := p.ring.Forget(p.open); err != nil {
		return err
	}
	delete(p.drawn, p.open)
	p.open = ""
	return p.Load()
}

// CertificatePath proposes where the certificate of whoever is open goes.
func (p *Presenter) CertificatePath() string {
	s, _ := p.Chosen()
	return p.ring.CertificatePath(s, p.folder)
}

// SaveCertificate writes the certificate for others to trust, and says where it is.
func (p *Presenter) SaveCertificate(path string, replace bool) (say.Line, error) {
	s, _ := p.Chosen()
	where, err := p.ring.SaveCertificate(s, path, p.folder, replace)
	return say.New("signers.certificate-saved", where), err
}

// Minutes are the choices of how long a key stays open, in words, and which holds.
func (p *Presenter) Minutes() (words []string, at int) {
	allowed := int(p.ring.Allowed().Minutes())
	for i, m := range signer.Minutes() {
		line := say.New("signers.minutes-for", m)
		if m == 0 {
			line = say.New("signers.minutes-none")
		}
		if m == allowed {
			at = i
		}
		words = append(words, p.words.Line(line))
	}
	return words, at
}

// Allow takes one of the choices.
func (p *Presenter) Allow(i int) error {
	if p.held != nil {
		p.held.Forget()
	}
	return p.ring.Allow(signer.Minutes()[i])
}
