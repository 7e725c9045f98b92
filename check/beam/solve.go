package beam

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// The force method. Cut the beam at its supports, so that every span is statically
// determinate, and take the moments over the supports as unknowns: of all moments in balance
// with the loads the true ones have the least strain energy (Castigliano's theorem; S.
// Timoshenko, Strength of Materials, part I; from memory). The matrix is small, symmetric and
// well conditioned however thin a slot is, which a matrix over all nodes is not.

// state is a set of forces in balance: shear and moment at the left end of each element.
type state struct {
	loaded        bool
	shear, moment []float64
	reaction      []float64 // of each support, up
}

// unknown is the moment over a support: at the right end of one span, the left end of the next.
type unknown struct{ endOf, startOf int } // indices of spans, -1 for none

// solve works the beam out with the supports that are held and no others.
func (m *mesh) solve(held []bool) (*Result, error) {
	spans := m.spans(held)
	if err := m.stands(held); err != nil {
		return nil, err
	}
	ends := m.overhangs(spans)
	base := m.balance(spans, ends, true)
	unknowns := m.unknowns(spans)
	if n := len(unknowns); n > 0 {
		units := make([]state, n)
		for i, u := range unknowns {
			unit := make([][2]float64, len(spans))
			u.set(unit, 1)
			units[i] = m.balance(spans, unit, false)
		}
		matrix, right := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
		for i := range units {
			right.SetVec(i, -m.energy(units[i], base))
			for j := i; j < n; j++ {
				matrix.SetSym(i, j, m.energy(units[i], units[j]))
			}
		}
		var factor mat.Cholesky
		var moments mat.VecDense
		if !factor.Factorize(matrix) {
			return nil, errors.New("stiffness of pieces and supports lies too far apart to be solved")
		}
		if err := factor.SolveVecTo(&moments, right); err != nil {
			return nil, fmt.Errorf("stiffness of pieces and supports lies too far apart: %w", err)
		}
		for i, u := range unknowns {
			u.set(ends, moments.AtVec(i))
		}
		base = m.balance(spans, ends, true)
	}
	return m.bend(held, spans, ends, base), nil
}

// stands refuses a beam that could turn as a whole.
func (m *mesh) stands(held []bool) error {
	count := 0
	for i, s := range m.beam.Supports {
		if held[i] && s.Fixed {
			return nil
		}
		if held[i] {
			count++
		}
	}
	if count < 2 {
		return errors.New("nothing keeps the beam from turning")
	}
	return nil
}

func (u unknown) set(ends [][2]float64, moment float64) {
	if u.endOf >= 0 {
		ends[u.endOf][1] = moment
	}
	if u.startOf >= 0 {
		ends[u.startOf][0] = moment
	}
}

// overhangs gives the moments at both ends of each span as far as they are known beforehand:
// what hangs over, carried on into the next span where the support lets the beam turn.
func (m *mesh) overhangs(spans []span) [][2]float64 {
	ends := make([][2]float64, len(spans))
	last := len(spans) - 1
	if first := spans[0]; first.left < 0 {
		ends[0][1] = m.cantilever(first, first.to)
		if last > 0 && !m.beam.Supports[first.right].Fixed {
			ends[1][0] = ends[0][1]
		}
	}
	if s := spans[last]; s.right < 0 {
		ends[last][0] = m.cantilever(s, s.from)
		if last > 0 && !m.beam.Supports[s.left].Fixed {
			ends[last-1][1] = ends[last][0]
		}
	}
	return ends
}

// cantilever is the moment that the loads on a span with a free end make about a node.
func (m *mesh) cantilever(s span, about int) float64 {
	x, moment := m.node[about], 0.0
	for i := s.from; i < s.to; i++ {
		e := m.elements[i]
		moment -= e.load * e.length * math.Abs(e.between[0]+e.length/2-x)
	}
	for i := s.from; i <= s.to; i++ {
		moment -= m.point[i] * math.Abs(m.node[i]-x)
	}
	return moment
}

func (m *mesh) unknowns(spans []span) []unknown {
	var list []unknown
	for i, s := range spans {
		if s.left < 0 || s.right < 0 {
			continue
		}
		switch before := i - 1; {
		case m.beam.Supports[s.left].Fixed:
			list = append(list, unknown{-1, i})
		case before >= 0 && spans[before].left >= 0:
			list = append(list, unknown{before, i})
		}
		if m.beam.Supports[s.right].Fixed {
			list = append(list, unknown{i, -1})
		}
	}
	return list
}

// balance finds the forces that the end moments of the spans make, with the loads or without.
func (m *mesh) balance(spans []span, ends [][2]float64, loaded bool) state {
	st := state{
		loaded:   loaded,
		shear:    make([]float64, len(m.elements)),
		moment:   make([]float64, len(m.elements)),
		reaction: make([]float64, len(m.beam.Supports)),
	}
	for i, s := range spans {
		shear := m.firstShear(s, ends[i], loaded)
		moment := ends[i][0]
		if s.left >= 0 {
			st.reaction[s.left] += shear
		}
		for k := s.from; k < s.to; k++ {
			e := m.elements[k]
			if loaded && (k > s.from || s.left < 0) {
				shear -= m.point[k]
			}
			st.shear[k], st.moment[k] = shear, moment
			load := 0.0
			if loaded {
				load = e.load
			}
			moment += e.length * (shear - load*e.length/2)
			shear -= load * e.length
		}
		if s.right >= 0 {
			st.reaction[s.right] -= shear
		}
	}
	if loaded {
		for i, node := range m.at {
			st.reaction[i] += m.point[node]
		}
	}
	return st
}

// firstShear is the shear at the left end of a span, before a point load that stands there.
func (m *mesh) firstShear(s span, ends [2]float64, loaded bool) float64 {
	if s.left < 0 {
		return 0
	}
	shear, length := 0.0, m.length(s)
	arm := func(x float64) float64 { return (m.node[s.to] - x) / length }
	if s.right < 0 {
		arm = func(float64) float64 { return 1 }
	} else {
		shear = (ends[1] - ends[0]) / length
	}
	if !loaded {
		return shear
	}
	for k := s.from; k < s.to; k++ {
		e := m.elements[k]
		shear += e.load * e.length * arm(e.between[0]+e.length/2)
		if k > s.from {
			shear += m.point[k] * arm(m.node[k])
		}
	}
	if s.right < 0 {
		shear += m.point[s.to]
	}
	return shear
}

// energy is the work of one state on the strains of another. Two Gauss points are exact: the
// products are cubic at most, because one of the two states carries no load.
func (m *mesh) energy(unit, other state) float64 {
	const gauss = 0.21132486540518712 // (1 - 1/sqrt 3)/2
	work := 0.0
	for k, e := range m.elements {
		load := 0.0
		if other.loaded {
			load = e.load
		}
		for _, part := range [2]float64{gauss, 1 - gauss} {
			x := part * e.length
			moments := (unit.moment[k] + unit.shear[k]*x) * (other.moment[k] + x*(other.shear[k]-load*x/2))
			shears := unit.shear[k] * (other.shear[k] - load*x)
			work += e.length / 2 * (moments*e.bend + shears*e.slip)
		}
	}
	for i, s := range m.beam.Supports {
		if s.Stiffness > 0 {
			work += unit.reaction[i] * other.reaction[i] / s.Stiffness
		}
	}
	return work
}
