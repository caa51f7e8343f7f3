package kit

import "fyne.io/fyne/v2"

// coloured gives a new renderer its colours and sizes. The toolkit paints a widget that it has not
// refreshed yet, and colours are only known once there is a theme.
func coloured(r fyne.WidgetRenderer) fyne.WidgetRenderer {
	r.Refresh()
	return r
}
