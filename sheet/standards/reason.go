package standards

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check/standard"
)

// far is how many times outside the built-in range a value may be before it counts as a
// slip: a wrong unit is off by 10 at least, shops differ by less than 5.
const far = 5.0

// unreasonable says what is wrong with a value that cannot be meant, or "". The entry and
// the built-in one are in the same unit.
func unreasonable(e, built standard.Entry) string {
	switch {
	case !finite(e.Low) || !finite(e.Nominal) || !finite(e.High):
		return "a finite number wanted"
	case e.Nominal < 0 && built.Low >= 0:
		return "a value not below zero wanted"
	case e.Nominal == 0 && neverZero(e):
		return "a value above zero wanted"
	case strings.Contains(e.Property, "share") && e.Nominal > 1.5*math.Max(1, built.High):
		return "a share wanted, from 0 to 1" + suggestion(e, built)
	}
	scale := math.Max(math.Abs(built.Low), math.Abs(built.High))
	if scale == 0 || e.Nominal == 0 {
		return ""
	}
	low, high := built.Low/far, built.High*far
	if built.Low <= 0 {
		low, high = -scale*far, scale*far
	}
	if e.Nominal < low || e.Nominal > high {
		return fmt.Sprintf("far outside the built-in %s to %s %s%s", short(built.Low), short(built.High), built.Unit, suggestion(e, built))
	}
	return ""
}

// suggestion names a unit in which the number would make sense.
func suggestion(e, built standard.Entry) string {
	for _, u := range standard.Units() {
		other := e
		other.Unit = u
		in, err := other.In(built.Unit)
		if err == nil && u != e.Unit && in.Nominal >= built.Low*0.8 && in.Nominal <= built.High*1.25 {
			return fmt.Sprintf("; it would make sense with the unit %q", u)
		}
	}
	if built.Unit == "in" && e.Nominal > 36500 && e.Nominal < 60000 {
		return "; the spreadsheet seems to have made a date of a fraction: type it as 0.75 or with a blank before it"
	}
	return ""
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// neverZero reports whether a thing of this kind cannot be nothing.
func neverZero(e standard.Entry) bool {
	return slices.Contains([]string{"material", "panel", "lumber", "thickness", "creep", "duration",
		"vehicle", "door", "crew", "fastener"}, e.Group) || e.Property == "step" || e.Property == "span over"
}

// kin is a stand-in for a value that is not built in: the range of all built-in ones with
// the same group and property, in the given unit. ok is false when there are none.
func kin(group, property, unit string) (standard.Entry, bool) {
	var all standard.Entry
	found := false
	for _, e := range standard.BuiltIn().Entries() {
		same := e.Property == property || group == "thickness" && e.Unit == unit
		if e.Group != group || !same {
			continue
		}
		in, err := e.In(unit)
		if err != nil {
			continue
		}
		if !found {
			all, found = in, true
			continue
		}
		all.Low, all.High = math.Min(all.Low, in.Low), math.Max(all.High, in.High)
	}
	return all, found
}

// short prints a number for a message.
func short(x float64) string { return fmt.Sprintf("%.5g", x) }
