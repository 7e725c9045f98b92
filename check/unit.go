package check

import (
	"math"
	"strconv"

	"dryfit/check/length"
)

// Unit is the kind of a quantity. A job prints it in its own system: in, lb and psi, or mm,
// N and MPa.
type Unit string

const (
	Length    Unit = "length"
	Film      Unit = "film" // a length too small for a fraction: a coat, a spread
	Count     Unit = "count"
	Ratio     Unit = "ratio"
	Share     Unit = "share"
	Pressure  Unit = "pressure" // also a load per area
	LineLoad  Unit = "line load"
	Force     Unit = "force"
	Moment    Unit = "moment"
	Weight    Unit = "weight"  // lb or kg
	Density   Unit = "density" // weight of a volume: lb/in3 or N/mm3
	Inertia   Unit = "second moment of area"
	Stiffness Unit = "bending stiffness"
	Angle     Unit = "slope" // a length over a length
)

var unitWords = map[Unit][2]string{
	Length: {"in", "mm"}, Film: {"in", "mm"}, Count: {"", ""}, Ratio: {"", ""}, Share: {"", ""}, Angle: {"", ""},
	Pressure: {"psi", "MPa"}, LineLoad: {"lb/in", "N/mm"}, Force: {"lb", "N"},
	Moment: {"lb in", "N mm"}, Weight: {"lb", "kg"}, Density: {"lb/in3", "N/mm3"},
	Inertia: {"in4", "mm4"}, Stiffness: {"lb in2", "N mm2"},
}

// In names the unit in a job's system.
func (u Unit) In(system length.Unit) string {
	w := unitWords[u]
	if system == length.Millimetre {
		return w[1]
	}
	return w[0]
}

// gravity turns newtons into the kilograms that offices type, m/s2: the standard value,
// exact by definition.
const gravity = 9.80665

// Print writes a quantity as the shop reads it: lengths as fractions or to 0.1 mm, films
// in thousandths, loads by the foot or the metre, boards by the cubic foot or metre, shares as whole percents, the rest to three
// figures.
func (u Unit) Print(x float64, system length.Unit) string {
	switch u {
	case Length:
		return length.Format(x, system)
	case Film:
		if system == length.Millimetre {
			return strconv.FormatFloat(x, 'f', 2, 64) + " mm"
		}
		return strconv.FormatFloat(x, 'f', 3, 64) + " in"
	case LineLoad:
		if system == length.Millimetre {
			return figures(x*1000/gravity, 3) + " kg/m"
		}
		return figures(x*12, 3) + " lb/ft"
	case Density:
		if system == length.Millimetre {
			return figures(x*1e9/gravity, 3) + " kg/m3"
		}
		return figures(x*1728, 3) + " lb/ft3"
	case Force, Weight:
		return figures(x, loadFigures(x)) + suffix(u.In(system))
	case Count:
		return strconv.FormatFloat(math.Round(x), 'f', -1, 64)
	case Share:
		return percent(x)
	}
	return figures(x, 3) + suffix(u.In(system))
}

// loadFigures keeps whole pounds, and a tenth below ten of them.
func loadFigures(x float64) int {
	if math.Abs(x) < 100 {
		return 2
	}
	return 3
}

// percent writes a share: what is there is never 0 %, what is not whole never 100 %.
func percent(share float64) string {
	whole := math.Round(share * 100)
	switch {
	case whole == 0 && share > 0:
		return "under 1 %"
	case whole == 100 && share < 1:
		return "over 99 %"
	}
	return strconv.FormatFloat(whole, 'f', -1, 64) + " %"
}

func suffix(unit string) string {
	if unit == "" {
		return ""
	}
	return " " + unit
}

// figures rounds to n significant figures and prints without an exponent.
func figures(x float64, n int) string {
	if x == 0 {
		return "0"
	}
	places := n - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	p := math.Pow(10, float64(places))
	return strconv.FormatFloat(math.Round(x*p)/p, 'f', max(places, 0), 64)
}
