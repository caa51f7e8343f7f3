package record

import (
	"strings"

	"keeperbook/model/say"
)

// UsualDay is a day as an engine often runs it, under a name: "race day" for "6 passes, 9.5 s, mean 6,800 rpm". It belongs to the
// book and is in no Record.
type UsualDay struct {
	Engine string `json:"engine"` // id
	Name   string `json:"name"`
	Line   string `json:"line"` // as it is typed
	By     string `json:"by"`
}

// ItemKind is the item's.
func (UsualDay) ItemKind() ItemKind { return UsualDayItem }

// Key is unique within the book: an engine has one day of a name, however it is written.
func (u UsualDay) Key() string { return u.Engine + " " + strings.ToLower(u.Name) }

func doubtUsualDay(u UsualDay) *say.Error {
	name := strings.TrimSpace(u.Name)
	// A name that begins with a number could be the day itself.
	if name == "" || name != u.Name || strings.ContainsAny(name, `=,"`) || name[0] >= '0' && name[0] <= '9' {
		return invalid("record.usual-name", u.Name).About("name")
	}
	return nil
}
