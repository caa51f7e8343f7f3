package command

import (
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"keeperbook/app/internal/task"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/pdf/seal"
)

// sign signs the sheet of a set-up, which closes it, and writes it. Where the file cannot be written the set-up stays open.
func sign(ctx context.Context, env Env, args []string, o *options, paper pdf.Paper) error {
	if o.form || o.secret == "" {
		return say.Fail(say.Invalid, "command.sign")
	}
	key, err := task.OpenKey(o.sign, o.secret)
	if err != nil {
		return err
	}
	return working(ctx, env, args[0], func(d *task.Desk) error {
		setup, err := task.Find(ctx, d.Book, args[1], o.setup)
		if err != nil {
			return err
		}
		out := args[2]
		_, before := os.Lstat(out)
		s := task.Signature{Key: key, Name: key.Name, Role: o.role, When: env.Clock(), Paper: paper}
		_, err = d.Sign(ctx, setup, s, func(file []byte) error { return task.WriteFile(out, file) })
		if err != nil && errors.Is(before, fs.ErrNotExist) {
			os.Remove(out) // nobody signed what is in it
		}
		return err
	})
}

// verdict is what verify found, as -json prints it.
type verdict struct {
	Whole      bool        `json:"whole"`
	Added      bool        `json:"added"`
	Signatures []signature `json:"signatures"`
	Head       string      `json:"head,omitempty"`
	Record     string      `json:"record,omitempty"`
	Pages      string      `json:"pages,omitempty"`
	Says       []string    `json:"says"`
}

type signature struct {
	Whole   bool   `json:"whole"`
	Name    string `json:"name"`
	Role    string `json:"role,omitempty"`
	When    string `json:"when"`
	Subject string `json:"subject,omitempty"`
	Held    bool   `json:"held"`
	Root    string `json:"root"`
}

// verify says of a sheet whether it is whole, who signed it, and whether something was added.
func verify(_ context.Context, env Env, args []string, o *options) error {
	file, err := task.ReadFile(args[0], seal.MostBytes)
	if err != nil {
		return err
	}
	v, err := task.Verify(file)
	if err != nil {
		return err
	}
	says := make([]string, 0, 8)
	for _, l := range v.Lines() {
		says = append(says, say.English().Line(l))
	}
	if o.json {
		out := verdict{Whole: v.Whole, Added: v.Added, Record: v.Print, Pages: string(v.Pages), Says: says, Signatures: []signature{}}
		if v.Record != nil {
			out.Head = v.Record.Head.Tag
		}
		for _, s := range v.Signatures {
			out.Signatures = append(out.Signatures, signature{s.Whole, s.Name, s.Reason, string(task.StampOf(s.When)), s.Subject, s.Held, hex.EncodeToString(s.Root[:])})
		}
		err = printJSON(env, out)
	} else {
		for _, line := range says {
			fmt.Fprintln(env.Out, line)
		}
	}
	if err == nil && !v.Whole {
		err = say.Fail(say.Invalid, "verify.not-whole", args[0])
	}
	return err
}
