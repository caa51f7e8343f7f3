package record

import "keeperbook/model/unit"

// Study is a trial of how well a gauge repeats: one and the same thing read on it again and again, by
// one person or by several. It belongs to the book and to no record; [Repeat] is what comes out of it.
type Study struct {
	ID       string         `json:"id"`
	Gauge    string         `json:"gauge"` // id
	What     string         `json:"what"`  // what was read, in the shop's words
	Unit     unit.Symbol    `json:"unit"`  // in or mm, what its readings are typed in
	Readings []StudyReading `json:"readings,omitempty"`
	Note     string         `json:"note,omitempty"`
}

// StudyReading is one reading of a study. It is struck, never rewritten.
type StudyReading struct {
	By       string        `json:"by"`
	Quantity unit.Quantity `json:"quantity"`
	When     Stamp         `json:"when"`
	Struck   *Strike       `json:"struck,omitempty"` // always with a reason: who drops what does not fit makes a gauge look better than it is
}
