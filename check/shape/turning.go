package shape

import "math"

// turning is the search for the lean at which a case is widest.
type turning struct {
	left, right Profile
	floor, head float64
	height      float64
}

// lean is a width that goes in at an angle, above zero when the top is to the right.
type lean struct{ angle, width float64 }

// best halves the range of angles and drops each half that cannot beat the best by more
// than the tolerance, as told by how fast the width can change with the angle.
func (t turning) best(most, steep float64) lean {
	tolerance := 5e-5 * t.height
	best := lean{0, t.width(0)}
	widest := best.width + 2*(1+steep)*t.height // no lean is wider than this
	rate := 1.5 * (2*(1+steep)*(t.height+widest) + widest)
	var search func(low, high float64)
	search = func(low, high float64) {
		middle := (low + high) / 2
		between := t.between(middle)
		if w := min(between, t.underHead(middle)); w > best.width {
			best = lean{middle, w}
		}
		// What the head leaves falls and then rises again with the angle, so it is most at an end.
		bound := min(between+rate*(high-low)/2, max(t.underHead(low), t.underHead(high)))
		if bound <= best.width+tolerance {
			return
		}
		search(low, middle)
		search(middle, high)
	}
	search(-most, 0)
	search(0, most)
	return best
}

// width is the widest case at an angle.
func (t turning) width(angle float64) float64 {
	return min(t.between(angle), t.underHead(angle))
}

// underHead is the width at which the highest corner meets the head.
func (t turning) underHead(angle float64) float64 {
	if angle == 0 {
		return math.Inf(1)
	}
	return (t.head - t.floor - t.height*math.Cos(angle)) / math.Sin(math.Abs(angle))
}

// between is the widest case that the sides admit at an angle. One that leans to the right
// stands on its right foot; it is worked as the mirror image of one that leans to the left.
func (t turning) between(angle float64) float64 {
	left, right := t.left, t.right
	if angle > 0 {
		left, right = t.right.turnedOver(), t.left.turnedOver()
	}
	sin, cos := math.Sincos(math.Abs(angle))
	foot := t.touch(left, t.floor, sin, cos, math.Max)
	room := func(width float64) float64 {
		return t.touch(right, t.floor+width*sin, sin, cos, math.Min) - foot - width*cos
	}
	if room(0) < 0 {
		return 0
	}
	most := 1.0
	for room(most) >= 0 {
		most *= 2
	}
	return root(func(width float64) float64 { return -room(width) }, 0, most)
}

// touch is the place of the foot of a leaning side, at the height up, when it just touches
// the profile: the largest or least of the profile, moved back along the lean.
func (t turning) touch(p Profile, up, sin, cos float64, pick func(a, b float64) float64) float64 {
	end := up + t.height*cos
	at := pick(p.at(up), p.at(end)+t.height*sin)
	for _, r := range p {
		if r.Along > up && r.Along < end {
			at = pick(at, r.Off+(r.Along-up)/cos*sin)
		}
	}
	return at
}
