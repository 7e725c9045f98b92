package opening

import (
	"fmt"

	"dryfit/check"
)

// Width, Height and Depth ask one question in three directions: does the run of parts, with
// its finish and the clearance it needs, go into the smallest measured size, less what will
// still be put on floor, walls and ceiling?
var (
	Width = size("width", direction{
		readings: func(o *check.Opening) []check.Reading { return o.Widths },
		coming:   "walls",
		play:     "clearance per side", sides: 2,
		order: "make the run {} wide", fails: "a case 71 3/4 wide in an alcove 71 5/8 at the floor", mended: "the case 71 1/8",
	})
	Height = size("height", direction{
		readings: func(o *check.Opening) []check.Reading { return o.Heights },
		coming:   "floor",
		play:     "clearance at head", sides: 1,
		order: "make it {} high", fails: "sides 89 1/2 under 90, with 3/4 of oak still to come on the floor", mended: "sides 88 3/4",
	})
	Depth = size("depth", direction{
		readings: func(o *check.Opening) []check.Reading { return o.Depths },
		coming:   "walls",
		play:     "clearance at back", sides: 1,
		order: "make it {} deep", fails: "sides 15 deep in a recess of 14 3/4", mended: "sides 14 1/2",
	})
)

// direction is what differs between the three.
type direction struct {
	readings             func(*check.Opening) []check.Reading
	coming               string // surface whose finish to come takes from this size
	play                 string // its clearance in the standards
	sides                float64
	order, fails, mended string
}

func size(name string, d direction) *check.Check {
	return &check.Check{
		ID:      "opening." + name,
		Asks:    fmt.Sprintf("Does the run of parts go into the measured %s?", name),
		Costs:   "a finished case that stands in front of its opening",
		Applies: "every case with sides, and every run that is typed",
		Inputs: []check.Input{
			{Symbol: "R", Name: "run of parts", Unit: check.Length},
			{Symbol: "F", Name: "finish on both ends", Unit: check.Film},
			{Symbol: "g", Name: "clearance to get it in", Unit: check.Length},
			{Symbol: "o", Name: "measured " + name, Unit: check.Length},
			{Symbol: "h", Name: "finish still to come", Unit: check.Length},
		},
		Steps: []check.Step{
			{Symbol: "A", Name: "room left for the case", Formula: "o-h", Unit: check.Length},
			{Symbol: "s", Name: "spare", Formula: "A-R-F", Unit: check.Length},
			{Symbol: "m", Name: "margin", Formula: "s-g", Unit: check.Length},
		},
		Mends:  []check.Mend{{Symbol: "R", Order: d.order, Down: true, Reach: 256}},
		NoMend: "measure the opening where it is smallest",
		Source: []check.Source{{Title: "sum of a chain of parts against the smallest reading", How: "common practice"}},
		Limits: "Takes the opening as square and plumb: a leaning side, a twist or a bow between readings is not seen. Does not say how wide a gap must be covered.",
		Until:  check.Released,
		Value:  "s", Against: []string{"g"},
		Fails: d.fails, Mended: d.mended,
		Rows: func(j *check.Job) []check.Row { return sizeRows(j, name, d) },
		Says: sizeSays(name),
	}
}

func sizeSays(name string) func(*check.Result) string {
	return func(r *check.Result) string {
		chain := r.Row.Words["chain"]
		if r.Values["s"] < 0 {
			return fmt.Sprintf("%s: %s too much for a %s of %s", chain, r.PrintSize("s"), name, r.Print("A"))
		}
		return fmt.Sprintf("%s leaves %s of a %s of %s; %s is wanted", chain, r.Print("s"), name, r.Print("A"), r.Print("g"))
	}
}

func sizeRows(j *check.Job, name string, d direction) []check.Row {
	var out []check.Row
	told := map[string]bool{}
	for _, run := range j.Runs {
		if run.Direction != name {
			continue
		}
		r, label := typedRow(j, run, name, d)
		told[label] = true
		out = append(out, r)
	}
	for _, box := range boxes(j) {
		if told[box.Label()] {
			continue
		}
		if c, ok := inferred(j, box, name); ok {
			out = append(out, sizeRow(j, box, placeOf(j, box), c, name, d, check.Value{}))
		}
	}
	return out
}

// typedRow holds a typed run against what it says it must fit.
func typedRow(j *check.Job, run *check.Run, name string, d direction) (check.Row, string) {
	var place *check.Opening
	box := check.Case{Name: run.Fits.Text}
	for _, o := range j.Openings {
		if box.Is(o.Name.Text) || len(j.Openings) == 1 {
			place = o
		}
	}
	for _, each := range boxes(j) {
		if each.Is(run.Fits.Text) || place != nil && placeOf(j, each) == place {
			box = each
		}
	}
	return sizeRow(j, box, place, typedChain(j, run), name, d, run.Clearance), box.Label()
}

func sizeRow(j *check.Job, box check.Case, place *check.Opening, c chain, name string, d direction, wanted check.Value) check.Row {
	r := check.Row{Case: box.Name, Name: label(box), Marks: c.marks, Cells: c.cells,
		Words: map[string]string{"chain": c.text}, Cause: name}
	g := wish(j.Standard("opening", "case", d.play, check.Length).Scale(d.sides))
	if wanted.Known {
		g = wanted
	}
	r.In = map[string]check.Value{"R": c.total, "F": endFilm(j, box, d.sides), "g": g}
	if place == nil {
		r.In["o"], r.In["h"] = noPlace(j, name), check.Exact(0)
		return r
	}
	r.In["o"] = measured(j, place, d.readings(place), name)
	r.In["h"] = toCome(place, d.coming, d.sides)
	return r
}

// wish is a clearance that the shop would like: less of it, down to the low end, still lets
// the case in.
func wish(v check.Value) check.Value {
	v.High = v.Nominal
	return v
}

func label(box check.Case) string {
	if box.Name == "" {
		return box.Label()
	}
	return "Case " + box.Name
}

func noPlace(j *check.Job, name string) check.Value {
	if len(j.Openings) == 0 {
		return check.Missing(check.Ask{Tab: "site", What: "the measured " + name})
	}
	return check.Missing(check.Ask{What: "the opening it stands in, on the site tab, by the name of the case"})
}

// endFilm is the finish on the outer faces of the run.
func endFilm(j *check.Job, box check.Case, faces float64) check.Value {
	for _, p := range box.Role(check.Side) {
		if f, ok, _ := j.Shop.Finish(p.Finish.Text); ok && p.Finish.Text != "" {
			return j.Entry(f.Film, check.Film).Scale(faces)
		}
	}
	paint, _, _ := j.Shop.Finish("paint")
	return check.Guess(0, 0, faces*j.Entry(paint.Film, check.Film).High, "finish of the sides unsaid")
}
