package sheet

import (
	"context"
	"slices"
	"strings"

	"keeperbook/app/internal/signer"
	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// draft is what somebody has typed who is about to sign. Going back to the leaf and coming again loses nothing of it.
type draft struct {
	hand    hand
	open    []evaluate.Unsettled
	reasons map[string]string // by what they are for
	signer  string            // identifier
	role    string
	second  bool
}

// hand is which signature is about to be made.
type hand int

const (
	noHand hand = iota
	firstHand
	secondHand
)

// Begin begins to sign: from now on the pages are those that are signed. On a sheet that was signed it is the second
// signature. It fails (say.Conflict) where nobody may sign.
func (p *Presenter) Begin() error {
	p.what = task.OutSheet
	if name, when := p.bench.Signed(); name != "" {
		if err := p.bench.Place(); err != nil {
			return say.Fail(say.Conflict, "sign.already", name, when.Day()).From(err)
		}
		p.draft.hand, p.draft.open = secondHand, nil
		return nil
	}
	open, err := p.bench.Unsettled()
	if err != nil {
		return err
	}
	p.draft.hand, p.draft.open = firstHand, open
	if p.draft.reasons == nil {
		p.draft.reasons = map[string]string{}
	}
	return nil
}

// Leave goes back; what was typed is there the next time.
func (p *Presenter) Leave() { p.draft.hand = noHand }

// Signing reports whether somebody is about to sign.
func (p *Presenter) Signing() bool { return p.draft.hand != noHand }

// Asks are the things that need a reason, in words.
func (p *Presenter) Asks() []string {
	all := make([]string, len(p.draft.open))
	for i, u := range p.draft.open {
		all[i] = p.Words().Line(say.New("sign.ask", u.Whose, u.Verdict.Line(), u.Short))
	}
	return all
}

// asked is what a reason is kept under: the same thing of the same valves, whatever its numbers become.
func asked(u evaluate.Unsettled) string {
	var b strings.Builder
	b.WriteString(u.Finding)
	for _, at := range u.At {
		b.WriteString(" " + at.String())
	}
	return b.String()
}

// Reason returns the reason that was typed for one of them.
func (p *Presenter) Reason(i int) string { return p.draft.reasons[asked(p.draft.open[i])] }

// Explain takes the reason for one of them.
func (p *Presenter) Explain(i int, text string) {
	p.draft.reasons[asked(p.draft.open[i])] = strings.TrimSpace(text)
}

// ExplainRest takes one reason for all that have none yet.
func (p *Presenter) ExplainRest(text string) {
	for i := range p.draft.open {
		if p.Reason(i) == "" {
			p.Explain(i, text)
		}
	}
}

// Unexplained returns the index of the first that has no reason yet; −1 where all have one.
func (p *Presenter) Unexplained() int {
	return slices.IndexFunc(p.draft.open, func(u evaluate.Unsettled) bool { return p.draft.reasons[asked(u)] == "" })
}

// Explained reports whether a reason was typed that is not in the book.
func (p *Presenter) Explained() bool {
	for _, text := range p.draft.reasons {
		if text != "" {
			return true
		}
	}
	return false
}

// signing is what is signed, as it was typed.
func (p *Presenter) signing() task.Signing {
	s := task.Signing{Role: p.draft.role, Paper: p.paper, Second: p.draft.second}
	if who, ok := p.Chosen(); ok {
		s.Name, s.Drawn = who.Name, who.Drawn
	}
	for i, u := range p.draft.open {
		s.Reasons = append(s.Reasons, task.Reason{Of: u, Text: p.Reason(i)})
	}
	return s
}

// Signed says who signed the set-up, one line for each; none where nobody did.
func (p *Presenter) Signed() []string {
	var all []string
	for _, s := range p.bench.Signatures() {
		all = append(all, p.Words().Line(by(s)))
	}
	if from, err := p.bench.Origin(context.Background()); err == nil && from != "" && len(all) > 0 {
		all[0] = p.Words().Line(say.New("sign.from", all[0], from)) // a book that does not say whose it is has other troubles
	}
	return all
}

func by(s record.Signed) say.Line {
	if s.Role == "" {
		return say.New("sign.by", s.Name, s.When.Day())
	}
	return say.New("sign.by-as", s.Name, s.Role, s.When.Day())
}

// Sign signs with a key that was opened. The first signature closes the set-up; one after it goes into the place that was kept.
func (p *Presenter) Sign(ctx context.Context, key task.Key) (say.Line, error) {
	told, sign := say.New("sign.done"), func() error { return p.bench.Sign(ctx, key, p.signing()) }
	if p.draft.hand == secondHand {
		told, sign = say.New("sign.second-done"), func() error { return p.bench.Countersign(ctx, key, p.draft.role) }
	}
	if err := sign(); err != nil {
		return say.Line{}, err
	}
	p.draft = draft{}
	return told, nil
}

// Who is one who may sign, with what stands against the certificate.
type Who struct{ Name, More string }

// Signers are the signers of this machine, and which of them is chosen.
func (p *Presenter) Signers() (all []Who, chosen int, err error) {
	known, err := p.bench.Signers()
	chosen = slices.IndexFunc(known, func(s signer.Signer) bool { return s.ID == p.draft.signer })
	if chosen < 0 { // the first who can sign
		chosen = max(0, slices.IndexFunc(known, func(s signer.Signer) bool { return s.Holds == signer.Good || s.Holds == signer.Ends }))
	}
	for _, s := range known {
		who := Who{Name: s.Name}
		if s.Holds != signer.Good {
			who.More = p.Words().Line(say.New("signers.holds-"+string(s.Holds), say.DayOf(s.Until.UTC())))
		}
		all = append(all, who)
	}
	if len(all) > 0 {
		p.Choose(chosen)
	}
	return all, chosen, err
}

// Choose chooses a signer, who signs in the role that is kept for them where nothing else was typed.
func (p *Presenter) Choose(i int) {
	all, _ := p.bench.Signers() // of one that cannot be read nothing is shown either
	if i >= len(all) || all[i].ID == p.draft.signer {
		return
	}
	p.draft.signer, p.draft.role = all[i].ID, all[i].Role
}

// Chosen is who signs; false where there is nobody.
func (p *Presenter) Chosen() (signer.Signer, bool) {
	all, _ := p.bench.Signers()
	i := slices.IndexFunc(all, func(s signer.Signer) bool { return s.ID == p.draft.signer })
	if i < 0 {
		return signer.Signer{}, false
	}
	return all[i], true
}

// Role is in which role; As takes another one.
func (p *Presenter) Role() string { return p.draft.role }

// As takes the role.
func (p *Presenter) As(role string) { p.draft.role = strings.TrimSpace(role) }

// Second reports whether a place is kept for a second signature; AskSecond asks for one.
func (p *Presenter) Second() bool { return p.draft.second }

// AskSecond asks for a second signature, or for none.
func (p *Presenter) AskSecond(yes bool) { p.draft.second = yes }

// CanSign reports whether there is a signature to make: the first, or one in the place that was kept for it.
func (p *Presenter) CanSign() bool {
	name, _ := p.bench.Signed()
	return name == "" || p.bench.Place() == nil
}

// First reports whether it is the first signature that is about to be made.
func (p *Presenter) First() bool { return p.draft.hand == firstHand }

// Unlock opens the key of whoever was chosen; it may run beside other work.
func (p *Presenter) Unlock(id, secret string) (task.Key, error) { return p.bench.Unlock(id, secret) }

// Held is the key of whoever was chosen where it is open still.
func (p *Presenter) Held() (task.Key, bool) { return p.bench.Held(p.draft.signer) }

// lacks says which reason is missing.
func (p *Presenter) lacks(i int) error {
	u := p.draft.open[i]
	return say.Fail(say.Invalid, "sign.no-reason", u.Whose, u.Short)
}
