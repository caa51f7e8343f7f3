// Package command is the program without a window: for scripts, and for a machine with no screen.
//
// Every command prints what it was asked for on standard output, and what went wrong as plain sentences
// on standard error: what was read, what is allowed, what to do now. It ends with 0, with 1 where it
// failed or was stopped with Ctrl+C, and with 2 where it was called wrongly. Options stand before or after the arguments.
package command

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"time"

	"keeperbook/app/internal/signer"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
)

// Env is what commands need from outside.
type Env struct {
	Out, Err io.Writer
	Clock    func() time.Time
	Who      string                           // goes into the history with what is kept
	Secret   func(who string) (string, error) // asks for the passphrase of somebody's key
	Signers  signer.Ring                      // of this machine
	Watched  bool                             // Err is a terminal, on which somebody sees how far long work is
}

// Exit statuses.
const (
	OK     = 0
	Failed = 1
	Wrong  = 2 // called wrongly
)

// command is one of them.
type command struct {
	name, usage string
	least, most int // arguments
	out         target
	options     func(*flag.FlagSet) *options
	run         func(context.Context, Env, []string, *options) error
}

// options are the options of all commands; each command defines those it has.
type options struct {
	setup, paper string
	language     string // that pages are printed in
	form, json   bool
	planFor      string
	sign, secret string // who signs, and the file of the passphrase
	role         string
	withSecond   bool // a place is kept for a second signature
	asSecond     bool // it is that one
	book         string
	most         int    // shims under a spring
	all          bool   // heads of the engine
	grid         string // how label sheets are cut
	from         int    // the place of the first label
	valve        string // that is drawn
	loads        bool   // its load curve is
}

var commands = []command{
	{"demo", "demo BOOK", 1, 1, noFile, none, demo},
	{"heads", "heads BOOK [-json]", 1, 1, noFile, withJSON, heads},
	{"sheet", "sheet BOOK HEAD OUT.pdf [-setup ID] [-form] [-paper a4|letter] [-language en|de|es] [-sign SIGNER|KEY.p12 [-secret-from FILE] [-role ROLE] [-with-second|-as-second]]", 3, 3, to(2, ".pdf"), forSheet, sheet},
	{"export", "export BOOK HEAD [OUT.json|.csv|.xlsx|.txt|.pdf|.svg|.png] [-setup ID] [-language en|de|es] [-valve VALVE] [-loads]", 2, 3, to(2, task.Endings()...), forExport, export},
	{"import", "import BOOK FILE...", 2, 1000, noFile, none, take},
	{"plan", "plan BOOK HEAD [-for springs|shims|heights] [-shims N] [-all] [-setup ID] [-json]", 2, 2, noFile, forPlan, makePlan},
	{"springs", "springs BOOK [OUT.csv]", 1, 2, to(1, ".csv"), none, springs},
	{"verify", "verify SHEET.pdf [-book BOOK] [-json]", 1, 1, noFile, forVerify, verify},
	{"history", "history BOOK HEAD [-setup ID] [-json]", 2, 2, noFile, forHistory, history},
	{"life", "life BOOK HEAD [OUT.pdf] [-setup ID] [-paper a4|letter] [-language en|de|es] [-json]", 2, 3, to(2, ".pdf"), forLife, lifeCommand},
	{"labels", "labels BOOK OUT.pdf [TAG...] [-grid 3x8|3x7|2x7|3x10|2x5] [-from N]", 2, 1000, to(1, ".pdf"), forLabels, labels},
	{"part", "part BOOK TAG [-json]", 2, 2, noFile, withJSON, partCommand},
	{"due", "due BOOK [OUT.ics] [-json]", 1, 2, to(1, ".ics"), withJSON, dueCommand},
	{"copies", "copies BOOK [-json]", 1, 1, noFile, withJSON, copiesCommand},
	{"restore", "restore BOOK COPY", 2, 2, noFile, none, restore},
	{"salvage", "salvage BOOK OUT.keeperbook", 2, 2, to(1, task.BookEnding), none, salvage},
	{"examine", "examine BOOK [-json]", 1, 1, noFile, withJSON, examine},
}

func none(*flag.FlagSet) *options { return &options{} }

func withJSON(f *flag.FlagSet) *options {
	o := &options{}
	f.BoolVar(&o.json, "json", false, "")
	return o
}

func forVerify(f *flag.FlagSet) *options {
	o := withJSON(f)
	f.StringVar(&o.book, "book", "", "")
	return o
}

func forHistory(f *flag.FlagSet) *options {
	o := withSetup(f)
	f.BoolVar(&o.json, "json", false, "")
	return o
}

func forLife(f *flag.FlagSet) *options {
	o := withLanguage(forHistory(f), f)
	f.StringVar(&o.paper, "paper", "a4", "")
	return o
}

func forLabels(f *flag.FlagSet) *options {
	o := &options{}
	f.StringVar(&o.grid, "grid", task.Grids()[0], "")
	f.IntVar(&o.from, "from", 1, "")
	return o
}

func withSetup(f *flag.FlagSet) *options {
	o := &options{}
	f.StringVar(&o.setup, "setup", "", "")
	return o
}

func withLanguage(o *options, f *flag.FlagSet) *options {
	f.StringVar(&o.language, "language", say.English().Language, "")
	return o
}

func forExport(f *flag.FlagSet) *options {
	o := withLanguage(withSetup(f), f)
	f.StringVar(&o.valve, "valve", "", "")
	f.BoolVar(&o.loads, "loads", false, "")
	return o
}

func forSheet(f *flag.FlagSet) *options {
	o := withLanguage(withSetup(f), f)
	f.BoolVar(&o.form, "form", false, "")
	f.StringVar(&o.paper, "paper", "a4", "")
	f.StringVar(&o.sign, "sign", "", "")
	f.StringVar(&o.secret, "secret-from", "", "")
	f.StringVar(&o.role, "role", "", "")
	f.BoolVar(&o.withSecond, "with-second", false, "")
	f.BoolVar(&o.asSecond, "as-second", false, "")
	return o
}

func forPlan(f *flag.FlagSet) *options {
	o := withSetup(f)
	f.StringVar(&o.planFor, "for", "springs", "")
	f.IntVar(&o.most, "shims", task.MostShims, "")
	f.BoolVar(&o.all, "all", false, "")
	f.BoolVar(&o.json, "json", false, "")
	return o
}

// Run runs the command that args name and returns the exit status.
func Run(ctx context.Context, env Env, args []string) int {
	if args[0] == "help" || strings.HasPrefix(args[0], "-") {
		out := &printed{to: env.Out}
		fmt.Fprint(out, Usage())
		return ended(env, out.fault(nil))
	}
	for _, c := range commands {
		if c.name == args[0] {
			return c.call(ctx, env, args[1:])
		}
	}
	fmt.Fprintf(env.Err, "%s\n%s", sentence(say.Fail(say.Invalid, "command.unknown", args[0])), Usage())
	return Wrong
}

// Usage lists the commands.
func Usage() string {
	var b strings.Builder
	for _, c := range commands {
		b.WriteString("  keeperbook " + c.usage + "\n")
	}
	return b.String()
}

func (c command) call(ctx context.Context, env Env, args []string) int {
	o, words, err := c.parse(args)
	if err == nil && (len(words) < c.least || len(words) > c.most) {
		err = say.Fail(say.Invalid, "command.arguments", c.name, len(words))
	}
	var file string
	if err == nil {
		file, err = c.out.named(words)
	}
	if err != nil {
		fmt.Fprintf(env.Err, "%s\n  keeperbook %s\n", sentence(err), c.usage)
		return Wrong
	}
	out := &printed{to: env.Out}
	env.Out = out
	if env.Watched {
		ctx, env = telling(ctx, env, time.Now)
	}
	err = spare(file, words[0])
	if err == nil {
		err = c.run(ctx, env, words, o)
	}
	return ended(env, out.fault(err))
}

// ended says what went wrong, and returns the exit status.
func ended(env Env, err error) int {
	if err != nil {
		fmt.Fprintln(env.Err, sentence(err))
		return Failed
	}
	env.Err.Write(nil) // takes away what was said of how far it is
	return OK
}

// parse takes options wherever they stand, and looks whether they are right.
func (c command) parse(args []string) (*options, []string, error) {
	f := flag.NewFlagSet(c.name, flag.ContinueOnError)
	f.SetOutput(io.Discard)
	o := c.options(f)
	var words []string
	for {
		if err := f.Parse(args); err != nil {
			return nil, nil, say.Fail(say.Invalid, "command.option", c.name, err.Error())
		}
		if f.NArg() == 0 {
			return o, words, o.right(f)
		}
		words, args = append(words, f.Arg(0)), f.Args()[1:]
	}
}

// sentence says an error in English, without anything that only a programmer could use.
func sentence(err error) string {
	var e *say.Error
	var refused *task.Refused
	switch {
	case errors.As(err, &refused):
		return refused.Error()
	case errors.As(err, &e):
		return say.English().Line(e.Line)
	case errors.Is(err, context.Canceled):
		return say.English().Line(say.New("command.stopped"))
	}
	return say.English().Line(say.New("command.fault", err.Error()))
}

// reading opens a book to read in it and closes it again.
func reading(ctx context.Context, path string, use func(*store.Book) error) error {
	book, err := store.OpenReadOnly(ctx, path, store.Options{})
	if err != nil {
		return err
	}
	err = use(book)
	if shut := book.Close(); err == nil {
		err = shut
	}
	return err
}

// working opens a book to write in it, or begins a new one where there is none, and closes it again. A
// new book that nothing was put into is taken away.
func working(ctx context.Context, env Env, path string, use func(*task.Desk) error) error {
	options := store.Options{Clock: func() record.Stamp { return task.StampOf(env.Clock()) }}
	open, fresh := store.Open, false
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		open, fresh = store.Create, true
	}
	book, err := open(ctx, path, options)
	if err != nil {
		return err
	}
	err = use(&task.Desk{Book: book, Who: env.Who, Clock: env.Clock})
	heads, unread := book.Heads(context.WithoutCancel(ctx), store.Filter{Limit: 1})
	if shut := book.Close(); err == nil {
		err = shut
	}
	if fresh && unread == nil && len(heads) == 0 {
		os.Remove(path) // it was made a moment ago and holds nothing
	}
	return err
}
