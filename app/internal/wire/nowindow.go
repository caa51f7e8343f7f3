//go:build !cgo && darwin

package wire

import (
	"context"

	"keeperbook/model/say"
)

// Window is never more than nil here: without cgo not even the toolkit's widgets compile for this system, so the program is made of
// the commands alone.
type Window func(context.Context) error

func (m Main) open(context.Context, string) int { return m.commands(say.New("command.no-window")) }
