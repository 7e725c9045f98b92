package shape

import "math"

// Through says whether a section p by q goes through a hole a by b, square to both, on the
// slant if need be; also whether a footprint stands in a lift car. Exact.
//
// Error: a side that is no length.
//
// Source: rectangle in rectangle, J. E. Carver, Amer. Math. Monthly 64 (1957) (from memory): with
// p >= q and a >= b, p <= a and q <= b, or p > a, q <= b and
// ((a+b)/(p+q))^2+((a-b)/(p-q))^2 >= 2.
func Through(p, q, a, b float64) (bool, error) {
	if err := positive("side", p, q, a, b); err != nil {
		return false, err
	}
	p, q = max(p, q), min(p, q)
	a, b = max(a, b), min(a, b)
	switch {
	case q > b:
		return false, nil
	case p <= a:
		return true, nil
	}
	return balance(p, q, a, b) >= 2, nil
}

// balance falls as p grows; at 2 all four corners of the section touch.
func balance(p, q, a, b float64) float64 {
	sum, difference := (a+b)/(p+q), (a-b)/(p-q)
	return sum*sum + difference*difference
}

// Slanted is the width of the panel of thickness q whose four corners touch the sides of the
// hole a by b. Exact to the last digits.
//
// Error: a side that is no length; a thickness above the lesser side.
func Slanted(q, a, b float64) (float64, error) {
	if err := positive("side", q, a, b); err != nil {
		return 0, err
	}
	a, b = max(a, b), min(a, b)
	if q > b {
		return 0, tooThick(q, b)
	}
	if a == b {
		return math.Sqrt2*a - q, nil
	}
	return root(func(p float64) float64 { return 2 - balance(p, q, a, b) }, q, a+b), nil
}

// WidestPanel is the widest panel of thickness q that goes through the hole a by b, upright
// or on the slant. Exact to the last digits.
//
// Error: as Slanted.
func WidestPanel(q, a, b float64) (width float64, upright bool, err error) {
	slanted, err := Slanted(q, a, b)
	if err != nil {
		return 0, false, err
	}
	if long := max(a, b); long >= slanted {
		return long, true, nil
	}
	return slanted, false, nil
}

// LeastHole is the least second side of a hole with one side a through which a section p by
// q goes. Exact to the last digits, on the side that passes.
//
// Error: a side that is no length; a hole of a by any width that leaves the section out.
func LeastHole(p, q, a float64) (float64, error) {
	if err := positive("side", p, q, a); err != nil {
		return 0, err
	}
	p, q = max(p, q), min(p, q)
	if q > a {
		return 0, tooThick(q, a)
	}
	short := func(b float64) float64 {
		if ok, _ := Through(p, q, a, b); ok {
			return 1
		}
		return -1
	}
	b := root(short, q/2, p)
	if ok, _ := Through(p, q, a, b); !ok {
		b = math.Nextafter(b, math.Inf(1))
	}
	return b, nil
}

// LongRod is the longest thin rod in a box, corner to corner: a bound for a thin strip, never
// a proof for a panel.
func LongRod(a, b, c float64) (float64, error) {
	return math.Hypot(math.Hypot(a, b), c), positive("side", a, b, c)
}
