package beam

import (
	"errors"
	"math"
)

var errTips = errors.New("the load tips the beam off its supports, which only push")

// settle lets go of resting supports that would pull and takes back those that the beam
// would sink through.
func (m *mesh) settle() (*Result, error) {
	held := make([]bool, len(m.beam.Supports))
	for i := range held {
		held[i] = true
	}
	if !m.mayLift() {
		return m.solve(held)
	}
	for range 4*len(held) + 4 {
		r, err := m.solve(held)
		if err != nil {
			break
		}
		i := m.wrong(r, held)
		if i < 0 {
			return r, nil
		}
		held[i] = !held[i]
	}
	return m.tryAll()
}

func (m *mesh) mayLift() bool {
	for _, s := range m.beam.Supports {
		if s.Rests {
			return true
		}
	}
	return false
}

// wrong names the support that contradicts its state most, those that were let go first, or
// -1 when every support that is held pushes and the beam stands clear of the others.
func (m *mesh) wrong(r *Result, held []bool) int {
	const dust = 1e-10
	worst, found := dust*r.largestSag(), -1
	for i := range held {
		if depth := r.Sag(m.node[m.at[i]]); !held[i] && depth > worst {
			worst, found = depth, i
		}
	}
	if found >= 0 {
		return found
	}
	worst = dust * m.weight()
	for i, s := range m.beam.Supports {
		if held[i] && s.Rests && -r.Reactions[i] > worst {
			worst, found = -r.Reactions[i], i
		}
	}
	return found
}

// tryAll tries every choice of resting supports, for the rare beam where letting go one by
// one runs in a circle.
func (m *mesh) tryAll() (*Result, error) {
	const most = 16
	var resting []int
	held := make([]bool, len(m.beam.Supports))
	for i, s := range m.beam.Supports {
		held[i] = true
		if s.Rests {
			resting = append(resting, i)
		}
	}
	if len(resting) > most {
		return nil, errors.New("no choice of resting supports was found that only push")
	}
	for choice := range 1 << len(resting) {
		for bit, i := range resting {
			held[i] = choice>>bit&1 == 0
		}
		if r, err := m.solve(held); err == nil && m.wrong(r, held) < 0 {
			return r, nil
		}
	}
	return nil, errTips
}

func (r *Result) largestSag() float64 {
	e := r.Between(0, r.length)
	return math.Max(math.Abs(e.Sag.Value), math.Abs(e.Rise.Value))
}
