package command

import (
	"flag"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/plan"
	"keeperbook/model/say"
	"keeperbook/pdf"
)

// right refuses options that are wrong whatever is in the book, and chooses the language of what is printed; what a command says
// is in English whatever it is.
func (o *options) right(f *flag.FlagSet) error {
	has := func(name string) bool { return f.Lookup(name) != nil }
	if has("paper") && o.paper != string(pdf.A4) && o.paper != string(pdf.Letter) {
		return say.Fail(say.Invalid, "command.paper", o.paper)
	}
	if _, ok := planWords[o.planFor]; has("for") && !ok {
		return say.Fail(say.Invalid, "command.plan-for", o.planFor)
	}
	if has("shims") && (o.most < 1 || o.most > plan.MostUnder) {
		return say.Fail(say.Invalid, "plan.most-shims", o.most, plan.MostUnder)
	}
	if has("grid") {
		if _, err := (task.LabelAsk{Grid: o.grid, From: o.from}).Cut(); err != nil {
			return err
		}
	}
	if has("sign") {
		if err := o.rightSign(f); err != nil {
			return err
		}
	}
	if has("language") && !say.Speak(o.language) {
		return say.Fail(say.Invalid, "command.language", o.language, strings.Join(say.Languages(), ", "))
	}
	return nil
}

// rightSign refuses what goes with a signature where nobody signs, and signatures that there are not.
func (o *options) rightSign(f *flag.FlagSet) (err error) {
	if strings.TrimSpace(o.sign) != "" {
		if o.form || o.asSecond && o.withSecond {
			return say.Fail(say.Invalid, "command.sign")
		}
		return nil
	}
	f.Visit(func(given *flag.Flag) {
		switch given.Name {
		case "sign", "secret-from", "role", "with-second", "as-second":
			err = say.Fail(say.Invalid, "command.sign-who")
		}
	})
	return err
}
