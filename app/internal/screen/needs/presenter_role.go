package needs

import (
	"strconv"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// role is what is asked of the valves of a role.
func (p *Presenter) role(role record.Role) section {
	all := p.leasts(role)
	all = append(all, p.most(role), p.nearest(role))
	if p.wantsCard(role) {
		all = append(all, p.card(role)...)
	}
	all = append(all, p.lash(role)...)
	all = append(all, p.bands(role)...)
	return section{string(role), p.bench.Say("needs.group." + string(role)), strings.Join(p.notes(role), "\n"), all}
}

// notes say how the lift of a role is known, and what waits to be kept.
func (p *Presenter) notes(role record.Role) []string {
	lift := p.lift(role)
	notes := []string{p.bench.Say(lift.Key, lift.Args...)}
	for _, whole := range [][]spec{p.card(role), p.lash(role)} {
		if lacking := p.lacking(whole); len(lacking) > 0 {
			notes = append(notes, p.bench.Say("needs.not-kept", whole[0].Label, labels(lacking)))
		}
	}
	return notes
}

// wantsCard reports whether the card is asked for: a lift measured on checking springs needs none.
func (p *Presenter) wantsCard(role record.Role) bool {
	return p.lift(role).Key != "needs.known."+string(record.LiftChecking) || p.bench.Record().PackageOf(role).Card != nil ||
		len(p.lacking(p.card(role))) > 0
}

// lift says how the lift of a role is known.
func (p *Presenter) lift(role record.Role) say.Line {
	count := map[record.Kind]int{}
	of := 0
	var last evaluate.Figure
	for _, v := range p.bench.Evaluation().Valves {
		if v.Role != role {
			continue
		}
		of++
		if v.Lift.Known {
			count[v.LiftKind]++
			last = v.Lift
		}
	}
	for _, kind := range []record.Kind{record.LiftChecking, record.LiftRunning} {
		if count[kind] > 0 {
			return say.New("needs.known."+string(kind), count[kind], of)
		}
	}
	if last.Known {
		return say.New("needs.known.card", last.Value, p.bench.LengthUnit())
	}
	return say.New("needs.known.none")
}

// coils names the coils of the spring of a role, outermost first.
func (p *Presenter) coils(role record.Role) []string {
	pack := p.bench.Record().PackageOf(role)
	for _, s := range p.bench.Record().Parts.Springs {
		if s.ID == pack.Spring {
			names := make([]string, len(s.Coils))
			for i, c := range s.Coils {
				names[i] = c.Name
			}
			return names
		}
	}
	return nil
}

// leasts is the least margin of each coil, with where it comes from.
func (p *Presenter) leasts(role record.Role) []spec {
	pack := p.bench.Record().PackageOf(role)
	var all []spec
	for i, coil := range p.coils(role) {
		n := i + 1
		least, said := task.LeastOf(pack, n)
		value := ""
		if said {
			value = p.bench.Size(&least.Margin)
		}
		name := leastName(role, n)
		all = append(all, spec{
			Field: Field{Name: name, Label: p.bench.Say("needs.least", task.CoilLine(coil)), Value: value, Unit: p.bench.LengthUnit()},
			put: func(text string) ([]record.Noun, error) {
				next, err := p.bench.ReadLeast(pack, n, text)
				if d, ok := p.drafts.At(name + ".from"); ok && err == nil && d.Err == nil {
					next, err = task.LeastFrom(next, n, d.Text)
				}
				return []record.Noun{next}, err
			},
			more: []string{name + ".from"},
		}, spec{
			Field: Field{Name: name + ".from", Label: p.bench.Say("needs.from"), Value: least.From, Long: true, Beside: true},
			put: func(text string) ([]record.Noun, error) {
				if !said {
					return nil, nil // it waits for the margin
				}
				next, err := task.LeastFrom(pack, n, text)
				return []record.Noun{next}, err
			},
		})
	}
	return all
}

func leastName(role record.Role, coil int) string {
	return string(role) + ".least." + strconv.Itoa(coil)
}

// most is the most margin, blank unless somebody wants one.
func (p *Presenter) most(role record.Role) spec {
	pack := p.bench.Record().PackageOf(role)
	return spec{
		Field: Field{Name: string(role) + ".most", Label: p.bench.Say("needs.most"), Value: p.bench.Size(pack.Most), Unit: p.bench.LengthUnit()},
		put: func(text string) (_ []record.Noun, err error) {
			pack.Most, err = p.bench.ReadSize(unit.Plain, text)
			return []record.Noun{pack}, err
		},
	}
}

// nearest is what the retainer comes closest to.
func (p *Presenter) nearest(role record.Role) spec {
	pack := p.bench.Record().PackageOf(role)
	return spec{
		Field: Field{Name: string(role) + ".nearest", Label: p.bench.Say("needs.nearest"), Value: pack.Nearest, Long: true, Beside: true},
		put: func(text string) ([]record.Noun, error) {
			pack.Nearest = strings.TrimSpace(text)
			return []record.Noun{pack}, nil
		},
	}
}

// temperatures are the answers to how lash is set.
func (p *Presenter) temperatures() []Option {
	return []Option{
		{string(record.Hot), p.bench.Say("lash.hot")}, {string(record.Cold), p.bench.Say("lash.cold")},
	}
}
