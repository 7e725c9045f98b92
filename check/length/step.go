package length

import "math"

// Direction is the side to which a size is rounded.
type Direction int

// The directions of rounding.
const (
	Nearest Direction = iota // for a figure that is only shown
	Down                     // for a size that may only become smaller
	Up                       // for a size that may only become larger
)

// Step rounds a value to whole cutting steps, 1/32 in or 0.5 mm, in the unit of both. A
// value within a millionth of a step is on it, so that arithmetic dust never moves a cut.
// A step of zero or less leaves the value as it is.
func Step(value, step float64, side Direction) float64 {
	if step <= 0 {
		return value
	}
	steps := value / step
	whole := math.Round(steps)
	if math.Abs(steps-whole) > 1e-6 {
		switch side {
		case Down:
			whole = math.Floor(steps)
		case Up:
			whole = math.Ceil(steps)
		}
	}
	if parts := 1 / step; parts == math.Round(parts) {
		return whole / parts // exact for 0.1 as for 1/32
	}
	return whole * step
}
