package exchange

import (
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Place is where a part goes, as it was typed.
type Place struct {
	Day  record.Date // "" is today
	Head string      // tag or identifier; "" where it goes into a box
	At   record.Position
	Box  string
}

// ReadPlace reads where a part goes, a day first where it is not today:
//
//	OF-2P 3 ex
//	2026-05-02 box 4
//
// It fails (say.Invalid) where neither a valve of a head nor a box is named.
func ReadPlace(text string) (Place, error) {
	var p Place
	words := strings.Fields(text)
	if len(words) > 0 {
		if day := say.Chosen().ReadDay(words[0]); len(day) == len("2026-05-02") && day[4] == '-' {
			p.Day, words = record.Date(day), words[1:]
		}
	}
	rest := strings.Join(words, " ")
	if len(words) > 1 && strings.EqualFold(words[0], "box") {
		p.Box = "box " + strings.Join(words[1:], " ")
		return p, nil
	}
	for _, of := range []int{3, 2} { // "3 ex 2" before "ex 2"
		if at, ok := position(strings.Join(words[max(0, len(words)-of):], " ")); ok && len(words) > of {
			p.Head, p.At = strings.Join(words[:len(words)-of], " "), at
			return p, nil
		}
	}
	return p, say.Fail(say.Invalid, "exchange.place", short(rest))
}
