package shop

import (
	"strings"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Labels asks for which springs, on what sheets and where to, and writes labels.
func (v *View) Labels() {
	p := v.presenter
	var tags, grid, from string
	start := ""
	if item := p.Chosen(); item.Kind == record.PieceItem {
		start = item.Key
	}
	grids := task.Grids()
	kit.Save(v.host, kit.Saving{
		Title: p.say("labels.print"), Label: p.say("choose.form-path"), Path: p.counter.LabelPath(),
		Replace: p.say("choose.replace"), Cancel: p.say("kit.cancel"),
		More: []kit.Blank{
			{Label: p.say("labels.tags"), Start: start},
			{Label: p.say("labels.grids", strings.Join(grids, ", ")), Start: grids[0]},
			{Label: p.say("labels.first"), Start: "1"},
		},
		Take: func(more []string) error {
			tags, grid, from = more[0], more[1], more[2]
			return nil
		},
		Write: func(path string, replace bool) (say.Line, error) {
			told, err := p.Labels(tags, grid, from, path, replace)
			return told, kit.Said(p.counter.Words(), err)
		},
	})
}
