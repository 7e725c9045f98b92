package beam

import (
	"math"
	"sort"
)

// Result is the beam under its loads.
type Result struct {
	Reactions []float64 // up, in the order of Beam.Supports; 0 where the beam lifted off
	Turning   []float64 // moment by which a fixed support holds the beam, as the moment grows to its right
	Lifted    []bool    // supports that the beam lifted off
	length    float64
	bays      [][2]float64
	pieces    []curve
}

// curve is the beam over one element, by values at its left end.
type curve struct {
	element
	sag, slope    float64 // slope of bending alone; shear is added on top
	moment, shear float64
}

// Extreme is the largest value of a quantity and where it stands.
type Extreme struct{ Value, At float64 }

// Extremes are the largest values over a stretch of the beam. Rise and Hogging are positive
// where the beam rises or hogs; a negative one says that it nowhere does.
type Extremes struct {
	From, To         float64
	Sag, Rise        Extreme // down, up
	Sagging, Hogging Extreme // moments
	Shear            Extreme // the largest size, of either sign, as its size
}

// bend integrates the moments to slopes and sags.
func (m *mesh) bend(held []bool, spans []span, ends [][2]float64, st state) *Result {
	r := &Result{
		Reactions: st.reaction,
		Turning:   make([]float64, len(held)),
		Lifted:    make([]bool, len(held)),
		length:    m.beam.Length,
		pieces:    make([]curve, len(m.elements)),
	}
	settled := make([]float64, len(held))
	for i, s := range m.beam.Supports {
		r.Lifted[i] = !held[i]
		if held[i] && s.Stiffness > 0 {
			settled[i] = st.reaction[i] / s.Stiffness
		}
		if !held[i] {
			r.Reactions[i] = 0
		}
	}
	for k, e := range m.elements {
		r.pieces[k] = curve{element: e, moment: st.moment[k], shear: st.shear[k]}
	}
	for i, s := range spans {
		r.bays = append(r.bays, [2]float64{m.node[s.from], m.node[s.to]})
		if s.left >= 0 && m.beam.Supports[s.left].Fixed {
			r.Turning[s.left] += ends[i][0]
		}
		if s.right >= 0 && m.beam.Supports[s.right].Fixed {
			r.Turning[s.right] -= ends[i][1]
		}
	}
	m.hang(r.pieces, spans, settled)
	return r
}

// hang places the curves on the supports: first the spans between two, then what hangs over,
// which goes on with the slope it is given.
func (m *mesh) hang(pieces []curve, spans []span, settled []float64) {
	var slope [2]float64 // over the first and the last support
	first, last := spans[0], spans[len(spans)-1]
	for _, s := range spans {
		if s.left < 0 || s.right < 0 {
			continue
		}
		curves := pieces[s.from:s.to]
		sag, _ := follow(curves, 0, 0)
		start := (settled[s.right] - settled[s.left] - sag) / m.length(s)
		_, end := follow(curves, settled[s.left], start)
		if s.left == first.right {
			slope[0] = start
		}
		if s.right == last.left {
			slope[1] = end
		}
	}
	if first.left < 0 {
		curves, length := pieces[first.from:first.to], m.length(first)
		if m.beam.Supports[first.right].Fixed {
			slope[0] = 0
		}
		sag, turn := follow(curves, 0, 0)
		start := slope[0] - turn
		follow(curves, settled[first.right]-sag-start*length, start)
	}
	if last.right < 0 {
		if m.beam.Supports[last.left].Fixed {
			slope[1] = 0
		}
		follow(pieces[last.from:last.to], settled[last.left], slope[1])
	}
}

// follow lays the curves one behind the other and returns sag and slope at their end.
func follow(curves []curve, sag, slope float64) (endSag, endSlope float64) {
	for i := range curves {
		c := &curves[i]
		c.sag, c.slope = sag, slope
		sag, slope = evaluate(c.sags(), 1), c.turned(c.length)
	}
	return sag, slope
}

// turned is the slope of bending at a distance into the curve.
func (c curve) turned(x float64) float64 {
	return c.slope - x*(c.moment+x*(c.shear/2-x*c.load/6))*c.bend
}

// sags and moments are polynomials over the curve, of its distance as a share of its length.
func (c curve) sags() []float64 {
	h := c.length
	return []float64{
		c.sag,
		h * (c.slope + c.shear*c.slip),
		-h * h * (c.moment*c.bend + c.load*c.slip) / 2,
		-h * h * h * c.shear * c.bend / 6,
		h * h * h * h * c.load * c.bend / 24,
	}
}

func (c curve) moments() []float64 {
	return []float64{c.moment, c.length * c.shear, -c.length * c.length * c.load / 2}
}

func (c curve) shears() []float64 { return []float64{c.shear, -c.length * c.load} }

// Sag is how far the beam moves down at x, which is held to the length of the beam.
func (r *Result) Sag(x float64) float64 { return r.value(x, curve.sags) }

// Moment is the moment at x, which is held to the length of the beam.
func (r *Result) Moment(x float64) float64 { return r.value(x, curve.moments) }

// Shear is the shear just to the right of x, at the end of the beam just to the left.
func (r *Result) Shear(x float64) float64 { return r.value(x, curve.shears) }

func (r *Result) value(x float64, of func(curve) []float64) float64 {
	i := sort.Search(len(r.pieces)-1, func(i int) bool { return r.pieces[i].between[1] > x })
	c := r.pieces[i]
	share := (x - c.between[0]) / c.length
	return evaluate(of(c), math.Max(0, math.Min(1, share)))
}

// Spans gives the largest values between neighbouring supports and past the outermost ones,
// from left to right. A support that the beam lifted off divides no span.
func (r *Result) Spans() []Extremes {
	all := make([]Extremes, len(r.bays))
	for i, bay := range r.bays {
		all[i] = r.Between(bay[0], bay[1])
	}
	return all
}

// Between gives the largest values between two places, ends included, from < to. They stand
// at ends of elements or where the slope of the polynomial vanishes; nothing is sampled.
func (r *Result) Between(from, to float64) Extremes {
	none := Extreme{Value: math.Inf(-1)}
	e := Extremes{From: from, To: to, Sag: none, Rise: none, Sagging: none, Hogging: none, Shear: none}
	for _, c := range r.pieces {
		low := math.Max(0, (from-c.between[0])/c.length)
		high := math.Min(1, (to-c.between[0])/c.length)
		if low > high {
			continue
		}
		c.reach(c.sags(), low, high, &e.Sag, &e.Rise)
		c.reach(c.moments(), low, high, &e.Sagging, &e.Hogging)
		c.reach(c.shears(), low, high, &e.Shear, &e.Shear)
	}
	return e
}

// reach lifts the two extremes to the largest value of a polynomial and of its negative.
func (c curve) reach(polynomial []float64, low, high float64, most, least *Extreme) {
	for _, share := range append(roots(slope(polynomial), low, high), low, high) {
		value, at := evaluate(polynomial, share), c.between[0]+share*c.length
		if value > most.Value {
			*most = Extreme{value, at}
		}
		if -value > least.Value {
			*least = Extreme{-value, at}
		}
	}
}
