package check

import (
	"slices"
	"strings"
	"unicode"
)

// JointKind is how two parts meet.
type JointKind string

const (
	CrossLap   JointKind = "cross lap"   // both members cut, the depths share the member
	NotchedLap JointKind = "notched lap" // upright notched at the sides, shelf slotted round the neck
	Dado       JointKind = "dado"
	Groove     JointKind = "groove"
	Rabbet     JointKind = "rabbet"
	CleatJoint JointKind = "cleat"
	Butt       JointKind = "butt"
	Notch      JointKind = "notch" // one member cut, open at one side
	Mitre      JointKind = "mitre"
)

// Joint is one row of a joint schedule, or one kind of crossing that was inferred.
type Joint struct {
	Row      Cell
	Mark     Text
	Into     Text // the part that is slotted or notched
	Enters   Text // the part that goes in
	Kind     JointKind
	Count    Value  // crossings in all
	Width    Value  // of the slot as cut
	DepthIn  Value  // cut into the slotted part
	DepthOf  Value  // cut into the part that goes in; missing for a dado
	Side     Value  // notch depth at each side
	Front    Value  // notch depth at the front
	From     string // the end the positions count from: "bottom", "left", ...
	At       []Value
	Centres  bool    // the positions are centre lines, else lower or left edges
	Far      bool    // the positions are upper or right edges ("to top of shelf")
	Bays     []Value // clear bays as typed, from the named end; a missing one shares what is left ("bal.", "EQ")
	Fit      Text    // snug, slip, loose, or a number
	Fastener Text
	Screws   *Screws // nil when the fastener names none
	Inferred bool
}

// Screws are the screws of one joint: "3 screws #8 x 2 in".
type Screws struct {
	Count  Value  // in each joint
	Gauge  string // "#8", or the thread in mm: "4.5"
	Length Value
}

// Load is one row of a loads tab, or one load that was inferred from a word.
type Load struct {
	Row      Cell
	On       Text // a case or a part; empty for the job
	Kind     Text // books, display, linen, seat, none
	Amount   Value
	Per      LoadPer
	Inferred bool // from words; nobody typed it as a load
}

// LoadPer says what the amount of a load counts by.
type LoadPer string

const (
	PerLength LoadPer = "length" // lb per foot of shelf, or N per metre: converted to the job's line load
	PerArea   LoadPer = "area"   // lb per square foot or kg per square metre, converted likewise
	InAll     LoadPer = "in all" // lb or N on the whole part
	Persons   LoadPer = "persons"
	ByKind    LoadPer = "kind" // the word alone: the standards give the amount
)

// Run is a chain of parts that must fit a measured size.
type Run struct {
	Row       Cell
	Case      Text   // the case whose parts the run names by role; empty if unsaid
	Direction string // "width", "height" or "depth"
	Items     []RunItem
	Fits      Text  // what it must fit: an opening, a liner, the ceiling
	Clearance Value // wanted over the whole run
	Inferred  bool
}

// RunItem is a part of a run, so many times; or a plain length such as a reveal.
type RunItem struct {
	Mark  string
	Count Value
	Plain Value // a length typed in the run itself; missing for a part
	Text  string
}

// Carry is the way from the shop to the place.
type Carry struct {
	Row   Cell
	Stops []Stop
	Crew  Value
	Note  Text     // how the case goes up: "assembled lying, stood up"
	Whole []string // marks or cases that travel assembled
}

// Stop is a place on the way. Length is the inside length of a vehicle or lift, the length
// of a hall or landing; of a corner, Width is the hall before it and Length the hall after.
type Stop struct {
	Row                   Cell
	Kind                  string // vehicle, door, hall, corner, stair, lift
	Name                  Text
	Width, Height, Length Value
	Turn                  bool
}

// house are words for what a house is made of.
var house = strings.Fields(`wall walls stud studs framing blocking joist joists masonry brick concrete wand ständer mauer mur murs
	pared parete muro ściana ściany muur wanden vägg väggen`)

// OfTheHouse reports whether words name a part of the house: a wall, studs, blocking.
func OfTheHouse(text string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if slices.Contains(house, w) {
			return true
		}
	}
	return false
}
