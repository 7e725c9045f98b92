// Package section works out the cross section of a part made of layers and strips: how stiff
// it is glued and loose, where its neutral axis lies, and what stress each piece sees.
//
// It knows rectangles and their stiffness E in any coherent units (in, lb, psi or mm, N, MPa).
// It knows no material by name, no span, no limit and no check. Method: the transformed
// section of the textbooks, plane sections and elastic pieces; glue lines have no thickness
// and, where the section is taken as bonded, do not slip.
//
// Heights run up from the underside of the lowest layer, depths run forward from the back
// edge of the panel. A sagging moment and tension are positive.
package section

import (
	"errors"
	"fmt"
	"math"
)

// Part is one rectangle of one material.
type Part struct {
	E           float64
	Bottom, Top float64 // heights
	Back, Front float64 // depths
	Creep       float64 // how many times its sag grows over the years, 1 or more; 0 is not given
}

// Section is the parts that bend together.
type Section []Part

// Layer is one sheet of a panel.
type Layer struct {
	E, Thick float64
	Creep    float64 // as in Part
}

// Panel stacks layers of one width, front to back, from the bottom up.
func Panel(width float64, bottomUp ...Layer) Section {
	var s Section
	height := 0.0
	for _, l := range bottomUp {
		s = append(s, Part{E: l.E, Bottom: height, Top: height + l.Thick, Front: width, Creep: l.Creep})
		height += l.Thick
	}
	return s
}

// Flush says which faces of strip and panel lie in one plane.
type Flush int

const (
	Top    Flush = iota // the strip hangs below
	Bottom              // the strip stands above
	Middle              // it does both alike
)

// Strip is a nosing on an edge of the panel.
type Strip struct {
	E, Thick float64 // thickness front to back
	Depth    float64 // height
	Flush    Flush
	Creep    float64 // as in Part
}

// Within is the strip cut down to what lies within the thickness of the panel. Count no more
// of it where nothing holds the shelf against turning.
func (s Strip) Within(thickness float64) Strip {
	s.Depth = math.Min(s.Depth, thickness)
	return s
}

// WithFront puts a strip before the front edge.
func (s Section) WithFront(strip Strip) Section {
	_, front := s.depths()
	return s.with(strip, front, front+strip.Thick)
}

// WithBack puts a strip behind the back edge.
func (s Section) WithBack(strip Strip) Section {
	back, _ := s.depths()
	return s.with(strip, back-strip.Thick, back)
}

func (s Section) with(strip Strip, back, front float64) Section {
	low, high := s.heights()
	switch strip.Flush {
	case Top:
		low = high - strip.Depth
	case Middle:
		low = (low + high - strip.Depth) / 2
	}
	part := Part{E: strip.E, Bottom: low, Top: low + strip.Depth, Back: back, Front: front, Creep: strip.Creep}
	return append(append(Section(nil), s...), part)
}

// Cut is what a slot leaves of the section: front and back are how far it is cut in from the
// foremost and the hindmost edge, strips included. Parts that are cut away are left out.
func (s Section) Cut(front, back float64) Section {
	least, most := s.depths()
	var kept Section
	for _, p := range s {
		p.Back, p.Front = math.Max(p.Back, least+back), math.Min(p.Front, most-front)
		if p.Front > p.Back {
			kept = append(kept, p)
		}
	}
	return kept
}

// Lasting is the section as it bends after years: E of each part over its creep factor.
// Errors: a part whose factor is not given or under 1.
func (s Section) Lasting() (Section, error) {
	lasting := append(Section(nil), s...)
	for i, p := range lasting {
		if !(p.Creep >= 1) || math.IsInf(p.Creep, 0) {
			return nil, fmt.Errorf("part %d has a creep factor of %v; expected 1 or more", i+1, p.Creep)
		}
		lasting[i].E, lasting[i].Creep = p.E/p.Creep, 1
	}
	return lasting, nil
}

func (s Section) heights() (low, high float64) {
	return s.reach(func(p Part) (float64, float64) { return p.Bottom, p.Top })
}

func (s Section) depths() (back, front float64) {
	return s.reach(func(p Part) (float64, float64) { return p.Back, p.Front })
}

func (s Section) reach(of func(Part) (float64, float64)) (least, most float64) {
	for i, p := range s {
		a, b := of(p)
		if i == 0 {
			least, most = a, b
		}
		least, most = math.Min(least, a), math.Max(most, b)
	}
	return least, most
}

func (s Section) check() error {
	if len(s) == 0 {
		return errors.New("the section has no part")
	}
	for i, p := range s {
		for _, size := range []float64{p.E, p.Top - p.Bottom, p.Front - p.Back} {
			if !(size > 0) || math.IsInf(size, 0) {
				return fmt.Errorf("part %d has E %v, height %v and depth %v; expected numbers above 0",
					i+1, p.E, p.Top-p.Bottom, p.Front-p.Back)
			}
		}
	}
	return nil
}
