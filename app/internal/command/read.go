package command

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"

	"keeperbook/app/internal/files"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/store"
)

// head is a head as -json prints it.
type head struct {
	Head      string `json:"head"`
	Name      string `json:"name"`
	State     string `json:"state"`
	Setup     string `json:"setup,omitempty"`
	Setups    int    `json:"setups"`
	Engine    string `json:"engine"`
	Owner     string `json:"owner,omitempty"`
	Casting   string `json:"casting,omitempty"`
	WorkOrder string `json:"workOrder,omitempty"`
	Begun     string `json:"begun,omitempty"`
}

// heads lists the heads: identifier, name and state, tab-separated, one a line.
func heads(ctx context.Context, env Env, args []string, o *options) error {
	return reading(ctx, args[0], func(book *store.Book) error {
		lines, err := book.Heads(ctx, store.Filter{})
		if err != nil {
			return err
		}
		all := make([]head, len(lines))
		for i, l := range lines {
			all[i] = head{
				Head: l.Head, Name: l.Tag, State: state(l), Setup: l.Setup, Setups: l.Setups, Engine: l.Engine, Owner: l.Owner,
				Casting: l.Casting, WorkOrder: l.WorkOrder, Begun: string(l.Begun),
			}
		}
		if o.json {
			return printJSON(env, all)
		}
		for _, h := range all {
			fmt.Fprintf(env.Out, "%s\t%s\t%s\n", h.Head, oneCell(h.Name), h.State)
		}
		return nil
	})
}

// state is what stands in the third column: "as-built open", or "none" where there is no set-up.
func state(l store.HeadLine) string {
	if l.Setup == "" {
		return "none"
	}
	return string(l.Kind) + " " + string(l.State)
}

// oneCell keeps a name from breaking the columns.
func oneCell(text string) string {
	return strings.NewReplacer("\t", " ", "\n", " ", "\r", " ").Replace(text)
}

// sheet writes the set-up sheet, or with -form the blank bench form.
func sheet(ctx context.Context, env Env, args []string, o *options) error {
	paper := pdf.Paper(o.paper)
	if o.sign != "" {
		return sign(ctx, env, args, o, paper)
	}
	build := task.Sheet
	if o.form {
		build = task.Form
	}
	return reading(ctx, args[0], func(book *store.Book) error {
		setup, err := task.Find(ctx, book, args[1], o.setup)
		if err != nil {
			return err
		}
		data, err := build(ctx, book, setup, paper)
		if err != nil {
			return err
		}
		return files.Write(args[2], data)
	})
}

// export writes the record of a set-up, to standard output where no file is named, or whatever else of it the file's name
// ends in.
func export(ctx context.Context, env Env, args []string, o *options) error {
	return reading(ctx, args[0], func(book *store.Book) error {
		setup, err := task.Find(ctx, book, args[1], o.setup)
		if err != nil {
			return err
		}
		if len(args) == 3 {
			data, err := task.Leave(ctx, book, setup, args[2], task.Drawn{Valve: o.valve, Loads: o.loads})
			if err != nil {
				return err
			}
			return files.Write(args[2], data)
		}
		data, err := task.Export(ctx, book, setup)
		if err == nil {
			_, err = env.Out.Write(data)
		}
		return err
	})
}

// springs writes the single springs of a book as a table, to standard output where no file is named.
func springs(ctx context.Context, env Env, args []string, _ *options) error {
	return reading(ctx, args[0], func(book *store.Book) error {
		data, err := task.SpringsOut(ctx, book)
		if err != nil {
			return err
		}
		if len(args) == 2 {
			return files.Write(args[1], data)
		}
		_, err = env.Out.Write(data)
		return err
	})
}

// result is one look of examine as -json prints it.
type result struct {
	Name string `json:"name"`
	OK   bool   `json:"ok"`
	Says string `json:"says"`
}

// examine looks a book through and fails where something is wrong with it.
func examine(ctx context.Context, env Env, args []string, o *options) error {
	report, err := task.Examine(ctx, args[0])
	if err != nil {
		return err
	}
	all := make([]result, len(report.Results))
	for i, r := range report.Results {
		all[i] = result{r.Name, r.OK, say.English().Line(r.Line)}
	}
	if o.json {
		if err := printJSON(env, all); err != nil {
			return err
		}
	} else {
		for _, r := range all {
			word := map[bool]string{true: "sound", false: "WRONG"}[r.OK]
			fmt.Fprintf(env.Out, "%s\t%s\t%s\n", r.Name, word, r.Says)
		}
	}
	if !report.Sound() {
		return say.Fail(say.Damaged, "command.unsound", args[0])
	}
	return nil
}

func printJSON(env Env, v any) error {
	e := json.NewEncoder(env.Out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
