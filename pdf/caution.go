package pdf

import "keeperbook/model/say"

// Cautions returns the cautions that belong on every sheet and beside the work they are about. The
// regulations and the standard they name are cited from memory by number.
func Cautions() []say.Line {
	keys := []string{
		"caution.springs", "caution.solid", "caution.seating", "caution.engine", "caution.first-turns", "caution.air",
		"caution.beryllium", "caution.titanium", "caution.sodium", "caution.marking", "caution.makers",
	}
	lines := make([]say.Line, len(keys))
	for i, k := range keys {
		lines[i] = say.New(k)
	}
	return lines
}

func (f *flow) cautions() {
	f.heading(f.say("sheet.cautions"))
	for _, l := range Cautions() {
		f.item("⚠", f.words.Line(l))
	}
}
