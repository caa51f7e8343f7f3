package valves

import "keeperbook/model/record"

// pages of help by the columns that have none of their own name.
var pageOf = map[string]string{
	"bar": "margin", "outer": "shims", "open": "bind", "seal-open": "seal", "room": "seal", "room-open": "seal",
	"seat-read": "loads", "seat-load": "loads", "open-load": "loads", "lash-found": "lash", "lash-shim": "lash", "lash-left": "lash",
	"taken-" + string(record.SeatDepth): "base", "taken-" + string(record.RetainerDepth): "base",
	"taken-" + string(record.LiftRunning): "lift", "taken-" + string(record.LashShim): "lash",
}

// Word is the name of the page of help about the column that has the cursor.
func (p *Presenter) Word() string {
	key := p.SelectedColumn()
	if len(key) > 5 && key[:5] == "bind-" {
		return "bind"
	}
	if page, ok := pageOf[key]; ok {
		return page
	}
	return key
}
