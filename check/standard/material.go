package standard

import (
	"math"
	"slices"
	"strings"
)

// Material is what a name on a schedule stands for.
type Material struct {
	Name   string      // the item under which its values are found: "MDF", "birch plywood", "red oak"
	Family string      // MDF, particleboard, HDF, plywood, combination core, hardwood, softwood, made up, laminate, ...
	Sold   []Thickness // the thicknesses it is sold in; empty for solid wood and made-up parts
	Layers int         // number of layers the text speaks of ("3 lyr MDF"); 0 if it does not
	Said   []Thickness // the thicknesses sold that the text may name ("MDF 19", "3/4 birch ply"), likeliest first
	Typed  string      // the thickness as typed in the text, sold or not: "3/4", "19"; "" if there is none

	like []string
}

// Solid reports whether it is solid wood, which is planed to any thickness.
func (m Material) Solid() bool { return m.Family == "hardwood" || m.Family == "softwood" }

// Thickness is one thickness a material is sold in.
type Thickness struct {
	Name   string  // "3/4 in", "19 mm", "4/4"
	Named  float64 // 0.75, 19, 1: in the unit of Actual
	Actual Entry   // what it measures: low, nominal, high, in "in" or "mm"
}

// Material reads the name of a material as typed on a schedule, in the shop's own words
// first. ok is false for an unknown name; nearest then holds known names that are spelled
// almost like it, best first.
func (t *Table) Material(text string) (m Material, ok bool, nearest []string) {
	lex := lexicons()["material"]
	known := func(letters string) bool { return lex.whole[letters] != nil }
	if means, said := t.Word("material", text); said {
		text = means
	}
	s := takeApart(text, known)
	for i, w := range s.words {
		if means, said := t.Word("material", w); said {
			inner := takeApart(means, known)
			s.words = slices.Concat(s.words[:i], inner.words, s.words[i+1:])
			s.sizes = append(s.sizes, inner.sizes...)
			s.layers = max(s.layers, inner.layers)
			break
		}
	}
	n := t.ownMaterial(text)
	if n == nil {
		n = lex.material(text, s)
	}
	if n == nil {
		return Material{}, false, lex.nearest(s.words, t.kept("material"))
	}
	m = Material{Name: n.item, Family: n.family, Layers: s.layers, like: n.like}
	sold := t.thicknesses(m)
	if !m.Solid() {
		m.Sold = sold
	}
	for _, z := range s.sizes {
		m.Typed = z.typed
		if m.Said = named(sold, z); len(m.Said) > 0 {
			break
		}
	}
	return m, true, nil
}

// ownMaterial finds a material that the shop added to the list under a name of its own.
func (t *Table) ownMaterial(text string) *name {
	item, ok := t.item("material", text)
	if !ok {
		return nil
	}
	lex := lexicons()["material"]
	if n := lex.items[item]; n != nil {
		return n
	}
	own := &name{item: item, family: "own"}
	if n := lex.material(text, takeApart(text, func(string) bool { return false })); n != nil {
		own.family, own.like = n.family, append([]string{n.item}, n.like...)
	}
	return own
}

// material finds the name for a text that was taken apart. A species beside the word ply
// makes it a plywood with that face.
func (x *lexicon) material(text string, s stock) *name {
	if n := x.whole[strings.Join(words(text), " ")]; n != nil {
		return n
	}
	if n := x.whole[strings.Join(s.words, " ")]; n != nil {
		return n
	}
	solid := func(n *name) bool { return n.family == "hardwood" || n.family == "softwood" }
	panel := x.find(s.words, func(n *name) bool { return !solid(n) })
	species := x.find(s.words, solid)
	switch {
	case panel == nil && species == nil && s.layers > 1 && len(s.words) == 0:
		return x.items["made-up panel"]
	case panel == nil:
		return species
	case species == nil || panel.item != "plywood":
		return panel
	case species.family == "softwood":
		return x.items["softwood plywood"]
	}
	return x.items["hardwood plywood"]
}

// kept are the shop's words of one kind.
func (t *Table) kept(kind string) []Word {
	var ws []Word
	for _, w := range t.words {
		if w.Kind == kind {
			ws = append(ws, w)
		}
	}
	return ws
}

// For finds a value of a material: its own, or that of its family, or of what it is like
// ("red oak" has no creep of its own and takes that of solid wood).
func (t *Table) For(m Material, group, property string) (Entry, bool) {
	for _, item := range m.kin() {
		if e, ok := t.Find(group, item, property); ok {
			return e, true
		}
	}
	return Entry{}, false
}

func (m Material) kin() []string { return append([]string{m.Name, m.Family}, m.like...) }

// thicknesses lists those under the material's own name, else under its family's.
func (t *Table) thicknesses(m Material) []Thickness {
	for _, item := range m.kin() {
		if ts := t.sold[item]; len(ts) > 0 {
			return ts
		}
	}
	return nil
}

// named lists the thicknesses that a typed size may mean.
func named(sold []Thickness, z size) []Thickness {
	var found []Thickness
	for _, y := range z.meanings() {
		for _, t := range sold {
			if t.Actual.Unit == y.unit && math.Abs(t.Named-y.value) < sameName[y.unit] {
				found = append(found, t)
			}
		}
	}
	return found
}

// sameName is how far a typed thickness may be from the name it means: 0.72 is 23/32.
var sameName = map[string]float64{"in": 0.004, "mm": 0.05}

// SoldAs finds the thickness sold that a stated one means: by its name, else the one whose
// actual range holds it and whose nominal is nearest. unit is "in" or "mm". It returns
// false when nobody sells such a thickness.
func (m Material) SoldAs(stated float64, unit string) (Thickness, bool) {
	var best Thickness
	found := false
	for _, byName := range []bool{true, false} {
		least := math.Inf(1)
		for _, t := range m.Sold {
			a, err := t.Actual.In(unit)
			if err != nil {
				continue
			}
			off := math.Abs(stated - a.Nominal)
			fits := a.Low <= stated && stated <= a.High
			if byName {
				off = math.Abs(stated - t.Named*a.Nominal/t.Actual.Nominal)
				if t.Actual.Unit == unit {
					off = math.Abs(stated - t.Named)
				}
				fits = off < sameName[unit]
			}
			if fits && off < least {
				best, least, found = t, off, true
			}
		}
		if found {
			return best, true
		}
	}
	return best, false
}
