package takein

// Columns are those of the page.
func (v *View) Columns() []Column { return v.presenter.Columns() }
