package command

import (
	"context"
	"fmt"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
)

// partLine is what became of a part, as -json prints it.
type partLine struct {
	Of     string      `json:"of"`
	Tag    string      `json:"tag"`
	Cycles string      `json:"cycles"`
	Places []partPlace `json:"places"`
}

// partPlace is one place that a part was at, from a day until it went elsewhere.
type partPlace struct {
	From   string   `json:"from"`
	Until  string   `json:"until,omitempty"`
	Head   string   `json:"head,omitempty"`
	Valve  string   `json:"valve,omitempty"`
	Box    string   `json:"box,omitempty"`
	Cycles string   `json:"cycles"`
	Found  []string `json:"found,omitempty"`
}

// partCommand prints what became of the parts with a tag.
func partCommand(ctx context.Context, env Env, args []string, o *options) error {
	return reading(ctx, args[0], func(book *store.Book) error {
		all, err := task.PartsCalled(ctx, book, args[1])
		if err != nil {
			return err
		}
		words := say.English()
		if o.json {
			lines := make([]partLine, len(all))
			for i, p := range all {
				lines[i] = lineOfPart(p, words)
			}
			return printJSON(env, lines)
		}
		for _, p := range all {
			fmt.Fprintln(env.Out, words.Line(say.New("tagged.is."+string(p.Of), p.Tag)))
			for _, l := range p.Lines() {
				fmt.Fprintln(env.Out, words.Line(l))
			}
		}
		return nil
	})
}

func lineOfPart(p task.PartStory, words say.Printer) partLine {
	line := partLine{Of: string(p.Of), Tag: p.Tag, Cycles: p.Ran.Counted()}
	if p.Of == record.PieceItem {
		line.Of = "spring" // as tables call it
	}
	for _, s := range p.Spells {
		place := partPlace{From: string(s.From), Until: string(s.Until), Head: s.Head, Valve: s.Label, Box: s.Box, Cycles: s.Ran.Counted()}
		for _, f := range s.Found {
			place.Found = append(place.Found, words.Line(f))
		}
		line.Places = append(line.Places, place)
	}
	return line
}
