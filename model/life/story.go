package life

import (
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Spell is a time that one part was at one place.
type Spell struct {
	From, Until record.Date // Until is the day it went elsewhere; "" where it is there now
	HeadID      string      // "" where it lay in a box
	Head        string      // its tag
	At          record.Position
	Label       string // of the valve
	Box         string
	Ran         Ran
	Found       []say.Line // what checks found on it
}

// Now reports whether the part is there now.
func (s Spell) Now() bool { return s.Until == "" }

// Story is what became of one part: where it was, what it ran there, and what was found on it.
type Story struct {
	Of     record.ItemKind
	Spells []Spell // in the order of days
	Ran    Ran     // in all
}

// Where is where the part is now; nil where nobody says.
func (s Story) Where() *Spell {
	if n := len(s.Spells); n > 0 && s.Spells[n-1].Now() {
		return &s.Spells[n-1]
	}
	return nil
}

// Service is a time at a place before it is known what was run there, with everything that the head of the place ever ran and
// what was found on its springs.
type Service struct {
	Spell
	Runs   []record.Run
	Checks []record.SpringCheck
}

// ofPart are the sights that are seen on the part itself.
var ofPart = map[record.ItemKind][]record.Sight{
	record.PieceItem: {
		record.Nick, record.Rust, record.Crack, record.BrokenCoil, record.Polish, record.EndTip, record.NotSquare, record.DamperGroove,
		record.HeatColour,
	},
	record.RetainerItem: {record.RetainerWear},
	record.LocksItem:    {record.LockWear},
}

// StoryOf tells the story of a part. A time ends where the next one begins: nothing is at two places.
func StoryOf(of record.ItemKind, all []Service) Story {
	all = slices.Clone(all)
	slices.SortStableFunc(all, func(a, b Service) int {
		if a.From != b.From {
			if a.From < b.From {
				return -1
			}
			return 1
		}
		return 0
	})
	story := Story{Of: of}
	var every []record.Run
	for i, s := range all {
		if i+1 < len(all) && (s.Until == "" || all[i+1].From < s.Until) {
			s.Until = all[i+1].From
		}
		var runs []record.Run
		for _, r := range s.Runs {
			// On the day it was taken off the head ran with what came after it.
			if r.Day >= s.From && (s.Now() || r.Day < s.Until) {
				runs = append(runs, r)
			}
		}
		every = append(every, runs...)
		s.Ran = ranOf(runs)
		for _, c := range s.Checks {
			if c.Day >= s.From && (s.Now() || c.Day < s.Until || c.Day == s.Until && c.Service == record.CheckedEnd) {
				s.Found = append(s.Found, foundOn(of, s.At, c)...)
			}
		}
		story.Spells = append(story.Spells, s.Spell)
	}
	story.Ran = ranOf(every)
	return story
}

// foundOn says what a check found on a part at a valve.
func foundOn(of record.ItemKind, at record.Position, c record.SpringCheck) (all []say.Line) {
	for _, v := range c.Valves {
		if v.At != at {
			continue
		}
		if of == record.PieceItem && v.Load != nil {
			all = append(all, say.New("story.load", c.Day, say.Number(v.Load.Read), string(v.Load.Unit)))
		}
		for _, s := range v.Seen {
			if slices.Contains(ofPart[of], s) {
				all = append(all, say.New("life.seen", say.New("sight."+string(s)), c.Day))
			}
		}
	}
	return all
}
