package study

import (
	"context"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// enter takes what was typed as a reading and leaves the field empty for the next one.
func (v *View) enter(text string) error {
	kept := v.presenter.Enter(context.Background(), text)
	v.reading.Restore()
	v.draw()
	if kept {
		kit.Accepted(v.host)
	} else {
		kit.Refused(v.host)
	}
	return nil
}

// name keeps what is measured. A reading that came into the field is set aside, and the next ones go to
// where they belong.
func (v *View) name(text string) error {
	before := len(v.presenter.Aside())
	if err := v.presenter.Name(context.Background(), text); err != nil {
		return kit.Said(v.presenter.Words(), err)
	}
	if len(v.presenter.Aside()) > before {
		v.what.Restore()
		kit.Refused(v.host)
	}
	v.draw()
	return nil
}

func (v *View) readBy(name string) error {
	if err := v.presenter.ReadBy(name); err != nil {
		return kit.Said(v.presenter.Words(), err)
	}
	v.draw()
	return nil
}

func (v *View) nextReader() {
	if err := v.presenter.NextReader(); err != nil {
		v.host.Fail(err)
		return
	}
	v.draw()
}

// askReader asks for the name of somebody who did not read before.
func (v *View) askReader() {
	title := v.presenter.say("study.other")
	kit.AskForm(v.host.Window(), title, []kit.Blank{{Label: v.presenter.say("study.name")}}, func(texts []string) error {
		if err := v.readBy(texts[0]); err != nil {
			return err
		}
		v.reading.Focus()
		return nil
	})
}

// chooseReading asks why a reading does not count, or whether a struck one counts again.
func (v *View) chooseReading(at kit.RowAt) {
	n := v.cells[at.Row][at.Cell].At
	switch reason, struck := v.presenter.Struck(n); {
	case v.presenter.Fixed():
		v.host.Tell(say.New("study.fixed"))
	case struck:
		v.askCount(n, reason)
	default:
		v.askStrike(n)
	}
}

// readingMenu is what can be done with a reading.
func (v *View) readingMenu(at kit.RowAt) []kit.Item {
	p, n := v.presenter, v.cells[at.Row][at.Cell].At
	if p.Fixed() {
		return nil
	}
	if _, struck := p.Struck(n); struck {
		return []kit.Item{v.readings.Enter(p.say("study.count-again"))}
	}
	return []kit.Item{v.readings.Enter(p.say("study.strike", p.Reading(n)))}
}

func (v *View) askStrike(n int) {
	p := v.presenter
	kit.AskForm(v.host.Window(), p.say("study.strike", p.Reading(n)), []kit.Blank{{Label: p.say("study.reason")}}, func(texts []string) error {
		if err := p.Strike(context.Background(), n, texts[0]); err != nil {
			return kit.Said(p.Words(), err)
		}
		v.draw()
		return nil
	})
}

func (v *View) askCount(n int, reason string) {
	p := v.presenter
	kit.Ask(v.host.Window(), p.say("study.count-title", p.Reading(n)), p.say("study.struck", reason), []kit.Choice{
		{Label: p.say("kit.cancel"), Cancel: true},
		{Label: p.say("study.count-again"), Key: 'c', Do: func() {
			if err := p.CountAgain(context.Background(), n); err != nil {
				v.host.Fail(err)
			}
			v.draw()
		}},
	})
}

func (v *View) chooseStudy(at kit.RowAt) {
	v.presenter.Choose(v.lines[at.Row].ID)
	v.draw()
	v.reading.Focus()
}

func (v *View) begin() {
	v.presenter.Begin()
	v.draw()
	v.Focus()
}

// use and takeBack change what the gauge counts with, and say so on the bottom line.
func (v *View) use() { v.decide(v.presenter.Use) }

func (v *View) takeBack() { v.decide(v.presenter.TakeBack) }

func (v *View) decide(deed func(context.Context) (say.Line, error)) {
	told, err := deed(context.Background())
	v.draw()
	v.reading.Focus()
	if err != nil {
		v.host.Fail(err)
		return
	}
	v.host.Tell(told)
}
