package needs

import (
	"slices"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Question is something that is not known yet.
type Question struct {
	Text  string // the whole sentence
	Field string // where it is answered
	Leaf  string // or the other leaf where it is
}

// asked are the needs that every job has, with the question that asks for each.
var asked = [...]struct{ field, key string }{
	{"needs.use", "needs.ask.use"}, {"needs.run-length", "needs.ask.run-length"}, {"needs.held", "needs.ask.held"},
	{"needs.reached", "needs.ask.reached"}, {"needs.over-rev", "needs.ask.over-rev"}, {"needs.boost", "needs.ask.boost"},
	{"needs.lifter", "needs.ask.lifter"}, {"needs.lifter-says", "needs.ask.lifter-says"},
	{"needs.cam-says", "needs.ask.cam-says"}, {"needs.oil", "needs.ask.oil"}, {"needs.parts", "needs.ask.parts"},
	{"needs.targets", "needs.ask.targets"}, {"needs.recheck", "needs.ask.recheck"},
}

// Questions returns what is still open: first what decides about the springs, then the rest.
func (p *Presenter) Questions() []Question {
	var all []Question
	for _, role := range p.bench.Roles() {
		all = append(all, p.asksOf(role)...)
	}
	answers := map[string]string{}
	for _, s := range []section{p.use(), p.cam(), p.deciding()} {
		for _, f := range s.specs {
			answers[f.Name] = f.Value
		}
	}
	for _, a := range asked {
		if strings.TrimSpace(answers[a.field]) == "" {
			all = append(all, Question{Text: p.bench.Say(a.key), Field: a.field})
		}
	}
	if n := p.unsaidChecks(); n > 0 {
		all = append(all, Question{Text: p.bench.Say("needs.ask.checks", n), Field: p.firstUnsaid()})
	}
	return all
}

// Open is how many questions are open.
func (p *Presenter) Open() int { return len(p.Questions()) }

func (p *Presenter) asksOf(role record.Role) []Question {
	var all []Question
	pack, of := p.bench.Record().PackageOf(role), say.New("role."+string(role))
	ask := func(field, key string, args ...any) {
		all = append(all, Question{Text: p.bench.Say(key, append([]any{of}, args...)...), Field: field})
	}
	coils := p.coils(role)
	if len(coils) == 0 {
		all = append(all, Question{Text: p.bench.Say("needs.ask.spring", of), Leaf: "parts"})
	}
	for i, coil := range coils {
		if f := p.spec(p.leasts(role), leastName(role, i+1)); f.Value == "" {
			ask(f.Name, "needs.ask.least", task.CoilLine(coil))
		}
	}
	if lacking := p.lacking(p.card(role)); len(lacking) > 0 {
		ask(lacking[0].Name, "needs.ask.card-rest", labels(lacking))
	} else if p.lift(role).Key == "needs.known.none" {
		ask(string(role)+".card.lobe", "needs.ask.lift")
	}
	if lacking := p.lacking(p.lash(role)); len(lacking) > 0 {
		ask(lacking[0].Name, "needs.ask.lash-rest", labels(lacking))
	} else if pack.Lash == nil && p.lashFound(role) {
		ask(string(role)+".lash.target", "needs.ask.lash")
	}
	return all
}

func (p *Presenter) spec(all []spec, name string) spec {
	return all[slices.IndexFunc(all, func(f spec) bool { return f.Name == name })]
}

// lacking returns the fields of a whole that wait to be filled while others of it are; none where the
// whole is in the book or nothing of it was typed.
func (p *Presenter) lacking(all []spec) []Field {
	var lacks []Field
	waits := false
	for _, f := range all {
		s := p.shown(f.Field)
		waits = waits || s.Waits && s.Value != ""
		if s.Value == "" && !s.Long {
			lacks = append(lacks, s)
		}
	}
	if !waits {
		return nil
	}
	return lacks
}

func labels(fields []Field) string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.Label
	}
	return strings.Join(names, ", ")
}

// lashFound reports whether somebody measured lash on a valve of the role.
func (p *Presenter) lashFound(role record.Role) bool {
	for _, v := range p.bench.Evaluation().Valves {
		if v.Role == role && v.LashFound.Known {
			return true
		}
	}
	return false
}
