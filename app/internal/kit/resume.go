package kit

// Resume shows a text that was refused before, with the reason: a field that comes back into sight has
// what a person left in it. Esc gives the value back that holds.
func (f *Field) Resume(text string, why error) {
	f.entry.SetText(text)
	f.refuse(why)
}
