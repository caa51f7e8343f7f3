package kit

import "fyne.io/fyne/v2"

// GiveKeyboard gives the keyboard to an object, also to one that was made a moment ago.
func GiveKeyboard(to fyne.Focusable) {
	step(to.(fyne.CanvasObject), func(c fyne.Canvas) { c.Focus(to) })
}

// step does something with the canvas that an object is on.
func step(from fyne.CanvasObject, move func(fyne.Canvas)) {
	if c := canvasOf(from); c != nil {
		move(c)
	}
}

// pass hands a key to the window, which gets none that something has the keyboard for.
func pass(from fyne.CanvasObject, k *fyne.KeyEvent) {
	if c := canvasOf(from); c != nil && c.OnTypedKey() != nil {
		c.OnTypedKey()(k)
	}
}

// canvasOf returns the canvas of an object. The toolkit knows it only once the object was drawn; until
// then it is the canvas of the program's one window.
func canvasOf(o fyne.CanvasObject) fyne.Canvas {
	driver := fyne.CurrentApp().Driver()
	if c := driver.CanvasForObject(o); c != nil {
		return c
	}
	for _, w := range driver.AllWindows() {
		return w.Canvas()
	}
	return nil
}
