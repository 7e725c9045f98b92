package opening

import (
	"strings"

	"dryfit/check"
)

// ledgeRows are the shelves that lie on cleats from wall to wall, with no case around them,
// against the width of their opening. Where no opening was measured nothing is asked: the wall
// is where the shelf is. A case told of by a typed run is left to it.
func ledgeRows(j *check.Job, told map[string]bool) []check.Row {
	var out []check.Row
	for _, c := range j.Cases() {
		place := ledgePlace(j, c)
		if place == nil || len(place.Widths) == 0 || told[c.Label()] {
			continue
		}
		for _, p := range c.Role(check.Shelf) {
			if !p.Length.Known || scribed(p) {
				continue
			}
			var run chain
			run.add(p, p.Length, 1)
			r := sizeRow(j, c, place, run, inWidth)
			r.Cause = "shelf on cleats " + p.Name()
			r.In["g"] = none("a shelf on cleats may touch both walls")
			out = append(out, r)
		}
	}
	return out
}

// ledgePlace is the opening of a case that is nothing but shelves on cleats, nil for any other.
func ledgePlace(j *check.Job, c check.Case) *check.Opening {
	box := c.Role(check.Side, check.Upright, check.Divider, check.Deck, check.Head, check.Sill)
	if len(box) > 0 || len(c.Role(check.Cleat, check.Ledger)) == 0 {
		return nil
	}
	if o := placeOf(j, c); o != nil {
		return o
	}
	if len(j.Openings) == 1 && len(j.Cases()) == 1 {
		return j.Openings[0]
	}
	return nil
}

// scribed reports whether words say that a part is left too long on purpose.
func scribed(p *check.Part) bool {
	words := strings.ToLower(p.Description.Text + " " + p.Note.Text)
	for _, w := range []string{"scrib", "cut on site", "trim", "to fit", "vif", "anpassen", "ajust", "adaptar"} {
		if strings.Contains(words, w) {
			return true
		}
	}
	return false
}
