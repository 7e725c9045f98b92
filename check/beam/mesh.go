package beam

import (
	"math"
	"slices"
)

// mesh is the beam cut wherever stiffness, load or support changes, so that in each element
// stiffness and load are even and every curve is a polynomial.
type mesh struct {
	beam     Beam
	node     []float64 // x of the cuts, first 0, last Length
	point    []float64 // point load at each node
	elements []element
	at       []int // node of each support, in the order of Beam.Supports
	order    []int // supports from left to right
}

// element is the stretch between two nodes.
type element struct {
	length  float64
	bend    float64 // 1/EI
	slip    float64 // 1/GA, 0 where shear is left out
	load    float64 // per unit of length
	between [2]float64
}

func newMesh(b Beam) *mesh {
	m := &mesh{beam: b}
	cuts := []float64{0, b.Length}
	for _, p := range b.Pieces {
		cuts = append(cuts, p.To)
	}
	for _, s := range b.Supports {
		cuts = append(cuts, s.At)
	}
	for _, s := range b.Spread {
		cuts = append(cuts, s.From, s.To)
	}
	for _, p := range b.Points {
		cuts = append(cuts, p.At)
	}
	slices.Sort(cuts)
	m.node = slices.CompactFunc(cuts, func(x, y float64) bool { return math.Abs(y-x) <= b.dust() })
	m.node[0], m.node[len(m.node)-1] = 0, b.Length

	m.point = make([]float64, len(m.node))
	for _, p := range b.Points {
		m.point[m.nearest(p.At)] += p.P
	}
	for i, s := range b.Supports {
		m.at = append(m.at, m.nearest(s.At))
		m.order = append(m.order, i)
	}
	slices.SortFunc(m.order, func(i, j int) int { return m.at[i] - m.at[j] })
	for i := range m.node[1:] {
		m.elements = append(m.elements, m.cutElement(m.node[i], m.node[i+1]))
	}
	return m
}

func (m *mesh) cutElement(from, to float64) element {
	middle := (from + to) / 2
	i := slices.IndexFunc(m.beam.Pieces, func(p Piece) bool { return p.To > middle })
	piece := m.beam.Pieces[i]
	e := element{length: to - from, bend: 1 / piece.EI, between: [2]float64{from, to}}
	if piece.GA > 0 {
		e.slip = 1 / piece.GA
	}
	for _, s := range m.beam.Spread {
		if s.From < middle && middle < s.To {
			e.load += s.W
		}
	}
	return e
}

func (m *mesh) nearest(x float64) int {
	i, _ := slices.BinarySearch(m.node, x)
	switch {
	case i == len(m.node):
		return i - 1
	case i > 0 && x-m.node[i-1] < m.node[i]-x:
		return i - 1
	}
	return i
}

// span is a stretch between neighbouring supports, or past the outermost one.
type span struct {
	from, to    int // nodes
	left, right int // supports at its ends, -1 at a free end
}

func (m *mesh) length(s span) float64 { return m.node[s.to] - m.node[s.from] }

// spans divides the beam by the supports that are held.
func (m *mesh) spans(held []bool) []span {
	var spans []span
	open := span{from: 0, left: -1}
	for _, i := range m.order {
		if !held[i] {
			continue
		}
		if m.at[i] > open.from {
			open.to, open.right = m.at[i], i
			spans = append(spans, open)
		}
		open = span{from: m.at[i], left: i}
	}
	if last := len(m.node) - 1; last > open.from {
		open.to, open.right = last, -1
		spans = append(spans, open)
	}
	return spans
}

// weight is the sum of the sizes of all loads.
func (m *mesh) weight() float64 {
	sum := 0.0
	for _, p := range m.point {
		sum += math.Abs(p)
	}
	for _, e := range m.elements {
		sum += math.Abs(e.load) * e.length
	}
	return sum
}
