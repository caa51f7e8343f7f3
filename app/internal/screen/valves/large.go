package valves

// Large reports whether the table is drawn for reading at arm's length, which the window remembers.
func (v *View) Large() bool { return v.p.Large() }

// SetLarge draws the table for reading at arm's length, or not.
func (v *View) SetLarge(on bool) { v.p.SetLarge(on) }
