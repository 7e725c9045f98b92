package inputs

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfit/check"
	"dryfit/check/shape"
)

const carryName = "carry"

// stop is a usual place on the way, and which of its sizes matter.
type stop struct {
	name, kind             string
	wide, high, long, turn part
}

var stops = []stop{
	{"Truck", "vehicle", wanted, wanted, wanted, off},
	{"Front door", "door", wanted, wanted, off, off},
	{"Hall", "hall", wanted, maybe, maybe, maybe},
	{"Corner", "corner", maybe, maybe, maybe, off},
	{"Stair", "stair", maybe, maybe, off, maybe},
	{"Lift", "lift", maybe, maybe, maybe, off},
	{"Inner door", "door", wanted, wanted, off, off},
}

// uncarried reports whether nobody measured the way in.
func (s *survey) uncarried() bool { return s.Carry == nil || len(s.Carry.Stops) == 0 }

// carryTab asks for the way in; nil where somebody measured it.
func (s *survey) carryTab() *tab {
	if !s.uncarried() {
		return nil
	}
	var rows []row
	for _, st := range stops {
		rows = append(rows, row{key: st.name, cells: []cell{{st.name, told}, {st.kind, told}, {"", st.wide}, {"", st.high}, {"", st.long}, {"", st.turn}, {"", maybe}}})
	}
	return &tab{name: carryName, title: "Carry", rows: rows, spare: 5,
		tells: []string{"From the shop to the place, in the order you walk it. Clear sizes: between the stops, the leaf open as it will be.",
			"Leave empty what is not on the way; add what is. Of a corner: width, the hall before it; length, the hall behind it."},
		above: []line{
			{label: "Crew", part: wanted, list: []string{"1", "2", "3", "4"}, hint: "people who carry, the driver too"},
			{label: "It goes up", part: maybe, list: []string{"assembled lying and stood up", "put together in the opening"}},
		},
		columns: []column{
			{head: "stop", key: true, width: 20, spare: maybe, note: "A name with the word for it: truck, front door, hall, corner, stair, lift."},
			{head: "kind", width: 16, spare: maybe, list: []string{"vehicle", "door", "hall", "corner", "stair", "lift"}, note: "What it is."},
			{head: "clear width (" + s.unit() + ")", width: 12, spare: maybe, note: "At its narrowest: between door stops, handrails, arches of the vehicle."},
			{head: "clear height (" + s.unit() + ")", width: 12, spare: maybe, note: "At its lowest: under the door stop, over the nosing of the stair."},
			{head: "length (" + s.unit() + ")", width: 12, spare: maybe, note: "Inside length of a vehicle or lift; of a hall if it is short; of a corner the hall behind it."},
			{head: "turn", width: 8, spare: maybe, list: []string{"yes", "no"}, note: "yes where the way turns in it."},
			{head: "note", width: 20, spare: maybe, note: "For people; or what goes in one piece, such as: Nook goes whole."},
		}}
}

// piece is the part that is hardest to carry.
type piece struct {
	name, size       string
	long, wide, thin float64
}

// biggest is the piece with the greatest length and width together.
func (s *survey) biggest() piece {
	var most piece
	for _, p := range s.Pieces() {
		if p.FitOnSite() || !p.Length.Known || !p.Width.Known || !p.Thickness.Known {
			continue
		}
		sides := []float64{p.Length.Nominal, p.Width.Nominal, p.Thickness.Nominal}
		slices.SortFunc(sides, func(a, b float64) int { return cmp.Compare(b, a) })
		if sides[0]+sides[1] > most.long+most.wide && sides[2] > 0 {
			most = piece{name: p.Name(), long: sides[0], wide: sides[1], thin: sides[2],
				size: fmt.Sprintf("%s x %s x %s", s.Len(sides[0]), s.Len(sides[1]), s.Len(sides[2]))}
		}
	}
	return most
}

// callAt is what turns at a kind of stop for the largest piece, carried on edge; "" for nothing.
func (s *survey) callAt(kind string, p piece) string {
	if p.name == "" {
		return ""
	}
	switch kind {
	case "vehicle":
		return "call if its length is under " + s.figure(p.long, math.Ceil)
	case "door", "hall", "stair":
		if 2*p.wide < s.Standard("door", "room door", "height", check.Length).Low {
			return "" // no way is so low
		}
		return "call if the height is under " + s.figure(p.wide, math.Ceil)
	case "lift":
		return "call if its inside diagonal is under " + s.figure(p.long, math.Ceil)
	}
	hall, ok := leastCorner(p)
	if !ok || hall < s.Standard("door", "room door", "width", check.Length).Low {
		return ""
	}
	return "call if both halls are under " + s.figure(hall, math.Ceil)
}

// leastCorner is the least width of two equal halls round whose corner a piece turns on edge.
func leastCorner(p piece) (float64, bool) {
	low, high := p.thin, 2*p.long
	for range 60 {
		mid := (low + high) / 2
		longest, _, err := shape.Corner{From: mid, To: mid}.Turned(p.thin)
		if err == nil && longest >= p.long {
			high = mid
		} else {
			low = mid
		}
	}
	return high, high < 2*p.long
}
