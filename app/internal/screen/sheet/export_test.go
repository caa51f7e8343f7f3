package sheet

// Signed says who signed the set-up.
func (v *View) Signed() []string { return v.presenter.Signed() }

// Asks reports whether the panel is of whoever is about to sign.
func (v *View) Asks() bool { return v.asks }
