package standard

// Finish is what a finish on a schedule does to the size of a part.
type Finish struct {
	Name   string // "paint", "clear", "prime", "none", "prefinished", or the shop's code "P1"
	Kind   string // paint, clear, prime, none, prefinished, laminate
	Film   Entry  // dry build on one coated face, in mil
	Coats  Entry  // coats in all
	Cheeks Entry  // share of the face's build that lands on the cheek of a slot: 0 when masked
	Faces  Entry  // coated faces of a part that goes into a slot: 2, 1 or 0
	Masked bool   // the slot cheeks are masked
	From   string // where the reading comes from: "built in", "shop standards, finishes!A5"
}

// Finish reads the finish of a part as typed, in the shop's own words first: "P1",
// "paint", "ptd", "clear", "CL", "PF", "none", "prime", "primer 2 + top 2, slots masked".
// ok is false for an unknown one; nearest then holds known names spelled almost like it.
func (t *Table) Finish(text string) (f Finish, ok bool, nearest []string) {
	name := fold(text)
	if means, said := t.Word("finish", text); said {
		name = means
	}
	film, ok := t.Find("finish", name, "film")
	if !ok {
		return Finish{}, false, nil
	}
	return Finish{Name: name, Kind: name, Film: film, From: film.From}, true, nil
}
