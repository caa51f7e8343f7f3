package kit

import (
	"context"

	"fyne.io/fyne/v2"
)

// Load has something read beside the window and taken over in it: load may run beside other work, and what it returns, which
// is then done and drawn, may not.
func Load(background func(work func()), load func(context.Context) (take func(), err error), fail func(error), draw func()) {
	background(func() {
		take, err := load(context.Background())
		fyne.Do(func() {
			if err != nil {
				fail(err)
				return
			}
			take()
			draw()
		})
	})
}
