package standard

// Material is what a name on a schedule stands for.
type Material struct {
	Name      string      // the item under which its values are found: "MDF", "birch plywood", "red oak"
	Family    string      // plywood, MDF, particleboard, HDF, hardwood, softwood, combination core, made up, laminate, ...
	Sold      []Thickness // the thicknesses it is sold in; empty for solid wood and made-up parts
	Layers    int         // number of layers the text speaks of ("3 lyr MDF"); 0 if it does not
	Said      *Thickness  // the thickness the text names ("MDF 19", "3/4 birch ply"), if it is one that is sold
	SaidWords string      // the thickness words of the text as typed, sold or not: "3/4", "19"
}

// Thickness is one thickness a sheet is sold in.
type Thickness struct {
	Name   string  // "3/4 in", "19 mm"
	Named  float64 // 0.75, 19: in the unit of Actual
	Actual Entry   // what it measures: low, nominal, high, in "in" or "mm"
}

// Material reads the name of a material as typed on a schedule, in the shop's own words
// first. ok is false for an unknown name; nearest then holds known names that are spelled
// almost like it, best first.
func (t *Table) Material(text string) (m Material, ok bool, nearest []string) {
	name := fold(text)
	if means, said := t.Word("material", text); said {
		name = means
	}
	if _, found := t.Find("material", name, "density"); found {
		return Material{Name: name}, true, nil
	}
	return Material{}, false, nil
}
