package exchange

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// thousands is a comma between thousands, which ends no part of a line.
var thousands = regexp.MustCompile(`(^|\D)(\d{1,3}),(\d{3})\b`)

// twofold is a number that has three figures behind its only mark: thousands, or a little of one.
var twofold = regexp.MustCompile(`(?:^|[^\d.,])(([1-9]\d{0,2})[.,](\d{3}))(?:$|[^\d.,]|[.,]\D|[.,]$)`)

// twofoldIn refuses (say.Invalid) a number with one of these marks that may be meant as thousands or not, where the chosen language
// has a decimal comma: 1,250 h.
func twofoldIn(text, marks string) error {
	if !say.Chosen().Comma() {
		return nil
	}
	for _, m := range twofold.FindAllStringSubmatch(text, -1) {
		if strings.ContainsAny(m[1], marks) {
			part := strings.TrimRight(m[3], "0")
			if part == "" || len(part) == 3 {
				part += "0"
			}
			return say.Fail(say.Invalid, "exchange.run-twofold", m[1], m[2]+m[3], m[2]+"."+part)
		}
	}
	return nil
}

// ReadRunLine reads a day's running as it is typed in one line:
//
//	6 quarter-mile passes, 9.5 s, mean 6,800, top 7,800, 2 starts, 1 over-rev, 210 F, at Marram Flats
//
// Parts stand between commas, in any order; the first number of a part counts and its last word says what. A speed that only
// has rpm behind it is the highest: what was read off a tell-tale must not become a mean. A quotation
// mark as a part takes time, mean speed and place from the last run of the same kind among those before, as far as the line does
// not say them. It fails (say.Invalid) with a part that is not understood, with one that comes twice, where nothing is counted, where
// a speed over the ground is in another unit than the kind has, where there is no such run before, and where the chosen language leaves
// it open whether a mark is one of thousands.
func ReadRunLine(text string, before []record.Run) (record.Run, error) {
	l := runLine{done: map[string]bool{}}
	if err := twofoldIn(text, ","); err != nil {
		return l.Run, err
	}
	for _, part := range strings.Split(thousands.ReplaceAllString(text, "$1$2$3"), ",") {
		if part = strings.Join(strings.Fields(part), " "); part == "" {
			continue
		}
		if part == `"` || part == "”" {
			l.again = true
			continue
		}
		if !l.take(part) {
			return l.Run, say.Fail(say.Invalid, "exchange.run-part", short(part))
		}
	}
	if l.Count == "" {
		return l.Run, say.Fail(say.Invalid, "exchange.run-nothing")
	}
	if err := twofoldIn(l.Count, "."); err != nil {
		return l.Run, err
	}
	if of := groundSpeed(l.Kind); l.ground != "" && l.ground != of {
		return l.Run, say.Fail(say.Invalid, "exchange.run-ground", short(l.Speed+" "+l.ground), string(l.Kind), of)
	}
	if l.again && !l.repeat(before) {
		return l.Run, say.Fail(say.Invalid, "exchange.run-before", string(l.Kind))
	}
	return l.Run, nil
}

// repeat takes what the line does not say from the last run of its kind; false where there is none.
func (l *runLine) repeat(before []record.Run) bool {
	for _, last := range slices.Backward(before) {
		if last.Kind != l.Kind {
			continue
		}
		for _, f := range []struct {
			to   *string
			last string
		}{
			{&l.Seconds, last.Seconds}, {&l.Mean, last.Mean}, {&l.Speed, last.Speed}, {&l.From, last.From}, {&l.To, last.To}, {&l.Rate, last.Rate},
			{&l.Where, last.Where},
		} {
			if *f.to == "" {
				*f.to = f.last
			}
		}
		return true
	}
	return false
}

type runLine struct {
	record.Run
	done   map[string]bool // what was said already
	again  bool            // the rest is as it was last
	ground string          // the unit that its speed over the ground was typed in
}

// kinds are the words for what runs are counted in.
var kinds = map[string]record.RunKind{
	"pass": record.Passes, "passes": record.Passes, "lap": record.Laps, "laps": record.Laps, "h": record.Hours, "hour": record.Hours,
	"hours": record.Hours, "mi": record.Miles, "mile": record.Miles, "miles": record.Miles, "km": record.Kilometres,
	"pull": record.Pulls, "pulls": record.Pulls,
}

// groundSpeed is the unit of a speed over the ground, which a run is kept without: its kind tells it.
func groundSpeed(k record.RunKind) string {
	if k == record.Kilometres {
		return "km/h"
	}
	return "mph"
}

// describes reports whether a word may stand between a number and what it counts, as in 6 quarter-mile passes. Of 2 x 10 laps or
// 2 hours 3 pulls nobody knows what is counted.
func describes(word string) bool {
	_, counts := kinds[word]
	return !counts && word != "x" && word != "×" && !strings.ContainsFunc(word, unicode.IsNumber)
}

// take reads one part; false where it is not understood.
func (l *runLine) take(part string) bool {
	words := strings.Fields(strings.ToLower(part))
	first, last := words[0], words[len(words)-1]
	switch first {
	case "at":
		return l.once("where", &l.Where, strings.TrimSpace(part[len(first):])) && l.Where != ""
	case "mean", "top", "oil":
		words = words[1:]
		if len(words) == 0 {
			return false
		}
		if first == "oil" {
			return l.oil(words)
		}
		if len(words) > 2 || len(words) == 2 && last != "rpm" {
			return false
		}
		return l.once(first, map[string]*string{"mean": &l.Mean, "top": &l.Top}[first], words[0])
	}
	if len(words) == 5 && words[1] == "to" && words[3] == "at" { // 3000 to 8000 at 600
		return l.once("from", &l.From, words[0]) && l.once("to", &l.To, words[2]) && l.once("rate", &l.Rate, words[4])
	}
	// What is written together, as 9.5s, is one number and one word.
	if len(words) == 1 {
		if i := strings.IndexFunc(first, func(r rune) bool { return (r < '0' || r > '9') && r != '.' }); i > 0 {
			words, first, last = []string{first[:i], first[i:]}, first[:i], first[i:]
		}
	}
	if len(words) < 2 {
		return false
	}
	if kind, ok := kinds[last]; ok {
		for _, between := range words[1 : len(words)-1] {
			if !describes(between) {
				return false
			}
		}
		l.Kind = kind
		return l.once("count", &l.Count, first)
	}
	if len(words) > 2 {
		return false
	}
	switch last {
	case "s", "seconds":
		return l.once("seconds", &l.Seconds, first)
	case "rpm":
		return l.once("top", &l.Top, first)
	case "mph", "km/h":
		l.ground = last
		return l.once("speed", &l.Speed, first)
	case "f", "c", "°f", "°c":
		return l.oil(words)
	case "start", "starts":
		return l.whole("starts", &l.Starts, first)
	case "burnout", "burnouts":
		return l.whole("burnouts", &l.Burnouts, first)
	case "over-rev", "over-revs":
		return l.whole("over-revs", &l.OverRevs, first)
	}
	return false
}

func (l *runLine) oil(words []string) bool {
	if len(words) != 2 {
		return false
	}
	l.OilDegree = strings.ToUpper(strings.TrimPrefix(words[1], "°"))
	return slices.Contains([]string{"F", "C"}, l.OilDegree) && l.once("oil", &l.Oil, words[0])
}

func (l *runLine) once(what string, to *string, text string) bool {
	if l.done[what] {
		return false
	}
	l.done[what], *to = true, text
	return true
}

func (l *runLine) whole(what string, to *int, text string) bool {
	n, err := strconv.Atoi(text)
	if err != nil || n > mostEvents || l.done[what] {
		return false
	}
	l.done[what], *to = true, n
	return true
}

// RunLine writes a run as [ReadRunLine] reads it.
func RunLine(r record.Run) string {
	parts := []string{r.Count + " " + string(r.Kind)}
	add := func(value, before, after string) {
		if value != "" {
			parts = append(parts, before+value+after)
		}
	}
	add(r.Seconds, "", " s")
	if r.From+r.To+r.Rate != "" {
		parts = append(parts, r.From+" to "+r.To+" at "+r.Rate)
	}
	add(r.Mean, "mean ", "")
	add(r.Top, "top ", "")
	add(r.Speed, "", " "+groundSpeed(r.Kind))
	for _, n := range []struct {
		count     int
		one, many string
	}{{r.Starts, " start", " starts"}, {r.Burnouts, " burnout", " burnouts"}, {r.OverRevs, " over-rev", " over-revs"}} {
		switch {
		case n.count == 1:
			parts = append(parts, "1"+n.one)
		case n.count > 1:
			parts = append(parts, strconv.Itoa(n.count)+n.many)
		}
	}
	add(r.Oil, "", " "+r.OilDegree)
	add(r.Where, "at ", "")
	return strings.Join(parts, ", ")
}

// ReadCheckLine reads what was found at one valve as it is typed in one line, into a row without head, day and valve:
//
//	215 at 1.830, lash .013, left .014, nick + polish
//
// The load stands first, with the height that it was read at where that is another than the installed one. It fails (say.Invalid)
// with a part that is not understood, and with a lash or a free length that comes twice.
func ReadCheckLine(text string) (CheckRow, error) {
	var c CheckRow
	for i, part := range strings.Split(text, ",") {
		part = strings.ToLower(strings.Join(strings.Fields(part), " "))
		word, rest, _ := strings.Cut(part, " ")
		if to := map[string]*string{"lash": &c.Found, "left": &c.Left, "free": &c.Free}[word]; to != nil && rest != "" {
			if *to != "" {
				return c, say.Fail(say.Invalid, "exchange.check-second", short(part))
			}
			*to = rest
			continue
		}
		switch {
		case part == "":
		case i == 0 && (part[0] >= '0' && part[0] <= '9'):
			c.Load, c.Height, _ = strings.Cut(part, " at ")
		default:
			for _, s := range strings.Split(part, "+") {
				s = strings.ReplaceAll(strings.TrimSpace(s), " ", "-")
				if !slices.Contains(record.Sights, record.Sight(s)) {
					return c, say.Fail(say.Invalid, "exchange.check-part", short(part), joined(record.Sights))
				}
				c.Seen = append(c.Seen, record.Sight(s))
			}
		}
	}
	return c, nil
}

// lineText is a reading as it was typed, or with a point where its comma would end a part of a line.
func lineText(q unit.Quantity) string {
	if strings.Contains(q.Typed, ",") || q.Plain() != q.Read+" "+string(q.Unit) {
		return q.Plain()
	}
	return q.Typed
}

// CheckLine writes what was found at a valve as [ReadCheckLine] reads it. A note is in no line.
func CheckLine(v record.CheckedValve) string {
	var parts []string
	if v.Load != nil {
		load := lineText(*v.Load)
		if v.Height != nil {
			load += " at " + lineText(*v.Height)
		}
		parts = append(parts, load)
	}
	for _, n := range []struct {
		word string
		q    *unit.Quantity
	}{{"free ", v.Free}, {"lash ", v.Found}, {"left ", v.Left}} {
		if n.q != nil {
			parts = append(parts, n.word+lineText(*n.q))
		}
	}
	seen := make([]string, len(v.Seen))
	for i, s := range v.Seen {
		seen[i] = string(s)
	}
	if len(seen) > 0 {
		parts = append(parts, strings.Join(seen, " + "))
	}
	return strings.Join(parts, ", ")
}
