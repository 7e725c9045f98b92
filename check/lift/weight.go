package lift

import (
	"fmt"
	"math"
)

// Units of weight and density. A caller in inches has pounds, one in millimetres kilograms.
const (
	CubicInchesInFoot       = 1728.0
	CubicMillimetresInMetre = 1e9

	kilogramInPounds = 1 / .45359237 // exact by definition of the pound
	metreInFeet      = 1 / .3048     // exact by definition of the foot
)

// Pounds is the weight of a volume in cubic inches at a density in pounds per cubic foot.
func Pounds(cubicInches, poundsPerCubicFoot float64) (float64, error) {
	return weight(cubicInches, poundsPerCubicFoot, CubicInchesInFoot)
}

// Kilograms is the weight of a volume in cubic millimetres at a density in kilograms per
// cubic metre.
func Kilograms(cubicMillimetres, kilogramsPerCubicMetre float64) (float64, error) {
	return weight(cubicMillimetres, kilogramsPerCubicMetre, CubicMillimetresInMetre)
}

func weight(volume, density, cube float64) (float64, error) {
	if !(volume >= 0) || !(density >= 0) || math.IsInf(volume+density, 0) {
		return 0, fmt.Errorf("volume %g at density %g, want zero or more of each", volume, density)
	}
	return volume * density / cube, nil
}

// DensityOfPanel is the density in pounds per cubic foot of a panel that weighs some
// kilograms per square metre at a thickness in millimetres.
func DensityOfPanel(kilogramsPerSquareMetre, thickness float64) (float64, error) {
	if !(kilogramsPerSquareMetre >= 0) || !(thickness > 0) {
		return 0, fmt.Errorf("%g kg/m2 at %g mm, want zero or more and a thickness above zero", kilogramsPerSquareMetre, thickness)
	}
	cubicFeet := metreInFeet * metreInFeet * metreInFeet
	return kilogramsPerSquareMetre / thickness * 1000 * kilogramInPounds / cubicFeet, nil
}

// Crew is how many people a weight takes at so much per head, at least one.
func Crew(weight, perHead float64) (int, error) {
	if !(weight >= 0) || !(perHead > 0) || math.IsInf(weight, 0) {
		return 0, fmt.Errorf("weight %g at %g per head, want zero or more and above zero", weight, perHead)
	}
	const dust = 1e-9 // 100 at 50 is two people, whatever the last digit of 100 says
	people := math.Ceil(weight/perHead - dust)
	if people > math.MaxInt32 {
		return 0, fmt.Errorf("weight %g at %g per head is no lift for people", weight, perHead)
	}
	return max(1, int(people)), nil
}
