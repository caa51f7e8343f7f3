package command

import (
	"context"
	"encoding/hex"
	"fmt"

	"keeperbook/app/internal/files"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
	"keeperbook/pdf/seal"
	"keeperbook/store"
)

// verdict is what verify found, as -json prints it.
type verdict struct {
	Whole      bool        `json:"whole"`
	Added      bool        `json:"added"`
	Signatures []signature `json:"signatures"`
	Head       string      `json:"head,omitempty"`
	Record     string      `json:"record,omitempty"`
	Pages      string      `json:"pages,omitempty"`
	Here       string      `json:"here,omitempty"`
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
	Trusted *bool  `json:"trusted,omitempty"` // by the shop whose book was asked
}

// verify says of a sheet whether it is whole, who signed it, whether something was added, and whether its pages are those of
// its record; with a book also whether its shop trusts who signed, and holds the record.
func verify(ctx context.Context, env Env, args []string, o *options) error {
	file, err := files.Read(args[0], seal.MostBytes)
	if err != nil {
		return err
	}
	v, err := verified(ctx, file, o.book)
	if err != nil {
		return err
	}
	says := make([]string, 0, 8)
	for _, l := range v.Lines() {
		says = append(says, say.English().Line(l))
	}
	if o.json {
		err = printJSON(env, verdictOf(v, says))
	} else {
		for _, line := range says {
			fmt.Fprintln(env.Out, line)
		}
	}
	switch {
	case err != nil:
		return err
	case !v.Whole:
		return say.Fail(say.Invalid, "verify.not-whole", args[0])
	case !v.Good():
		return say.Fail(say.Invalid, "verify.differs", args[0])
	}
	return nil
}

func verified(ctx context.Context, file []byte, book string) (v task.Verified, err error) {
	if book == "" {
		return task.Verify(ctx, file)
	}
	err = reading(ctx, book, func(b *store.Book) error {
		v, err = (&task.Desk{Book: b}).Verify(ctx, file)
		return err
	})
	return v, err
}

func verdictOf(v task.Verified, says []string) verdict {
	out := verdict{Whole: v.Whole, Added: v.Added, Record: v.Print, Pages: string(v.Pages), Says: says, Signatures: []signature{}}
	if v.Record != nil {
		out.Head = v.Record.Head.Tag
	}
	for i, s := range v.Signatures {
		one := signature{s.Whole, s.Name, s.Reason, string(task.StampOf(s.When)), s.Subject, s.Held, hex.EncodeToString(s.Root[:]), nil}
		if v.Book != nil {
			trusted := v.Book.Trusts[i] != nil
			one.Trusted = &trusted
		}
		out.Signatures = append(out.Signatures, one)
	}
	if v.Book != nil {
		out.Here = string(v.Book.Here)
	}
	return out
}
