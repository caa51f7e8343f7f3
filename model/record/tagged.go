package record

import (
	"slices"
	"strings"

	"keeperbook/model/say"
)

// Tagged is one part that the shop tells from its like by a tag, with where it was: a retainer, a pair of locks, or a single
// spring. Of a spring only the boxes stand here: on which valve it is its set-ups say, and inners and outers stay together, as
// they are one [SpringPiece]. It belongs to the book and is in no Record.
type Tagged struct {
	Of    ItemKind `json:"of"` // PieceItem, RetainerItem or LocksItem
	Tag   string   `json:"tag"`
	Type  string   `json:"type,omitempty"`  // id of the retainer or the locks
	Stays []Stay   `json:"stays,omitempty"` // in the order in which it came there
	Note  string   `json:"note,omitempty"`
}

// Stay says that a part came to a place on a day. It stays there until it comes to the next one.
type Stay struct {
	Day  Date      `json:"day"`
	Head string    `json:"head,omitempty"` // id
	At   *Position `json:"at,omitempty"`
	Box  string    `json:"box,omitempty"` // in words, where it lies; on a head that is ""
	By   string    `json:"by"`
}

// TaggedKinds are the kinds of parts that have tags.
var TaggedKinds = []ItemKind{PieceItem, RetainerItem, LocksItem}

// ItemKind is the item's.
func (Tagged) ItemKind() ItemKind { return TaggedItem }

// Key is unique within the book: a retainer and a spring may have the same tag.
func (t Tagged) Key() string { return string(t.Of) + " " + t.Tag }

// Last is where the part came last; nil where nothing is written down.
func (t Tagged) Last() *Stay {
	if len(t.Stays) == 0 {
		return nil
	}
	return &t.Stays[len(t.Stays)-1]
}

func doubtTagged(t Tagged, now Stamp) *say.Error {
	switch {
	case !slices.Contains(TaggedKinds, t.Of):
		return invalid("tagged.of", string(t.Of)).About("of")
	case strings.TrimSpace(t.Tag) == "" || strings.TrimSpace(t.Tag) != t.Tag:
		return invalid("tagged.tag").About("tag")
	case t.Of != PieceItem && t.Type == "":
		return invalid("tagged.type", t.Tag).About("type")
	}
	for i, s := range t.Stays {
		if err := doubtLifeDay(s.Day, now); err != nil {
			return err
		}
		onHead := s.Head != "" && s.At != nil
		switch {
		case i > 0 && s.Day < t.Stays[i-1].Day:
			return invalid("tagged.order", t.Tag, string(t.Stays[i-1].Day), string(s.Day)).About("stays")
		case onHead == (s.Box != ""), (s.Head == "") != (s.At == nil):
			return invalid("tagged.where", t.Tag).About("stays")
		case onHead && t.Of == PieceItem:
			return invalid("tagged.spring", t.Tag).About("stays")
		}
	}
	return nil
}
