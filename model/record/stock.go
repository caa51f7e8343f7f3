package record

import (
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// StockShim is a kind of shim on the shop's shelf. It belongs to the book and to no record; how many there
// are is its [Stock].
type StockShim struct {
	ID        string         `json:"id"`
	Thickness unit.Quantity  `json:"thickness"`          // as sold
	Measured  *unit.Quantity `json:"measured,omitempty"` // its thickness as measured
	Gauge     string         `json:"gauge,omitempty"`    // id of what measured it
	Outside   *unit.Quantity `json:"outside,omitempty"`  // diameters
	Inside    *unit.Quantity `json:"inside,omitempty"`
	Hardened  bool           `json:"hardened,omitempty"`
	Serrated  bool           `json:"serrated,omitempty"`
	Under     Under          `json:"under"`
	Note      string         `json:"note,omitempty"`
}

// Thick returns its thickness: as measured, else as sold.
func (s StockShim) Thick() unit.Quantity {
	if s.Measured != nil {
		return *s.Measured
	}
	return s.Thickness
}

// Shim returns one of the kind as it lies in a stack.
func (s StockShim) Shim() Shim {
	return Shim{Thickness: s.Thick(), Under: s.Under, Gauge: s.Gauge, Note: s.Note}
}

// Stock is how many of a kind of shim there are, or whether a single spring is still there. A shim
// without one was never counted; a single spring without one is there, and with a count of nought it
// was scrapped. A count is never put: it moves, by a [Move].
type Stock struct {
	Of    ItemKind `json:"of"` // StockShimItem or PieceItem
	ID    string   `json:"id"`
	Count int      `json:"count"`
	Moved int      `json:"moved"` // by how much it last changed; the counts are the sum of these
}

// Move changes how many of something there are: by so many more, or fewer.
type Move struct {
	Of ItemKind
	ID string
	By int
}

// MoveShims returns the move of a kind of shim, MoveSpring that of a single spring: −1 scraps it and +1
// takes that back.
func MoveShims(id string, by int) Move { return Move{StockShimItem, id, by} }

// MoveSpring is the move of a single spring.
func MoveSpring(tag string, by int) Move { return Move{PieceItem, tag, by} }

// StockedAt is the count of something without a [Stock].
func StockedAt(of ItemKind) int {
	if of == PieceItem {
		return 1
	}
	return 0
}

func doubtStockShim(s StockShim) *say.Error {
	name := say.New("stock.shim", written(s.Thickness))
	of := func(key string, q *unit.Quantity) size { return size{say.New("record.size."+key, name), q, key} }
	err := sized(of("thickness", &s.Thickness), of("thickness", s.Measured), of("outside", s.Outside), of("inside", s.Inside))
	switch {
	case err != nil:
		return err
	case s.Inside != nil && s.Outside != nil && s.Inside.Value >= s.Outside.Value:
		return invalid("record.inside", name, written(*s.Inside), written(*s.Outside)).About("inside")
	case s.Under != UnderLocator && s.Under != UnderOuter:
		return invalid("stock.under", name).About("under")
	case s.Gauge != "" && s.Measured == nil:
		return invalid("stock.measured", name).About("measured")
	}
	return nil
}
