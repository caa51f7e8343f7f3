package valves

import (
	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// About says what a question is about.
type About int

// What is asked.
const (
	AboutFilled  About = iota // a reading came to a cell that is filled
	AboutStrike               // why a reading is struck while others remain
	AboutUndo                 // a step of another day or person
	AboutBare                 // what stood in the stack when pasted bind heights were read
	AboutBlock                // a pasted block that was not taken, with what is wrong in its cells
	AboutUnsaved              // an entry that is not on the disk is to go
	AboutColumns              // which columns are shown
	AboutBeside               // which set-up lies beside this one
)

// Question is something that only a person can decide. Arrows pick a choice and Enter takes the picked
// one; nothing is picked at first, and a gauge sends no arrows, so no burst answers it. Escape takes
// the last choice, which changes nothing.
type Question struct {
	About   About
	Line    say.Line
	Details []say.Line
	Choices []say.Line
	Words   bool // an answer in words of one's own is taken too, by AnswerWords
	Picked  int  // index into Choices, −1 for none
	act     func(choice int)
	words   func(text string)
}

// Held is a reading that was refused. It holds the table until it is put right or dropped.
type Held struct {
	Valve   string
	Column  say.Line
	Read    string     // what was read, as it was typed
	Why     say.Line   // what was read, what is allowed, what to do
	Choices []say.Line // readings that may have been meant, then: go on with the text, drop it
	Picked  int        // index into Choices, −1 for none
	meant   []string
}

// Held returns the refused reading that holds the table, nil where there is none.
func (p *Presenter) Held() *Held {
	if p.held == nil {
		return nil
	}
	h := *p.held
	return &h
}

// Asked returns the open question, nil where there is none.
func (p *Presenter) Asked() *Question {
	if p.asked == nil {
		return nil
	}
	q := *p.asked
	return &q
}

// hold keeps a refused text in its cell and the table on it.
func (p *Presenter) hold(err error) {
	l := p.lay()
	h := &Held{
		Valve: l.rows[p.cursor.Row].Label, Column: l.columns[p.cursor.Column].name, Read: string(p.edit.text),
		Why: task.Told(err), Picked: -1, meant: unit.Choices(err),
	}
	for _, text := range h.meant {
		h.Choices = append(h.Choices, say.New("valves.held.meant", text))
	}
	h.Choices = append(h.Choices, say.New("valves.held.change"), say.New("valves.held.drop"))
	p.held = h
	p.edit.refused = p.bench.Words().Line(h.Why)
	p.refuse(h.Why)
}

// release lets the table go and goes on with the text that was refused.
func (p *Presenter) release() {
	p.held = nil
	p.growing = false
	p.edit.modify = true
	p.understand()
}

func (p *Presenter) ask(q Question) {
	q.Picked = -1
	p.asked = &q
	p.out.Ask(q)
}

// answerKey picks and takes an answer to what holds the table or is asked.
func (p *Presenter) answerKey(k table.Key) {
	if p.blocked || p.held == nil && p.asked == nil {
		return
	}
	picked, n := p.picked()
	switch k {
	case table.Up, table.Left, table.BackTab:
		*picked = (max(*picked, 0) + n - 1) % n
	case table.Down, table.Right, table.Tab:
		*picked = (*picked + 1) % n
	case table.Enter:
		if *picked >= 0 {
			p.take(*picked)
			return
		}
		p.out.Tell(say.New("valves.pick"))
	case table.Escape:
		p.take(n - 1)
	case table.Modify, table.Backspace:
		if p.held != nil {
			p.release()
			if k == table.Backspace {
				p.typingKey(k)
			}
		}
	}
}

func (p *Presenter) picked() (*int, int) {
	if p.held != nil {
		return &p.held.Picked, len(p.held.Choices)
	}
	return &p.asked.Picked, len(p.asked.Choices)
}

// Answer takes a choice of what holds the table or is asked, by its index.
func (p *Presenter) Answer(choice int) {
	defer p.out.Changed()
	if p.held == nil && p.asked == nil {
		return
	}
	if _, n := p.picked(); choice >= 0 && choice < n {
		p.take(choice)
	}
}

// AnswerWords answers a question in words of one's own.
func (p *Presenter) AnswerWords(text string) {
	defer p.out.Changed()
	if p.held == nil && p.asked != nil && p.asked.Words && text != "" {
		words := p.asked.words
		p.asked, p.growing = nil, false
		words(text)
	}
}

func (p *Presenter) take(choice int) {
	p.growing = false
	if p.held == nil {
		act := p.asked.act
		p.asked = nil
		act(choice)
		return
	}
	meant := p.held.meant
	switch {
	case choice < len(meant):
		p.held = nil
		p.edit.text, p.edit.caret = []rune(meant[choice]), len([]rune(meant[choice]))
		p.edit.modify = false
		p.understand()
		p.commit(p.advance)
	case choice == len(meant):
		p.release()
	default:
		p.held, p.edit = nil, nil
	}
}
