package wire

import (
	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/task"
)

// leaves makes the leaves of an open set-up.
func leaves(host kit.Host, desk *task.Desk, bench *task.Bench) []shell.Tab {
	return nil
}
