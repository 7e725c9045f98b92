// Package opening asks whether what was made goes into the room as it was measured.
package opening

import (
	"fmt"

	"dryfit/check"
)

// placeOf finds the opening in which a case stands: by name, or because there is one case
// and one opening.
func placeOf(j *check.Job, c check.Case) *check.Opening {
	for _, o := range j.Openings {
		if c.Is(o.Name.Text) {
			return o
		}
	}
	if len(j.Openings) == 1 && len(boxes(j)) == 1 {
		return j.Openings[0]
	}
	return nil
}

// boxes are the cases that stand in an opening: those with sides, decks or a liner, not a
// lone heap of shelves.
func boxes(j *check.Job) []check.Case {
	var out []check.Case
	for _, c := range j.Cases() {
		if len(c.Role(check.Side)) > 0 {
			out = append(out, c)
		}
	}
	return out
}

// closeness is how far a reading may be off: as the form says, else by who measured, or
// that nobody was there.
func closeness(j *check.Job, o *check.Opening, readings int) float64 {
	if o.Within.Known {
		return o.Within.Nominal
	}
	item := "measurer not named"
	switch {
	case o.Poor:
		item = "from a drawing"
	case readings == 1:
		item = "one reading"
	case o.By.Text != "":
		item = "tape"
	}
	return j.Standard("site", item, "reading", check.Length).Nominal
}

// measured is the smallest of some readings with the range it could have.
func measured(j *check.Job, o *check.Opening, rs []check.Reading, what string) check.Value {
	least, ok := check.Smallest(rs)
	if !ok {
		return check.Missing(check.Ask{Cell: o.Row, What: "the " + what + " of " + o.Name.Text})
	}
	v := least.Value.PlusMinus(closeness(j, o, len(rs)))
	if len(rs) > 1 && least.At != "" {
		v.Why = "smallest of " + fmt.Sprint(len(rs)) + " readings, at the " + least.At
	}
	return v
}

// toCome is the finish that will still be put on a surface after the measuring, times the
// surfaces that it is put on.
func toCome(o *check.Opening, on string, times float64) check.Value {
	for _, f := range o.ToCome {
		if f.On == on && f.Thickness.Known {
			v := f.Thickness.Scale(times)
			v.Why = f.Text.Text
			return v
		}
	}
	return check.Exact(0)
}
