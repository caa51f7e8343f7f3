package exchange

import (
	"slices"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// ReadSprings reads a table of single springs, a line for each number. The first line names the columns, in
// any order:
//
//	tag,spring,batch,condition,what,coil,height,load,back,correction,gauge,height-gauge,retainer,locator,source,by,when,note
//
// tag, what and height are required. "what" is load, bind or free. A load is of one coil, or of the spring
// tested as one where coil is empty, and then retainer and locator are what it stood on. "correction" is of the
// height and is written as in [ReadCSV]; loads and binds are refused without it. "source" is measured,
// supplied or estimated, and measured where it is empty.
//
// Lines of one spring may not say different things of its type, batch, condition and note, nor those of its
// loads on one coil of how they were taken: they come from one test. An empty cell says nothing different, so
// each may be said once.
//
// Every line that does not fit is named and the rest is returned, as in ReadCSV.
func ReadSprings(data []byte) (SpringSheet, []RowError) {
	s := springReader{known: map[string]int{}}
	t, errs := springs.read(data, s.take)
	s.sheet.Separator, s.sheet.Columns = t.separator, t.names
	return s.sheet, errs
}

// springReader is a table of springs while it is read, with where each spring stands in it.
type springReader struct {
	sheet SpringSheet
	known map[string]int
}

// springRow is one line of the table.
type springRow struct {
	row
	what       SpringWhat
	correction string
	spring     SpringEntry // without its numbers
	test       SpringTest
	point      SpringPoint
}

// take reads one line and keeps it.
func (s *springReader) take(t *table, r row) *say.Error {
	cell := func(column string) string { return t.cell(r, column) }
	w := springRow{
		row: r, what: SpringWhat(strings.ToLower(cell(whatColumn))), correction: cell(correctionColumn),
		spring: SpringEntry{
			Line: r.line, Tag: cell(tagColumn), Spring: cell(springColumn), Batch: cell(batchColumn),
			Condition: record.Condition(cell(conditionColumn)), Note: cell(noteColumn),
		},
		test: SpringTest{
			Gauge: cell(gaugeColumn), HeightGauge: cell(heightGaugeColumn), Retainer: cell(retainerColumn),
			Locator: cell(locatorColumn), Source: record.Source(cell(sourceColumn)), By: cell(byColumn),
			When: record.Stamp(cell(whenColumn)),
		},
		point: SpringPoint{Line: r.line, Height: cell(heightColumn), Load: cell(loadColumn), Back: cell(backColumn)},
	}
	var ok bool
	if w.test.Coil, ok = coilNumber(cell(coilColumn)); !ok {
		return r.fail(coilColumn, "exchange.csv-coil", short(cell(coilColumn)), mostCoils)
	}
	if err := w.words(); err != nil {
		return err
	}
	if err := w.cells(); err != nil {
		return err
	}
	var err *say.Error
	if w.test.Correction, err = r.correction(w.correction); err != nil {
		return err
	}
	return s.keep(w)
}

var sources = []record.Source{record.Measured, record.Supplied, record.Estimated}

// words refuses what is none of the words that a column takes.
func (w *springRow) words() *say.Error {
	condition, source, when := w.spring.Condition, w.test.Source, w.test.When
	switch {
	case !slices.Contains(springWhats, w.what):
		return w.fail(whatColumn, "exchange.csv-what", short(string(w.what)), joined(springWhats))
	case condition != "" && !slices.Contains(record.Conditions, condition):
		return w.fail(conditionColumn, "exchange.springs-condition", short(string(condition)), joined(record.Conditions))
	case source != "" && !slices.Contains(sources, source):
		return w.fail(sourceColumn, "exchange.springs-source", short(string(source)), joined(sources))
	case when != "" && checkStamp(nil, when) != nil:
		return w.fail(whenColumn, "exchange.csv-when", short(string(when)))
	}
	return nil
}

// cells refuses a line that leaves out what its kind needs, and one that says what its kind does not have.
func (w *springRow) cells() *say.Error {
	load, coil, t := w.what == LoadOfSpring, w.test.Coil, &w.test
	switch {
	case load && w.point.Load == "":
		return w.fail(loadColumn, "exchange.csv-blank", loadColumn)
	case !load && w.point.Load+w.point.Back+t.HeightGauge != "":
		return w.fail(loadColumn, "exchange.springs-load", string(LoadOfSpring))
	case (!load || coil > 0) && t.Retainer+t.Locator != "":
		return w.fail(retainerColumn, "exchange.springs-steps")
	case w.what == FreeOfSpring && (coil > 0 || w.correction+t.Gauge+string(t.Source)+t.By+string(t.When) != ""):
		return w.fail(whatColumn, "exchange.springs-free", string(FreeOfSpring))
	case w.what == BindOfSpring && coil == 0:
		return w.fail(coilColumn, "exchange.springs-coil")
	// A bare number may be the spring's or the scale's; taken wrongly, a load is off by the rate times a lid.
	case w.what != FreeOfSpring && w.correction == "":
		return w.fail(correctionColumn, "exchange.csv-through", string(AsSet), string(AtTheSpring))
	}
	return nil
}

// keep adds the line to its spring, unless it says another thing than a line before it.
func (s *springReader) keep(w springRow) *say.Error {
	at, known := s.known[w.spring.Tag]
	if !known {
		at = len(s.sheet.Springs)
		s.known[w.spring.Tag] = at
		s.sheet.Springs = append(s.sheet.Springs, w.spring)
	}
	spring := &s.sheet.Springs[at]
	err := w.agree(spring.Line, []agreement{
		{springColumn, &spring.Spring, w.spring.Spring}, {batchColumn, &spring.Batch, w.spring.Batch},
		{conditionColumn, (*string)(&spring.Condition), string(w.spring.Condition)}, {noteColumn, &spring.Note, w.spring.Note},
	})
	if err != nil {
		return err
	}
	switch w.what {
	case FreeOfSpring:
		if spring.Free != nil {
			return w.twice(spring.Free.Line)
		}
		spring.Free = &w.point
		return nil
	case BindOfSpring:
		return w.add(&spring.Binds)
	}
	return w.add(&spring.Loads)
}

// add puts the line with those of its coil. A bind is of one line, a load of as many as there are heights.
func (w *springRow) add(tests *[]SpringTest) *say.Error {
	at := slices.IndexFunc(*tests, func(t SpringTest) bool { return t.Coil == w.test.Coil })
	if at < 0 {
		w.test.Points = []SpringPoint{w.point}
		*tests = append(*tests, w.test)
		return nil
	}
	t := &(*tests)[at]
	first := t.Points[0].Line
	if w.what == BindOfSpring {
		return w.twice(first)
	}
	if was, is := t.Correction.String(), w.test.Correction.String(); was != is {
		return w.fail(correctionColumn, "exchange.springs-differs", short(w.spring.Tag), correctionColumn, first)
	}
	err := w.agree(first, []agreement{
		{gaugeColumn, &t.Gauge, w.test.Gauge}, {heightGaugeColumn, &t.HeightGauge, w.test.HeightGauge},
		{retainerColumn, &t.Retainer, w.test.Retainer}, {locatorColumn, &t.Locator, w.test.Locator},
		{sourceColumn, (*string)(&t.Source), string(w.test.Source)}, {byColumn, &t.By, w.test.By},
	})
	if err != nil {
		return err
	}
	if t.When == "" {
		t.When = w.test.When
	}
	t.Points = append(t.Points, w.point)
	return nil
}

func (w *springRow) twice(first int) *say.Error {
	return w.fail(whatColumn, "exchange.springs-twice", string(w.what), short(w.spring.Tag), first)
}

// agreement is a cell beside what earlier lines say of the same thing.
type agreement struct {
	column string
	was    *string
	is     string
}

// agree refuses a line that says another thing than those since the first, and fills in what they left out.
// Nothing is filled in where it is refused.
func (w *springRow) agree(first int, all []agreement) *say.Error {
	for _, a := range all {
		if *a.was != "" && a.is != "" && *a.was != a.is {
			return w.fail(a.column, "exchange.springs-differs", short(w.spring.Tag), a.column, first)
		}
	}
	for _, a := range all {
		if *a.was == "" {
			*a.was = a.is
		}
	}
	return nil
}
