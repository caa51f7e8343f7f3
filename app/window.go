//go:build cgo

package main

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/wire"
	"keeperbook/assets"
)

// errDisplay says that there is no display after all, whatever the environment says.
var errDisplay = errors.New("the display does not answer")

// window returns what opens the window.
func window() wire.Window { return open }

// open opens the window and returns when it is closed, or when the context ends.
func open(ctx context.Context, cfg shell.Config) (err error) {
	defer func() {
		if r := recover(); r == errDisplay {
			err = errDisplay
		} else if r != nil {
			panic(r)
		}
	}()
	// An application with an identifier has the toolkit keep preferences for it, and write them over the old
	// ones at the end whether there are any or not. What the window remembers lies in a file of its own.
	app.SetMetadata(fyne.AppMetadata{Name: "Keeperbook", Version: cfg.Version, Migrations: map[string]bool{"fyneDo": true}})
	a := app.NewWithID("")
	a.SetIcon(fyne.NewStaticResource("keeperbook.png", assets.Icon))
	s := shell.New(ctx, kit.Calm(careful{a}), cfg)
	s.Start()
	go func() {
		<-ctx.Done()
		fyne.Do(s.End)
	}()
	a.Run()
	return nil
}

// careful is the application where its first window may fail: the toolkit panics for a display that is
// named and does not answer.
type careful struct{ fyne.App }

// NewWindow is the toolkit's.
func (c careful) NewWindow(title string) fyne.Window {
	defer func() {
		if recover() != nil {
			panic(errDisplay)
		}
	}()
	return c.App.NewWindow(title)
}
