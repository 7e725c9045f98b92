package moisture

import "fmt"

// The straight line of Growth is good from LeastLinear to MostLinear per cent of moisture;
// outside, a caller must say that it is stretched, or take GrowthByShrinkage.
const (
	LeastLinear = 6.0
	MostLinear  = 14.0
)

// saturated is the moisture in per cent above which wood no longer swells.
const saturated = 30.0

// Growth is how much a width grows, in its own unit, from moisture m1 to m2 in per cent, for
// a coefficient c per one per cent: size*c*(m2-m1); below zero it shrinks. For wood c is CT
// flat sawn and CR quarter sawn; for panels it is the movement in plane or in thickness.
//
// Error: a width or coefficient below zero, a moisture outside 0 to 30 per cent.
//
// Source: Wood Handbook, FPL-GTR-190, equation 13-2.
func Growth(size, c, m1, m2 float64) (float64, error) {
	if !(size >= 0) || !(c >= 0) {
		return 0, fmt.Errorf("width %g and coefficient %g, want zero or more", size, c)
	}
	if err := moistures(m1, m2); err != nil {
		return 0, err
	}
	return size * c * (m2 - m1), nil
}

// GrowthByShrinkage is Growth over a wide range of moisture, from the total shrinkage s in
// per cent, green to oven dry: size*(m2-m1)/(3000/s-30+m1). It differs from the straight line
// by 1 or 2 per cent within the line's range.
//
// Error: a width below zero, a shrinkage outside 0 to 30, both left out, a moisture outside
// 0 to 30 per cent.
//
// Source: Wood Handbook, FPL-GTR-190, equation 13-3 (form; shrinkage in Table 4-3).
func GrowthByShrinkage(size, s, m1, m2 float64) (float64, error) {
	if !(size >= 0) {
		return 0, fmt.Errorf("width %g, want zero or more", size)
	}
	if err := shrinks(s); err != nil {
		return 0, err
	}
	if err := moistures(m1, m2); err != nil {
		return 0, err
	}
	return size * (m2 - m1) / (3000/s - saturated + m1), nil
}

// GrowthByHumidity is how much a panel grows, in its own unit, from relative humidity h1 to
// h2, for a coefficient c per one per cent of humidity, where a source gives the movement by
// the air and not by the moisture of the panel.
//
// Error: a size or coefficient below zero, a humidity outside 0 to 1.
func GrowthByHumidity(size, c, h1, h2 float64) (float64, error) {
	if !(size >= 0) || !(c >= 0) {
		return 0, fmt.Errorf("size %g and coefficient %g, want zero or more", size, c)
	}
	if !(h1 >= 0 && h1 <= 1 && h2 >= 0 && h2 <= 1) {
		return 0, fmt.Errorf("relative humidity %g to %g, want 0 to 1", h1, h2)
	}
	return size * c * 100 * (h2 - h1), nil
}

// Coefficient is the movement for one per cent of moisture that a total shrinkage of s per
// cent stands for, at 10 per cent moisture: 1/(3000/s-20).
//
// Error: a shrinkage outside 0 to 30, both left out.
//
// Source: derived from equation 13-3 of the Wood Handbook, FPL-GTR-190; reproduces the
// coefficients of its Table 13-5 from the shrinkage of its Table 4-3.
func Coefficient(s float64) (float64, error) {
	if err := shrinks(s); err != nil {
		return 0, err
	}
	return 1 / (3000/s - 20), nil
}

// CoefficientCedar is Coefficient for the cedars, which swell only up to 22 per cent:
// 1/(2200/s-12) (from memory).
func CoefficientCedar(s float64) (float64, error) {
	if err := shrinks(s); err != nil {
		return 0, err
	}
	return 1 / (2200/s - 12), nil
}

// ClearanceLost is the clearance that a slot in one panel loses to a panel of thickness t
// that stands in it when both take up dm per cent of moisture: the slot grows in plane, the
// panel in thickness. Coefficients per one per cent; below zero is clearance won.
func ClearanceLost(t, thickness, inPlane, dm float64) (float64, error) {
	if !(t >= 0) || !(thickness >= 0) || !(inPlane >= 0) {
		return 0, fmt.Errorf("thickness %g with coefficients %g and %g, want zero or more", t, thickness, inPlane)
	}
	return t * (thickness - inPlane) * dm, nil
}

func shrinks(s float64) error {
	if !(s > 0 && s < 30) {
		return fmt.Errorf("shrinkage %g per cent, want above 0 and under 30", s)
	}
	return nil
}

func moistures(m ...float64) error {
	for _, v := range m {
		if !(v >= 0 && v <= saturated) {
			return fmt.Errorf("moisture %g per cent, want 0 to 30", v)
		}
	}
	return nil
}
