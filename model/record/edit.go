package record

import (
	"strconv"
)

// ItemKind names a kind of thing that is kept, changed and taken away as a whole.
type ItemKind string

// The items of a book. The first group belongs to the book, the second to one set-up.
const (
	ShopItem        ItemKind = "shop"
	ShopRulesItem   ItemKind = "shop-rules"
	OwnerItem       ItemKind = "owner"
	EngineItem      ItemKind = "engine"
	HeadItem        ItemKind = "head"
	SpringItem      ItemKind = "spring"
	PieceItem       ItemKind = "piece"
	RetainerItem    ItemKind = "retainer"
	LocksItem       ItemKind = "locks"
	LocatorItem     ItemKind = "locator"
	SealItem        ItemKind = "seal"
	ValvePartItem   ItemKind = "valve-part"
	GaugeItem       ItemKind = "gauge"
	StudyItem       ItemKind = "study"
	StockShimItem   ItemKind = "stock-shim"
	StockItem       ItemKind = "stock"
	SignedItem      ItemKind = "signed"
	TrustItem       ItemKind = "trust"
	RunItem         ItemKind = "run"
	SpringCheckItem ItemKind = "spring-check"
	TaggedItem      ItemKind = "tagged"
	UsualDayItem    ItemKind = "usual-day"

	SetupItem     ItemKind = "setup" // the set-up without its lists
	PackageItem   ItemKind = "package"
	ValveItem     ItemKind = "valve"
	ReadingItem   ItemKind = "reading"
	SharedItem    ItemKind = "shared"
	SeatWorkItem  ItemKind = "seat-work"
	DeviationItem ItemKind = "deviation"
	CheckItem     ItemKind = "check"
)

// Noun is a thing that can be an item of a book.
type Noun interface {
	ItemKind() ItemKind
	Key() string // unique within its kind, and within its set-up where it belongs to one
}

// Item names one thing in a book. Setup is empty for things that belong to the book.
type Item struct {
	Kind  ItemKind `json:"kind"`
	Setup string   `json:"setup,omitempty"`
	Key   string   `json:"key"`
}

// ItemOf names a noun. Setup is the set-up it belongs to, "" where it belongs to the book; a Setup
// itself belongs to itself.
func ItemOf(setup string, n Noun) Item {
	if s, ok := n.(Setup); ok {
		setup = s.ID
	}
	return Item{n.ItemKind(), setup, n.Key()}
}

// Edit puts one noun in its place, or takes the item away where Noun is nil.
type Edit struct {
	Item  Item
	Noun  Noun
	Fresh bool // nothing is known to be there: what is there all the same is never written over
}

// Put returns the edit that puts a noun in its place.
func Put(setup string, n Noun) Edit { return Edit{Item: ItemOf(setup, n), Noun: n} }

// Remove returns the edit that takes a noun away.
func Remove(setup string, n Noun) Edit { return Edit{Item: ItemOf(setup, n)} }

// Action is what one person did in one go: its edits are kept together or not at all, and undone
// together. Token is made by whoever asks, so that asking twice keeps once. Most actions belong to the
// undo of a set-up; which study a gauge counts with has an undo of its own, named after the gauge.
type Action struct {
	Token string
	Setup string // whose undo it belongs to; "" for the shop's other things, which are not undone
	By    string
	At    Stamp
	Edits []Edit
	Moves []Move // of the shop's stock, kept and undone with the edits
}

// String returns the position as a key: "3/ex/1". A slash in a cylinder's label is not allowed.
func (p Position) String() string {
	return p.Cylinder + "/" + string(p.Role) + "/" + strconv.Itoa(p.N)
}

func (Shop) ItemKind() ItemKind        { return ShopItem }
func (ShopRules) ItemKind() ItemKind   { return ShopRulesItem }
func (Owner) ItemKind() ItemKind       { return OwnerItem }
func (Engine) ItemKind() ItemKind      { return EngineItem }
func (Head) ItemKind() ItemKind        { return HeadItem }
func (Spring) ItemKind() ItemKind      { return SpringItem }
func (SpringPiece) ItemKind() ItemKind { return PieceItem }
func (Retainer) ItemKind() ItemKind    { return RetainerItem }
func (Locks) ItemKind() ItemKind       { return LocksItem }
func (Locator) ItemKind() ItemKind     { return LocatorItem }
func (Seal) ItemKind() ItemKind        { return SealItem }
func (ValvePart) ItemKind() ItemKind   { return ValvePartItem }
func (Gauge) ItemKind() ItemKind       { return GaugeItem }
func (Study) ItemKind() ItemKind       { return StudyItem }
func (StockShim) ItemKind() ItemKind   { return StockShimItem }
func (Stock) ItemKind() ItemKind       { return StockItem }
func (Setup) ItemKind() ItemKind       { return SetupItem }
func (Package) ItemKind() ItemKind     { return PackageItem }
func (Valve) ItemKind() ItemKind       { return ValveItem }
func (Reading) ItemKind() ItemKind     { return ReadingItem }
func (Shared) ItemKind() ItemKind      { return SharedItem }
func (SeatWork) ItemKind() ItemKind    { return SeatWorkItem }
func (Deviation) ItemKind() ItemKind   { return DeviationItem }
func (Check) ItemKind() ItemKind       { return CheckItem }

func (Shop) Key() string          { return "shop" }
func (n ShopRules) Key() string   { return string(n.Length) }
func (n Owner) Key() string       { return n.ID }
func (n Engine) Key() string      { return n.ID }
func (n Head) Key() string        { return n.ID }
func (n Spring) Key() string      { return n.ID }
func (n SpringPiece) Key() string { return n.Tag }
func (n Retainer) Key() string    { return n.ID }
func (n Locks) Key() string       { return n.ID }
func (n Locator) Key() string     { return n.ID }
func (n Seal) Key() string        { return n.ID }
func (n ValvePart) Key() string   { return n.ID }
func (n Gauge) Key() string       { return n.ID }
func (n Study) Key() string       { return n.ID }
func (n StockShim) Key() string   { return n.ID }
func (n Stock) Key() string       { return string(n.Of) + "/" + n.ID }
func (n Setup) Key() string       { return n.ID }
func (n Package) Key() string     { return string(n.Role) }
func (n Valve) Key() string       { return n.At.String() }
func (n Shared) Key() string      { return string(n.Kind) + "/" + string(n.Role) }
func (n SeatWork) Key() string    { return n.ID }
func (n Deviation) Key() string   { return n.ID }
func (n Check) Key() string       { return n.ID }

// Key of a reading is position, coil, kind and count: "3/ex/1/2/bind/1".
func (n Reading) Key() string {
	// A table of thousands of readings asks for it millions of times.
	return n.At.String() + "/" + strconv.Itoa(n.Coil) + "/" + string(n.Kind) + "/" + strconv.Itoa(n.N)
}
