package exchange

// ReadCSV reads a table of readings. The first line names the columns, in any order:
//
//	head,valve,what,coil,reading,correction,gauge,method,by,when,note,height,height-gauge
//
// head, valve, what and reading are required. Cells are separated by commas, semicolons or tabs, as
// the first line is; the text is UTF-8, with or without a byte order mark. "what" is a kind of reading,
// or shims or shims-outer. "correction" is as-set (the gauge's standing setting), at-the-spring (nothing
// is taken off), or a list such as
//
//	lid .095 + locator .060 + step .095 zeroed
//
// and bind is refused without one. An empty one takes nothing off, the zero offset of the gauge neither.
// "height" is what a seat load was taken at, and then the correction is of it and is not left out. The same
// valve may not come twice for the same thing unless the later reading ends in a star, which makes it a
// repeat.
//
// Every line that does not fit is named, the rest is returned; whether part of a table is taken in is
// the caller's choice. Where more than 20 lines do not fit, one last error says how many more there are.
func ReadCSV(data []byte) (Sheet, []RowError) {
	s := sheetReader{seen: map[string]int{}}
	t, errs := readings.read(data, s.take)
	s.sheet.Separator, s.sheet.Columns = t.separator, t.names
	return s.sheet, errs
}

// sheetReader is a table of readings while it is read.
type sheetReader struct {
	sheet Sheet
	seen  map[string]int // line of the first reading of a thing
}
