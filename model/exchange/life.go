package exchange

import (
	"bytes"
	"slices"
	"strconv"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// The columns of tables of runs and of checks, beside those that a table of readings has too.
const (
	dayColumn      = "day" // 2026-05-30
	countColumn    = "count"
	kindColumn     = "kind"    // passes, laps, hours, miles, km, pulls
	secondsColumn  = "seconds" // each pass or lap
	meanColumn     = "mean"    // turns a minute, over the time
	speedColumn    = "speed"   // over the ground, an hour
	fromColumn     = "from"    // of a pull, turns a minute
	toColumn       = "to"
	rateColumn     = "rate" // turns a minute in a second
	topColumn      = "top"  // turns a minute
	startsColumn   = "starts"
	burnoutsColumn = "burnouts"
	overRevsColumn = "over-revs"
	oilColumn      = "oil" // 210 F
	placeColumn    = "where"

	serviceColumn = "service" // new, run-in, in-use, taken-up
	testerColumn  = "tester"  // name or identifier
	freeColumn    = "free"
	foundColumn   = "lash-found"
	leftColumn    = "lash-left"
	seenColumn    = "seen"     // nick + polish
	nextDayColumn = "next-day" // of the next check
	nextColumn    = "next"     // 40 passes
)

// runs is the layout of a table of runs, checks that of a table of checks of springs.
var (
	runs = layout{
		columns: []string{
			headColumn, dayColumn, countColumn, kindColumn, secondsColumn, meanColumn, speedColumn, fromColumn, toColumn, rateColumn,
			topColumn, startsColumn, burnoutsColumn, overRevsColumn, oilColumn, placeColumn, byColumn, noteColumn,
		},
		required: []string{headColumn, dayColumn, countColumn, kindColumn},
	}
	checks = layout{
		columns: []string{
			headColumn, dayColumn, serviceColumn, valveColumn, loadColumn, heightColumn, freeColumn, foundColumn, leftColumn, seenColumn,
			testerColumn, nextDayColumn, nextColumn, byColumn, noteColumn,
		},
		required: []string{headColumn, dayColumn, serviceColumn, valveColumn},
	}
)

// OfRuns reports whether a table is one of runs: its first line names a column of counts.
func OfRuns(data []byte) bool { return names(data, countColumn) }

// OfChecks reports whether a table is one of checks of springs: its first line says when in their life they were checked.
func OfChecks(data []byte) bool { return names(data, serviceColumn) }

// names reports whether the first line of a table names a column.
func names(data []byte, column string) bool {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	first, _, _ := bytes.Cut(data, []byte("\n"))
	s := splitter{rest: data, line: 1, separator: separator(first)}
	header, _ := s.next()
	return slices.ContainsFunc(header.cells, func(name string) bool { return strings.EqualFold(strings.TrimSpace(name), column) })
}

// RunRow is one line of a table of runs. Its head is a tag or an identifier.
type RunRow struct {
	Line int
	Head string
	Run  record.Run // without identifier and head
}

// ReadRuns reads a table of runs, a line for each. The first line names the columns, in any order:
//
//	head,day,count,kind,seconds,mean,speed,from,to,rate,top,starts,burnouts,over-revs,oil,where,by,note
//
// head, day, count and kind are required. Speeds are turns of the crank a minute, but for "speed", which is kilometres an hour
// beside km and else miles an hour, without its unit: [record.Doubt] takes no number with one. "oil" has its degrees behind it, as in
// 210 F. Every line that does not fit is named and the rest is returned, as in [ReadCSV].
func ReadRuns(data []byte) ([]RunRow, []RowError) {
	var all []RunRow
	_, errs := runs.read(data, func(t *table, r row) *say.Error {
		cell := func(column string) string { return t.cell(r, column) }
		run := record.Run{
			Day: record.Date(cell(dayColumn)), Kind: record.RunKind(strings.ToLower(cell(kindColumn))), Count: cell(countColumn),
			Seconds: cell(secondsColumn), Mean: cell(meanColumn), Speed: cell(speedColumn), From: cell(fromColumn), To: cell(toColumn),
			Rate: cell(rateColumn), Top: cell(topColumn), Where: cell(placeColumn), By: cell(byColumn), Note: cell(noteColumn),
		}
		for _, n := range []struct {
			column string
			to     *int
		}{{startsColumn, &run.Starts}, {burnoutsColumn, &run.Burnouts}, {overRevsColumn, &run.OverRevs}} {
			text := cell(n.column)
			if text == "" {
				continue
			}
			var err error
			if *n.to, err = strconv.Atoi(text); err != nil || *n.to > mostEvents {
				return r.fail(n.column, "exchange.csv-whole", n.column, short(text))
			}
		}
		run.Oil, run.OilDegree, _ = strings.Cut(strings.ToUpper(strings.ReplaceAll(cell(oilColumn), "°", " ")), " ")
		run.OilDegree = strings.TrimSpace(run.OilDegree)
		all = append(all, RunRow{r.line, cell(headColumn), run})
		return nil
	})
	return all, errs
}

// mostEvents is how many starts a line may have.
const mostEvents = 10_000

// ReadNextLine is [ReadNext] of what somebody typed. It fails (say.Invalid) where the chosen language leaves it open whether a mark
// is one of thousands.
func ReadNextLine(text string) (count string, of record.RunKind, err error) {
	count, of = ReadNext(text)
	return count, of, twofoldIn(count, ",.")
}

// ReadNext reads after how much more the next check is: 40 passes.
func ReadNext(text string) (count string, of record.RunKind) {
	count, kind, _ := strings.Cut(strings.TrimSpace(text), " ")
	return count, record.RunKind(strings.ToLower(strings.TrimSpace(kind)))
}

// CheckRow is one line of a table of checks: what was found at one valve. Numbers stay text, as in [SpringEntry].
type CheckRow struct {
	Line                            int
	Head                            string
	Day                             record.Date
	Service                         record.Service
	Tester                          string
	At                              record.Position
	Load, Height, Free, Found, Left string
	Seen                            []record.Sight
	NextDay                         record.Date
	NextIn                          string
	NextOf                          record.RunKind
	By, Note                        string
}

// ReadChecks reads a table of checks of springs, a line for each valve. The first line names the columns, in any order:
//
//	head,day,service,valve,load,height,free,lash-found,lash-left,seen,tester,next-day,next,by,note
//
// head, day, service and valve are required. Lines of one head, day and service are one check; they may not name different
// testers or promise different next checks, and an empty cell says nothing different. "seen" is a list such as
// nick + polish, "next" is after what: 40 passes. Every line that does not fit is named and the rest is returned, as in [ReadCSV].
func ReadChecks(data []byte) ([]CheckRow, []RowError) {
	var all []CheckRow
	first := map[string]int{} // index of the first line of a check
	_, errs := checks.read(data, func(t *table, r row) *say.Error {
		cell := func(column string) string { return t.cell(r, column) }
		c := CheckRow{
			Line: r.line, Head: cell(headColumn), Day: record.Date(cell(dayColumn)), Service: record.Service(strings.ToLower(cell(serviceColumn))),
			Tester: cell(testerColumn), Load: cell(loadColumn), Height: cell(heightColumn), Free: cell(freeColumn), Found: cell(foundColumn),
			Left: cell(leftColumn), NextDay: record.Date(cell(nextDayColumn)), By: cell(byColumn), Note: cell(noteColumn),
		}
		var ok bool
		if c.At, ok = position(cell(valveColumn)); !ok {
			return r.fail(valveColumn, "exchange.csv-valve", short(cell(valveColumn)))
		}
		if c.Height != "" && c.Load == "" {
			return r.fail(loadColumn, "exchange.csv-blank", loadColumn)
		}
		for _, s := range strings.Split(cell(seenColumn), "+") {
			if s = strings.ToLower(strings.TrimSpace(s)); s == "" {
				continue
			}
			if !slices.Contains(record.Sights, record.Sight(s)) {
				return r.fail(seenColumn, "exchange.csv-what", short(s), joined(record.Sights))
			}
			c.Seen = append(c.Seen, record.Sight(s))
		}
		c.NextIn, c.NextOf = ReadNext(cell(nextColumn))

		key := c.Head + "\x00" + string(c.Day) + "\x00" + string(c.Service)
		at, known := first[key]
		if !known {
			first[key] = len(all)
			all = append(all, c)
			return nil
		}
		was := &all[at]
		for _, a := range []agreement{
			{testerColumn, &was.Tester, c.Tester}, {nextDayColumn, (*string)(&was.NextDay), string(c.NextDay)},
			{nextColumn, &was.NextIn, c.NextIn}, {nextColumn, (*string)(&was.NextOf), string(c.NextOf)},
		} {
			if *a.was != "" && a.is != "" && *a.was != a.is {
				return r.fail(a.column, "exchange.checks-differ", string(c.Day), a.column, was.Line)
			}
			if *a.was == "" {
				*a.was = a.is
			}
		}
		all = append(all, c)
		return nil
	})
	return all, errs
}
