// Package kit holds the program's own widgets. They know units and drawings, never records.
package kit

import (
	"fyne.io/fyne/v2"

	"keeperbook/model/say"
)

// Host is what a screen asks of the window around it.
type Host interface {
	Window() fyne.Window
	Tell(line say.Line) // one sentence on the bottom line, replaced by the next
	Fail(err error)     // a banner with the error's sentence, until it is put away
	Changed()           // the set-up changed; every screen that shows it is refreshed
	Show(leaf string)   // go to another leaf of the head: needs, parts, valves, sheet
}

// Leaf is one page of an open head.
type Leaf interface {
	Object() fyne.CanvasObject
	Refresh()  // draw what the set-up is now
	Focus()    // put the keyboard where work goes on
	Open() int // how many things on it are open, for its tab
}
