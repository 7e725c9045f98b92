package beam

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// drawBeam makes a beam of every kind but with supports that only push.
func drawBeam(t *rapid.T) Beam {
	positive := func(name string, low, high float64) float64 {
		return math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, name))
	}
	b := Beam{}
	at := positive("overhang left", 1, 20) * float64(rapid.IntRange(0, 1).Draw(t, "has overhang left"))
	for range rapid.IntRange(2, 6).Draw(t, "supports") {
		s := Support{At: at, Fixed: rapid.IntRange(0, 5).Draw(t, "fixed") == 0}
		if rapid.IntRange(0, 3).Draw(t, "spring") == 0 {
			s.Stiffness = positive("stiffness", 1, 1e4)
		}
		b.Supports = append(b.Supports, s)
		at += positive("bay", 5, 60)
	}
	b.Length = b.Supports[len(b.Supports)-1].At + positive("overhang right", 1, 20)*float64(rapid.IntRange(0, 1).Draw(t, "has overhang right"))
	cuts := rapid.IntRange(1, 5).Draw(t, "pieces")
	for i := range cuts {
		p := Piece{To: b.Length * float64(i+1) / float64(cuts), EI: positive("EI", 1e4, 1e6)}
		if rapid.Bool().Draw(t, "slips") {
			p.GA = positive("GA", 1e3, 1e6)
		}
		b.Pieces = append(b.Pieces, p)
	}
	b.Loads = drawLoads(t, b.Length)
	return b
}

func drawLoads(t *rapid.T, length float64) Loads {
	var l Loads
	// on a grid, so that no load stands a hair from a support and drowns in rounding
	place := func(name string, low, high int) (int, float64) {
		i := rapid.IntRange(low, high).Draw(t, name)
		return i, float64(i) / 64 * length
	}
	for range rapid.IntRange(0, 3).Draw(t, "spread loads") {
		i, from := place("from", 0, 63)
		_, to := place("to", i+1, 64)
		l.Spread = append(l.Spread, Spread{from, to, rapid.Float64Range(-2, 5).Draw(t, "w")})
	}
	for range rapid.IntRange(0, 3).Draw(t, "point loads") {
		_, at := place("at", 0, 64)
		l.Points = append(l.Points, Point{at, rapid.Float64Range(-50, 100).Draw(t, "P")})
	}
	return l
}

func draws(t *rapid.T, b Beam) *Result {
	r, err := b.Solve()
	if err != nil {
		t.Fatalf("%+v: %v", b, err)
	}
	return r
}

// places are the quarter points of every element.
func (r *Result) places() []float64 {
	var list []float64
	for _, c := range r.pieces {
		for i := range 4 {
			list = append(list, c.between[0]+c.length*(float64(i)+0.5)/4)
		}
	}
	return list
}

func alike(t *rapid.T, what string, got, want, scale, off float64) {
	if math.IsNaN(got) || math.Abs(got-want) > off*scale {
		t.Fatalf("%s: got %.12g, want %.12g within %.2g of %.4g", what, got, want, off, scale)
	}
}

func TestReactionsBalanceLoads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		r := draws(t, b)
		up, turn := 0.0, 0.0
		for i, s := range b.Supports {
			up += r.Reactions[i]
			turn += r.Reactions[i]*(b.Length-s.At) + r.Turning[i]
		}
		down, moment, size := 0.0, 0.0, 1e-9
		for _, s := range b.Spread {
			load := s.W * (s.To - s.From)
			down, moment, size = down+load, moment+load*(b.Length-(s.From+s.To)/2), size+math.Abs(load)
		}
		for _, p := range b.Points {
			down, moment, size = down+p.P, moment+p.P*(b.Length-p.At), size+math.Abs(p.P)
		}
		alike(t, "forces", up, down, size, 1e-9)
		alike(t, "moments", turn, moment, size*b.Length, 1e-9)
	})
}

func TestLoadsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := drawBeam(t)
		second, both := first, first
		second.Loads = drawLoads(t, first.Length)
		both.Loads = first.and(second.Loads)
		a, b, sum := draws(t, first), draws(t, second), draws(t, both)
		scale := a.largestSag() + b.largestSag() + 1e-12
		for _, x := range sum.places() {
			alike(t, "sag", sum.Sag(x), a.Sag(x)+b.Sag(x), scale, 1e-8)
		}
	})
}

func TestMirroredBeamMirrorsSag(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		m := Beam{Length: b.Length}
		for _, s := range b.Supports {
			s.At = b.Length - s.At
			m.Supports = append(m.Supports, s)
		}
		for i := len(b.Pieces) - 1; i >= 0; i-- {
			to := b.Length
			if i > 0 {
				to = b.Length - b.Pieces[i-1].To
			}
			m.Pieces = append(m.Pieces, Piece{To: to, EI: b.Pieces[i].EI, GA: b.Pieces[i].GA})
		}
		for _, s := range b.Spread {
			m.Spread = append(m.Spread, Spread{b.Length - s.To, b.Length - s.From, s.W})
		}
		for _, p := range b.Points {
			m.Points = append(m.Points, Point{b.Length - p.At, p.P})
		}
		r, mirrored := draws(t, b), draws(t, m)
		scale := r.largestSag() + 1e-12
		for _, x := range r.places() {
			alike(t, "sag", mirrored.Sag(b.Length-x), r.Sag(x), scale, 1e-7)
		}
		load := newMesh(b).weight() + 1e-12
		for i := range b.Supports {
			alike(t, "reaction", mirrored.Reactions[i], r.Reactions[i], load, 1e-8)
			alike(t, "turning", mirrored.Turning[i], -r.Turning[i], load*b.Length, 1e-8)
		}
	})
}

func TestInchesAndMillimetresAgree(t *testing.T) {
	const mm, newton = 25.4, 4.4482216152605
	rapid.Check(t, func(t *rapid.T) {
		in := drawBeam(t)
		si := Beam{Length: in.Length * mm}
		for _, s := range in.Supports {
			s.At, s.Stiffness = s.At*mm, s.Stiffness*newton/mm
			si.Supports = append(si.Supports, s)
		}
		for _, p := range in.Pieces {
			si.Pieces = append(si.Pieces, Piece{To: p.To * mm, EI: p.EI * newton * mm * mm, GA: p.GA * newton})
		}
		for _, s := range in.Spread {
			si.Spread = append(si.Spread, Spread{s.From * mm, s.To * mm, s.W * newton / mm})
		}
		for _, p := range in.Points {
			si.Points = append(si.Points, Point{p.At * mm, p.P * newton})
		}
		a, b := draws(t, in), draws(t, si)
		scale := a.largestSag() + 1e-12
		for _, x := range a.places() {
			alike(t, "sag", b.Sag(x*mm)/mm, a.Sag(x), scale, 1e-8)
		}
	})
}

func TestNothingOnTheBeamPassesItsExtremes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := draws(t, drawBeam(t))
		for _, e := range r.Spans() {
			for _, x := range r.places() {
				if x < e.From || x > e.To {
					continue
				}
				for _, pair := range [][2]float64{{r.Sag(x), e.Sag.Value}, {-r.Sag(x), e.Rise.Value}, {r.Moment(x), e.Sagging.Value},
					{-r.Moment(x), e.Hogging.Value}, {math.Abs(r.Shear(x)), e.Shear.Value}} {
					if pair[0] > pair[1]+1e-9*math.Abs(pair[1]) {
						t.Fatalf("%v at %v passes the extreme %v", pair[0], x, pair[1])
					}
				}
			}
			scale := r.largestSag() + 1e-12
			alike(t, "sag where it is said to be", r.Sag(e.Sag.At), e.Sag.Value, scale, 1e-9)
			alike(t, "rise where it is said to be", -r.Sag(e.Rise.At), e.Rise.Value, scale, 1e-9)
		}
	})
}

// elementSags solves the beam a second way, by displacements of all nodes: Hermite elements
// with the shear term of J. Przemieniecki, Theory of Matrix Structural Analysis (from memory).
// Its matrix loses digits where a short stiff element stands on a soft spring, so it comes
// with the share that may be lost.
func elementSags(b Beam) (sags []float64, lost float64) {
	m := newMesh(b)
	n := 2 * len(m.node)
	k, f := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	for i, e := range m.elements {
		h, ei := e.length, 1/e.bend
		phi := 12 * ei * e.slip / (h * h)
		c := ei / (h * h * h * (1 + phi))
		local := [4][4]float64{
			{12, 6 * h, -12, 6 * h},
			{6 * h, (4 + phi) * h * h, -6 * h, (2 - phi) * h * h},
			{-12, -6 * h, 12, -6 * h},
			{6 * h, (2 - phi) * h * h, -6 * h, (4 + phi) * h * h}}
		load := [4]float64{h / 2, h * h / 12, h / 2, -h * h / 12}
		for a := range 4 {
			f.SetVec(2*i+a, f.AtVec(2*i+a)+e.load*load[a])
			for z := range 4 {
				k.Set(2*i+a, 2*i+z, k.At(2*i+a, 2*i+z)+c*local[a][z])
			}
		}
	}
	for i, p := range m.point {
		f.SetVec(2*i, f.AtVec(2*i)+p)
	}
	hold := func(dof int) {
		for z := range n {
			k.Set(dof, z, 0)
			k.Set(z, dof, 0)
		}
		k.Set(dof, dof, 1)
		f.SetVec(dof, 0)
	}
	for i, s := range b.Supports {
		dof := 2 * m.at[i]
		if s.Stiffness > 0 {
			k.Set(dof, dof, k.At(dof, dof)+s.Stiffness)
		} else {
			hold(dof)
		}
		if s.Fixed {
			hold(dof + 1)
		}
	}
	var factor mat.LU
	factor.Factorize(k)
	u := mat.NewVecDense(n, nil)
	if err := factor.SolveVecTo(u, false, f); err != nil {
		return nil, 1
	}
	for i := range m.node {
		sags = append(sags, u.AtVec(2*i))
	}
	return sags, 1e-9 + 1e-16*factor.Cond()
}

func TestDisplacementMethodAgrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		r, m := draws(t, b), newMesh(b)
		scale := r.largestSag() + 1e-12
		sags, lost := elementSags(b)
		if lost > 1e-4 {
			t.Skip("the second way is no witness here")
		}
		for i, want := range sags {
			alike(t, "sag", r.Sag(m.node[i]), want, scale, lost)
		}
	})
}

func TestRestingSupportsPushOrStandClear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		for i := range b.Supports {
			b.Supports[i].Rests = rapid.Bool().Draw(t, "rests")
		}
		r, err := b.Solve()
		if err == errTips {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		left := b
		left.Supports = nil
		for i, s := range b.Supports {
			if s.Rests && r.Reactions[i] < -1e-9*newMesh(b).weight() {
				t.Fatalf("support %d pulls %v", i, r.Reactions[i])
			}
			if r.Lifted[i] && (!s.Rests || r.Sag(s.At) > 1e-9*r.largestSag()) {
				t.Fatalf("support %d let go, beam %v below it", i, r.Sag(s.At))
			}
			if s.Rests = false; !r.Lifted[i] {
				left.Supports = append(left.Supports, s)
			}
		}
		without := draws(t, left)
		for _, x := range r.places() {
			alike(t, "sag", without.Sag(x), r.Sag(x), r.largestSag()+1e-12, 1e-6)
		}
	})
}
