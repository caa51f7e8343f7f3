// Package record holds the nouns of the trade as this program writes them down.
//
//	Book
//	├── Shop                      who keeps the book
//	├── ShopRules                 what the shop set in the place of common practice; a set-up begins with a copy
//	├── Owner                     whose engines they are
//	├── Engine                    belongs to an owner
//	│   └── Head                  one bank: its cylinders, its valves in order from the front mark
//	│       └── Setup             as found or as built; names the one it replaces
//	│           ├── Package       per role: spring, retainer, locks, locator, seal, valve, margins, card, bands of loads
//	│           ├── Valve         per position: shim stack, and parts that differ from the package
//	│           ├── Reading       what a gauge said, at one position, never rewritten
//	│           ├── Shared        "lift of the intakes was taken from 1 in"
//	│           ├── SeatWork      how far a seat was cut after readings were taken
//	│           ├── Deviation     a finding that somebody accepted, with the reason
//	│           └── Check         work of the job that this shop did, or did not do
//	├── Spring                    a type: its coils from the outermost, or all of it as one assembly
//	│   └── Coil                  bind, loads at heights, wire, turns and diameters
//	├── SpringPiece               a spring in the hand, by the tag on its bag: its own binds and loads
//	├── Retainer, Locks, Locator, Seal, ValvePart     the shop's other parts, with the sizes by which they fit
//	├── Gauge                     with the standing setting it reads under, its step, its calibration
//	├── Trust                     a certificate whose signatures the shop takes for its owner's
//	├── StockShim                 a kind of shim on the shelf
//	├── Stock                     how many of it there are, or whether a single spring was scrapped; in no record
//	├── Signed                    that a set-up was signed, and the sheet that was
//	└── Study                     readings of one thing on one gauge: how well it repeats
//
// A [Record] is one set-up together with everything it refers to. It is what is evaluated, printed,
// exported and, once signed, kept for ever as bytes.
//
// The nouns are plain data. They do not compute, they know no file, no clock and no screen. Texts in
// JSON are strings and whole numbers only; what is not known is absent, never null or zero.
package record
