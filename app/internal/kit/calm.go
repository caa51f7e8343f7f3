package kit

import "fyne.io/fyne/v2"

// Calm returns the application with its animations switched off, and makes it the current one. The
// caret of a text that is being typed then stands still: a blinking one costs a fifth of a processor
// where the graphics card is imitated by software.
//
// The toolkit has no call for it; its setting is a file of the person's own for all programs, and the
// build tag no_animations would have to be given by everybody who builds this one. But every widget
// asks the current application.
func Calm(app fyne.App) fyne.App {
	a := calm{app}
	fyne.SetCurrentApp(a)
	return a
}

type calm struct{ fyne.App }

func (c calm) Settings() fyne.Settings { return calmSettings{c.App.Settings()} }

type calmSettings struct{ fyne.Settings }

func (calmSettings) ShowAnimations() bool { return false }
