//go:build cgo

package main

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/wire"
	"keeperbook/assets"
)

// id names the application to the system, which keeps its preferences under it.
const id = "io.keeperbook.desk"

// window returns what opens the window.
func window() wire.Window { return open }

// open opens the window and returns when it is closed, or when the context ends.
func open(ctx context.Context, cfg shell.Config) {
	a := app.NewWithID(id)
	a.SetIcon(fyne.NewStaticResource("keeperbook.png", assets.Icon))
	s := shell.New(ctx, kit.Calm(a), cfg, a.Preferences())
	s.Start()
	go func() {
		<-ctx.Done()
		fyne.Do(s.Quit)
	}()
	a.Run()
}
