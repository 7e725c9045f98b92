package opening

import (
	"dryfit/check"
	"dryfit/check/shape"
)

// Outline is a case over all, as its schedule says it stands.
type Outline struct {
	Width, Height check.Value // missing where a size of its chain is
	Over          bool        // top and bottom lie over the sides, not between them
	Raised        float64     // by a base under the sides
	Place         *check.Opening
}

// OutlineOf is the outline of a case. Width and Height are zero Values where it has no sides.
func OutlineOf(j *check.Job, box check.Case) Outline {
	out := Outline{Place: placeOf(j, box)}
	if w, ok := inferredWidth(j, box); ok {
		out.Width = w.total
	}
	if h, ok := inferredHeight(box); ok {
		out.Height = h.total
	}
	side, deck := largest(box.Role(check.Side), thicknessOf), largest(decks(box), lengthOf)
	out.Over = side != nil && deck != nil && layOf(box, side, deck) == over
	if b, said := baseOf(box); b != nil {
		out.Raised = baseHeight(b, said).Nominal
	}
	return out
}

// Around is an opening as it was read, round the case that stands in it: x from the foot of the
// left side, y from the floor at it, in the unit of the job.
type Around struct {
	Case  check.Case
	Place *check.Opening
	Faces shape.Opening
	Level shape.Rect // plumb and level between the faces as read

	Plumb, Floor bool    // a lean of a side, of floor or head was read; else they are taken as true
	Sure         float64 // width that goes in for certain, over all errors of the readings; 0 without a lean
	Guessed      bool    // nobody read which face bulges, or which way one leans

	Width, Height check.Value // of the case
}

// Arounds are the openings of the cases of a job of which more than one width was read, or a
// width and a lean.
func Arounds(j *check.Job) []Around {
	var out []Around
	for _, box := range boxes(j) {
		if place := placeOf(j, box); place != nil {
			if a, ok := aroundOf(j, box, place); ok {
				out = append(out, a)
			}
		}
	}
	return out
}

func aroundOf(j *check.Job, box check.Case, place *check.Opening) (Around, bool) {
	a := Around{Case: box, Place: place}
	for _, d := range []direction{inWidth, inHeight} {
		if c, ok := chainOf(j, box, place, d); ok && d.name == "width" {
			a.Width = c.total
		} else if ok {
			a.Height = c.total
		}
	}
	width := sides(j, place)
	l, plumb := width.level()
	switch {
	case plumb:
		l = narrowed(j, box, place, l, inWidth)
		a.Plumb, a.Sure, a.Guessed = true, l.sure, l.guessed
		a.Faces.Left, a.Faces.Right = profile(l.along, l.near), profile(l.along, l.far)
	case len(width.along) > 1:
		a.Faces.Left, a.Faces.Right = width.upright()
	default:
		return a, false
	}
	a.Faces.Floor, a.Faces.Head, a.Floor = floorHead(j, place)
	level, err := a.Faces.Level(shape.Doubt{})
	a.Level = level
	return a, err == nil && a.Width.Known
}

// upright are two faces of which no lean was read: what the sizes differ by is shared.
func (b band) upright() (near, far shape.Profile) {
	least := b.size[0]
	for _, s := range b.size {
		least = min(least, s)
	}
	for i, y := range b.along {
		half := (b.size[i] - least) / 2
		near = append(near, shape.Reading{Along: y, Off: -half})
		far = append(far, shape.Reading{Along: y, Off: least + half})
	}
	return near, far
}

// floorHead are floor and head as read; level where no lean was, the floor first.
func floorHead(j *check.Job, place *check.Opening) (floor, head shape.Profile, read bool) {
	b := floorAndHead(j, place)
	if l, ok := b.level(); ok {
		return profile(l.along, l.near), profile(l.along, l.far), true
	}
	if len(b.along) > 1 {
		return flat(0), profile(b.along, b.size), false
	}
	return flat(0), flat(lengthOfFace(j, place.Heights)), false
}
