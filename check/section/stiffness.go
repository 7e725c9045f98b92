package section

import "math"

// Stiffness is what a section opposes to bending up and down.
type Stiffness struct {
	NeutralAxis float64 // height at which the glued section does not stretch
	EA          float64
	EI          float64 // glued, and held against twisting and against moving front to back
	Free        float64 // glued, free to move front to back as it sags; EI where both sides are alike
	Loose       float64 // not glued: the parts bend together, each about its own middle
}

// Stiffness works the section out.
//
// Source: transformed section; unsymmetric bending for Free (S. Timoshenko, Strength of
// Materials, part II; from memory).
// Errors: no part; a part without stiffness or size.
func (s Section) Stiffness() (Stiffness, error) {
	if err := s.check(); err != nil {
		return Stiffness{}, err
	}
	var ea, eay, eaz float64
	for _, p := range s {
		ea += p.area()
		eay += p.area() * p.height()
		eaz += p.area() * p.depth()
	}
	y, z := eay/ea, eaz/ea
	stiff := Stiffness{NeutralAxis: y, EA: ea}
	var across, mixed float64
	for _, p := range s {
		dy, dz := p.height()-y, p.depth()-z
		stiff.Loose += p.own()
		stiff.EI += p.own() + p.area()*dy*dy
		across += p.area() * ((p.Front-p.Back)*(p.Front-p.Back)/12 + dz*dz)
		mixed += p.area() * dy * dz
	}
	stiff.Free = stiff.EI - mixed*mixed/across
	return stiff, nil
}

// Stress is the stress at the two faces of a part, tension positive.
type Stress struct{ Bottom, Top float64 }

// Largest is the larger size of the two.
func (s Stress) Largest() float64 { return math.Max(math.Abs(s.Bottom), math.Abs(s.Top)) }

// Stresses gives the stress in each part of the glued section under a moment, in the order
// of the section.
// Errors: as Stiffness.
func (s Section) Stresses(moment float64) ([]Stress, error) {
	return s.stresses(func(p Part, stiff Stiffness) (float64, float64) { return stiff.NeutralAxis, moment / stiff.EI })
}

// LooseStresses gives the same for the section that is not glued.
// Errors: as Stiffness.
func (s Section) LooseStresses(moment float64) ([]Stress, error) {
	return s.stresses(func(p Part, stiff Stiffness) (float64, float64) { return p.height(), moment / stiff.Loose })
}

func (s Section) stresses(bent func(Part, Stiffness) (axis, curvature float64)) ([]Stress, error) {
	stiff, err := s.Stiffness()
	if err != nil {
		return nil, err
	}
	all := make([]Stress, len(s))
	for i, p := range s {
		axis, curvature := bent(p, stiff)
		all[i] = Stress{Bottom: p.E * curvature * (axis - p.Bottom), Top: p.E * curvature * (axis - p.Top)}
	}
	return all, nil
}

func (p Part) area() float64   { return p.E * (p.Top - p.Bottom) * (p.Front - p.Back) }
func (p Part) own() float64    { return p.area() * (p.Top - p.Bottom) * (p.Top - p.Bottom) / 12 }
func (p Part) height() float64 { return (p.Bottom + p.Top) / 2 }
func (p Part) depth() float64  { return (p.Back + p.Front) / 2 }
