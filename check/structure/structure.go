// Package structure asks whether the load comes down to the floor, for years, without a sag
// that shows. It supports a person's judgement and replaces none: a licensed engineer and
// the local code decide where people could be hurt.
package structure

import (
	"fmt"
	"math"
	"sort"

	"dryfit/check"
	"dryfit/check/beam"
	"dryfit/check/section"
)

// stuff is what a part is made of, as a beam sees it: one stiffness for the whole section,
// and how the build-up compares with a solid piece of that stiffness.
type stuff struct {
	E, density, creep check.Value
	build             check.Value // bending stiffness over E*b*t^3/12
	name              string
}

// stuffOf reads what a part is made of. Layers of one material are one solid piece, bonded;
// layers of several materials go through the transformed section.
func stuffOf(j *check.Job, p *check.Part) stuff {
	text := p.Material.Text
	var layers []check.Layer
	for _, l := range p.Layers {
		if !l.Strip && l.Count.Known && l.Thickness.Known {
			layers = append(layers, l)
		}
	}
	if len(layers) > 0 && layers[0].Material != "" {
		text = layers[0].Material
	}
	m, ok, _ := j.Shop.Material(text)
	if !ok {
		ask := check.Missing(check.Ask{Cell: p.Material.From, What: "a material that is known, for its stiffness"})
		return stuff{E: ask, density: ask, creep: ask, build: check.Exact(1)}
	}
	s := stuff{
		E:       j.Standard("material", m.Name, "E", check.Pressure),
		density: weightDensity(j, m.Name),
		creep:   j.Standard("creep", creepFamily(m.Family), "final over first", check.Ratio),
		build:   check.Exact(1),
		name:    m.Name,
	}
	if y, ok := mixed(j, layers, s.E.Nominal); ok {
		s.build = check.Exact(y)
		s.build.Why = "transformed section of the layers, bonded"
		s.creep = j.Standard("creep", "made up", "final over first", check.Ratio)
	}
	return s
}

// creepFamily is the name under which the standards keep the creep of a family.
func creepFamily(family string) string {
	switch family {
	case "hardwood", "softwood", "solid wood", "lumber":
		return "solid wood"
	case "HDF":
		return "MDF"
	}
	return family
}

// weightDensity is the weight of a volume: lb/in3, or N/mm3 in a metric job.
func weightDensity(j *check.Job, name string) check.Value {
	v := j.Standard("material", name, "density", check.Density)
	if j.PerInch() != 1 {
		const g = 9.80665 // m/s2, standard gravity, exact by definition
		v = v.Scale(g)
	}
	return v
}

// mixed is the stiffness of layers of more than one material against a solid piece of the
// first.
func mixed(j *check.Job, layers []check.Layer, first float64) (float64, bool) {
	differ := false
	total := 0.0
	var ls []section.Layer
	for _, l := range layers {
		differ = differ || l.Material != layers[0].Material
		m, ok, _ := j.Shop.Material(l.Material)
		if !ok {
			return 0, false
		}
		e := j.Standard("material", m.Name, "E", check.Pressure)
		for n := 0; n < int(l.Count.Nominal); n++ {
			ls = append(ls, section.Layer{E: e.Nominal, Thick: l.Thickness.Nominal})
			total += l.Thickness.Nominal
		}
	}
	if !differ || total == 0 {
		return 0, false
	}
	glued, err := section.Panel(1, ls...).Stiffness()
	if err != nil {
		return 0, false
	}
	return glued.EI / (first * total * total * total / 12), true
}

// span is a shelf as a beam: how long its longest bay is, and the sag of the whole under an
// even load, as a coefficient K of W*L^4/(E*I).
type span struct {
	longest float64
	k       float64
	how     string
}

// spanOf finds the supports of a shelf: one at each end, and one at each upright that it
// crosses, at the positions of the joint or at equal distances.
func spanOf(j *check.Job, p *check.Part) (span, error) {
	length := p.Length.Nominal
	at, slots := supports(j, p)
	b := beam.Beam{Length: length}
	places := append([]float64{0, length}, at...)
	for _, x := range places {
		b.Supports = append(b.Supports, beam.Support{At: x})
	}
	pieces, err := beam.Slotted(length, 1, 0, slots)
	if err != nil {
		return span{}, err
	}
	b.Pieces = pieces
	s := span{longest: longestBay(places)}
	worst, err := b.Worst(b.Bays(1))
	if err != nil {
		return span{}, err
	}
	s.k = worstSag(worst) / math.Pow(s.longest, 4)
	s.how = fmt.Sprintf("%d supports, any bay loaded or not", len(places))
	if len(slots) > 0 {
		s.how += fmt.Sprintf(", %d slots taken out", len(slots))
	}
	return s, nil
}

// supports are the uprights that a shelf crosses, measured from its left end, and the slots
// cut in its width there.
func supports(j *check.Job, p *check.Part) ([]float64, []beam.Slot) {
	var at []float64
	var slots []beam.Slot
	for _, jt := range j.Joints {
		into, enters := named(j, jt.Into.Text, p), named(j, jt.Enters.Text, p)
		if jt.Kind != check.CrossLap && jt.Kind != check.NotchedLap || !into && !enters {
			continue
		}
		places := positions(j, p, jt, into)
		at = append(at, places...)
		slots = append(slots, slotsAt(p, jt, into, places)...)
	}
	return at, slots
}

// named reports whether a joint that names a part means p.
func named(j *check.Job, name string, p *check.Part) bool {
	if name == "" {
		return false
	}
	if name == p.Mark.Text {
		return true
	}
	for _, q := range j.Called(name) {
		if q == p {
			return true
		}
	}
	return false
}

// positions are the places of a joint along a shelf. They are typed only where the shelf is
// the slotted part; else the uprights are taken to stand at equal distances, which serves
// for sag and never for pitch.
func positions(j *check.Job, p *check.Part, jt *check.Joint, into bool) []float64 {
	length := p.Length.Nominal
	if into && len(jt.At) > 0 {
		var out []float64
		for _, v := range jt.At {
			if v.Known && v.Nominal > 0 && v.Nominal < length {
				out = append(out, v.Nominal)
			}
		}
		return out
	}
	n := 0
	if jt.Count.Known && p.Qty.Known && p.Qty.Nominal > 0 {
		n = int(math.Round(jt.Count.Nominal / p.Qty.Nominal))
	}
	var out []float64
	for i := 1; i <= n; i++ {
		out = append(out, length*float64(i)/float64(n+1))
	}
	return out
}

// slotsAt are the slots a cross lap cuts in the width of a shelf.
func slotsAt(p *check.Part, jt *check.Joint, into bool, places []float64) []beam.Slot {
	depth := jt.DepthOf
	if into {
		depth = jt.DepthIn
	}
	if !depth.Known || !jt.Width.Known || !p.Width.Known || depth.Nominal <= 0 || depth.Nominal >= p.Width.Nominal {
		return nil
	}
	left := 1 - depth.Nominal/p.Width.Nominal
	var out []beam.Slot
	for _, x := range places {
		out = append(out, beam.Slot{Centre: x, Width: jt.Width.Nominal, EI: left})
	}
	return out
}

func longestBay(places []float64) float64 {
	sorted := append([]float64(nil), places...)
	sort.Float64s(sorted)
	longest := 0.0
	for i := 1; i < len(sorted); i++ {
		longest = math.Max(longest, sorted[i]-sorted[i-1])
	}
	return longest
}

// worstSag is the largest sag of all bays.
func worstSag(w *beam.Worst) float64 {
	most := 0.0
	for _, s := range w.Spans {
		most = math.Max(most, s.Sag.Value)
	}
	return most
}
