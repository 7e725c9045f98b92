package structure

import (
	"dryfit/check"
	"dryfit/check/section"
	"dryfit/check/standard"
)

// stuff is what a part is made of, as a beam sees it: one stiffness for the whole panel, and
// how its build-up compares with a solid piece of that stiffness. Strips stand beside it.
type stuff struct {
	E, density, creep check.Value
	slip              check.Value // E over the shear modulus through the thickness
	build             check.Value // bending stiffness over E*b*t^3/12
	stress            check.Value // stress in the worst layer over that in a solid piece, each against its strength
	strip             strip
	material          standard.Material
	known             bool
}

// strip is a nosing along the front: E, thickness front to back, depth from the top down.
type strip struct{ E, thick, deep check.Value }

// stuffs are what the parts of a job are made of.
type stuffs map[*check.Part]*stuff

// stuffOf reads what a part is made of. Layers of one material are one solid piece, bonded;
// layers of several materials go through the transformed section.
func stuffOf(j *check.Job, p *check.Part) stuff {
	return *check.OnceFor[stuffs](j, p, func() *stuff {
		s := readStuff(j, p)
		return &s
	})
}

func readStuff(j *check.Job, p *check.Part) stuff {
	layers, strips := split(p.Layers)
	text := p.Material.Text
	if len(layers) > 0 && layers[0].Material != "" {
		text = layers[0].Material
	}
	s := stuff{build: check.Exact(1), stress: check.Exact(1), strip: stripOf(j, strips)}
	m, ok, _ := j.Material(text)
	if !ok {
		missing := check.Missing(check.Ask{Cell: j.MaterialCell(p), What: "a material that is known, for its stiffness"})
		s.E, s.density, s.creep, s.slip = missing, missing, missing, missing
		return s
	}
	s.material, s.known = m, true
	s.E = along(j, p, m, j.Standard("material", m.Name, "E", check.Pressure))
	s.density = weightDensity(j, m.Name)
	s.creep = j.Standard("creep", creepFamily(m.Family), "final over first", check.Ratio)
	s.slip = ofMaterial(j, m, "E over G", check.Ratio)
	if !s.slip.Known {
		s.slip = check.Guess(10, 16, 40, "shear stiffness as that of wood")
	}
	if mixed(layers) {
		s.bond(j, layers)
	}
	return s
}

// split parts layers through the thickness from strips along an edge.
func split(all []check.Layer) (layers, strips []check.Layer) {
	for _, l := range all {
		switch {
		case l.Strip:
			strips = append(strips, l)
		case l.Count.Known && l.Thickness.Known:
			layers = append(layers, l)
		}
	}
	return layers, strips
}

// stripOf is the nosing among some strips: the first that has both sizes.
func stripOf(j *check.Job, strips []check.Layer) strip {
	for _, l := range strips {
		m, ok, _ := j.Material(l.Material)
		if e := j.Standard("material", m.Name, "E", check.Pressure); ok && e.Known && l.Thickness.Known && l.Width.Known {
			return strip{E: e, thick: l.Thickness, deep: l.Width}
		}
	}
	none := why(check.Exact(0), "no strip along the front")
	return strip{E: none, thick: none, deep: none}
}

// along is the stiffness along the span: the face grain runs along the part unless the row
// says that it runs across.
func along(j *check.Job, p *check.Part, m standard.Material, e check.Value) check.Value {
	if p.Grain.Text != "W" || !e.Known {
		return e
	}
	return across(j, m, e)
}

// across is the stiffness across the face grain. Panels without a grain keep theirs.
func across(j *check.Job, m standard.Material, e check.Value) check.Value {
	share := ofMaterial(j, m, "E across over along", check.Ratio)
	switch {
	case share.Known:
		return check.Guess(e.Low*share.Low, e.Nominal*share.Nominal, e.High*share.High, "grain across the span: "+share.Why)
	case m.Solid():
		return check.Guess(e.Low*.03, e.Nominal*.06, e.High*.1, "solid wood bent across its grain, a twentieth of along: house rule")
	}
	return e
}

// ofMaterial is a value of a material: its own or that of its kin.
func ofMaterial(j *check.Job, m standard.Material, property string, kind check.Unit) check.Value {
	e, ok := j.Shop.For(m, "material", property)
	if !ok {
		return check.Missing(check.Ask{What: "material, " + m.Name + ", " + property + " in the standards"})
	}
	return j.Entry(e, kind)
}

// creepFamily is the name under which the standards keep the creep of a family.
func creepFamily(family string) string {
	switch family {
	case "hardwood", "softwood", "solid wood", "lumber":
		return "solid wood"
	case "HDF", "hardboard":
		return "MDF"
	case "blockboard":
		return "combination core"
	}
	return family
}

// weightDensity is the weight of a volume: lb/in3, or N/mm3 in a metric job.
func weightDensity(j *check.Job, name string) check.Value {
	return j.Standard("material", name, "density", check.Density)
}

// mixed reports whether layers are of more than one material.
func mixed(layers []check.Layer) bool {
	for _, l := range layers {
		if l.Material != layers[0].Material {
			return true
		}
	}
	return false
}

// bond takes layers of several materials as one glued section. A layer of a material nobody
// knows leaves the part as solid as its first layer.
func (s *stuff) bond(j *check.Job, layers []check.Layer) {
	var stack []section.Layer
	var strong []float64 // modulus of rupture of each layer
	total := 0.0
	for _, l := range layers {
		m, ok, _ := j.Material(l.Material)
		e := j.Standard("material", m.Name, "E", check.Pressure)
		if !ok || !e.Known {
			return
		}
		for range int(l.Count.Nominal) {
			stack = append(stack, section.Layer{E: e.Nominal, Thick: l.Thickness.Nominal})
			strong = append(strong, ofMaterial(j, m, "modulus of rupture", check.Pressure).Nominal)
			total += l.Thickness.Nominal
		}
	}
	glued := section.Panel(1, stack...)
	stiff, err := glued.Stiffness()
	stresses, err2 := glued.Stresses(1)
	if err != nil || err2 != nil || total == 0 {
		return
	}
	s.build = why(check.Exact(stiff.EI/(s.E.Nominal*total*total*total/12)), "transformed section of the layers, bonded")
	s.creep = j.Standard("creep", "made up", "final over first", check.Ratio)
	worst := 0.0
	for i, each := range stresses {
		if strong[i] > 0 {
			worst = max(worst, each.Largest()*strong[0]/strong[i])
		}
	}
	if worst > 0 {
		s.stress = why(check.Exact(worst/(6/(total*total))), "stress in the worst layer, bonded, against its strength")
	}
}
