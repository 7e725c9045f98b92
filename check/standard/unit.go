package standard

import (
	"fmt"
	"slices"
)

// unit is what a unit measures and how many of the base unit it is.
type unit struct {
	measures string
	factor   float64
}

const (
	inch       = 25.4                 // mm, exact
	poundForce = 4.4482216152605      // N, exact
	kilogram   = 9.80665              // N under standard gravity, exact
	foot       = 12 * inch            // mm
	cubicFoot  = foot * foot * foot   // mm3
	cubicMetre = 1000 * 1000 * 1000.0 // mm3
)

// Weights and forces share a base: a pound or kilogram presses with its own weight under
// standard gravity, so a load in lb/ft turns into N/mm and a density into N/mm3.
var units = map[string]unit{
	"in": {"length", inch}, "ft": {"length", foot}, "mil": {"length", inch / 1000},
	"mm": {"length", 1}, "cm": {"length", 10}, "m": {"length", 1000},

	"psi": {"pressure", poundForce / (inch * inch)}, "psf": {"pressure", poundForce / (foot * foot)},
	"MPa": {"pressure", 1}, "kPa": {"pressure", 1e-3}, "N/mm2": {"pressure", 1}, "kg/m2": {"pressure", kilogram / 1e6},

	"lb": {"force", poundForce}, "kg": {"force", kilogram}, "N": {"force", 1}, "kN": {"force", 1000},

	"lb/ft": {"force per length", poundForce / foot}, "lb/in": {"force per length", poundForce / inch},
	"N/mm": {"force per length", 1}, "N/m": {"force per length", 1e-3}, "kg/m": {"force per length", kilogram / 1000},

	"lb/ft3": {"weight per volume", poundForce / cubicFoot}, "lb/in3": {"weight per volume", poundForce / (inch * inch * inch)},
	"kg/m3": {"weight per volume", kilogram / cubicMetre}, "N/mm3": {"weight per volume", 1},

	"1": {"ratio", 1}, "%": {"ratio", 0.01}, "in/ft": {"ratio", 1.0 / 12}, "mm/m": {"ratio", 1e-3},

	"1/%": {"ratio per moisture content", 1}, // change of size over size, per 1 % of moisture content
	"D":   {"diameters of the fastener", 1},
}

// Units lists every unit a value may be in, in alphabetical order.
func Units() []string {
	names := make([]string, 0, len(units))
	for u := range units {
		names = append(names, u)
	}
	slices.Sort(names)
	return names
}

// Measures says what a unit measures ("length", "pressure", ...), and false for no unit
// of ours.
func Measures(name string) (string, bool) {
	u, ok := units[name]
	return u.measures, ok
}

// In returns the entry in another unit of the same kind: psi and MPa, in and mm and mil,
// lb/ft3 and kg/m3, lb/ft and N/mm, psf and kg/m2 and MPa, lb and kg and N, in/ft and mm/m.
// It fails when either unit is unknown or the two measure different things.
func (e Entry) In(to string) (Entry, error) {
	if e.Unit == to {
		return e, nil
	}
	a, known := units[e.Unit]
	if !known {
		return e, fmt.Errorf("%s: unit %q is none of the standards", e.Name(), e.Unit)
	}
	b, known := units[to]
	if !known {
		return e, fmt.Errorf("%s: unit %q is none of the standards", e.Name(), to)
	}
	if a.measures != b.measures {
		return e, fmt.Errorf("%s: %s is a %s and %s a %s", e.Name(), e.Unit, a.measures, to, b.measures)
	}
	k := a.factor / b.factor
	e.Low, e.Nominal, e.High, e.Unit = e.Low*k, e.Nominal*k, e.High*k, to
	return e, nil
}
