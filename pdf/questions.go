package pdf

import (
	"io"
	"strconv"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Questions is a form with what must be known before springs are chosen, for the customer to answer.
type Questions struct {
	Record *record.Record
	Asks   []string // whole sentences, what decides most first
	Paper  Paper
	Words  say.Printer
}

// Room under a question in points: a line to write on, and two where the page has room for them.
const (
	leastAnswer = 11.0
	mostAnswer  = 34.0
)

// WriteQuestions writes the form as a PDF, in the way of [Write] and with its errors. It takes one page but for
// more questions than the program asks.
func WriteQuestions(w io.Writer, q Questions) error {
	return writeTo(w, q.Paper, q.press)
}

func (q Questions) press(width, height float64) *press {
	r := q.Record
	p := newPress(width, height, made(r), q.Words.Line(say.New("form.title", r.Head.Tag)))
	f := newFlow(p, q.Words)
	f.shop(r.Shop, f.say("form.questions"))
	f.name(r, f.say("setup."+string(r.Setup.Kind)))
	f.facts(3, strong, f.filled([]fact{
		{"sheet.engine", r.Engine.Name}, {"sheet.casting", r.Head.Casting}, {"sheet.work-order", r.Head.WorkOrder},
	}))
	how := "form.questions-how"
	if len(q.Asks) == 0 {
		how = "form.questions-none"
	}
	for _, line := range f.wrap(body, f.width(), f.say(how)) {
		f.text(f.left, f.y+body.size, body, ink, line)
		f.y += body.pitch()
	}
	f.skip(6)
	f.answers(q.Asks)
	f.skip(8)
	f.need(20)
	f.ink("form.answered-by", f.left, 260)
	f.ink("form.date", f.left+276, 110)
	f.foot(f.say("form.questions-foot", f.short(label, footTag, f.tag(r)), r.Setup.ID), "")
	return p
}

// answers sets each question with lines to answer on, spread over what is left of the page.
func (f *flow) answers(asks []string) {
	const number, signed = 20.0, 30.0
	text := 0.0
	for _, a := range asks {
		text += float64(len(f.wrap(body, f.width()-number, a))) * body.pitch()
	}
	each := (f.room() - signed - text) / float64(max(1, len(asks)))
	each = min(max(each, leastAnswer), mostAnswer)
	for i, a := range asks {
		lines := f.wrap(body, f.width()-number, a)
		f.need(float64(len(lines))*body.pitch() + each)
		f.text(f.left, f.y+body.size, strong, ink, strconv.Itoa(i+1))
		for _, line := range lines {
			f.text(f.left+number, f.y+body.size, body, ink, line)
			f.y += body.pitch()
		}
		f.y += each
		f.line(f.left+number, f.y-3, f.right, f.y-3, 0.5, hair)
	}
}
