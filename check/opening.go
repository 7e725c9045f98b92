package check

// Opening is one place as it was measured.
type Opening struct {
	Row        Cell
	Name       Text
	Widths     []Reading // floor first
	Heights    []Reading // left first
	Depths     []Reading
	Diagonals  []Reading // named by their ends, such as "LB-RT"
	Leans      []Lean
	Ceiling    Value
	ToCome     []ToCome // finish still to come
	Settled    []string // surfaces said to be finished when measured: "floor", "walls", "ceiling"
	Base       Value    // height of the baseboard, 0 for none
	BaseThick  Value
	Crown      Value // height of the crown moulding, 0 for none
	CrownThick Value
	Obstacles  []Obstacle
	By, When   Text
	Within     Value // how closely it was measured, if the form says
	Poor       bool  // one reading each, from a drawing, or marked +/-
}

// Reading is one measured length of an opening.
type Reading struct {
	At    string // "floor", "middle", "top", "left", "right", or as typed
	Place Value  // height or distance of the reading, if given
	Value Value
	Word  Text // what the form says of it: "tight", "bow", "hump", "VIF"
}

// Lean is a measured offset over a length: a side out of plumb, a floor out of level.
type Lean struct {
	Of     string // "left", "right", "back", "floor", "head", "floor, front to back", "left corner", "right corner"
	Offset Value  // positive: leans away from the opening, slopes down to the right, opens past square
	Over   Value  // over this length; missing if nobody said
	Text   Text
}

// ToCome is a finish that is still to come after the measuring.
type ToCome struct {
	On        string // "floor", "walls", "ceiling"
	Thickness Value
	Text      Text
}

// Obstacle is something in the way: an outlet, a vent, a thermostat.
type Obstacle struct {
	Kind          string
	On            string // "floor", "left", "right", "ceiling"; empty for the back wall
	X, Y          Value  // from the left side and from the floor
	FromRight     bool   // X counts from the right side
	Width, Height Value
	Text          Text
}

// Smallest returns the smallest of some readings by nominal, and false if there is none.
func Smallest(rs []Reading) (Reading, bool) {
	var least Reading
	found := false
	for _, r := range rs {
		if r.Value.Known && (!found || r.Value.Nominal < least.Value.Nominal) {
			least, found = r, true
		}
	}
	return least, found
}
