package opening

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// Obstruct asks whether an outlet, a vent, a thermostat, a baseboard or a crown is in the way of
// a part. The clear distance of two rectangles is the largest of the four gaps between them.
var Obstruct = &check.Check{
	ID:      "opening.obstruct",
	Asks:    "Is an outlet, a vent, a thermostat, the base or the crown in the way of a part?",
	Costs:   "a finished back cut with a jigsaw in the room, or an outlet buried behind it",
	Applies: "everything that the site form names in the opening of a case with its place, unless a note of the case speaks of it; base and crown where the opening runs to the ceiling",
	Inputs:  obstructInputs,
	Steps:   obstructSteps,
	NoMend:  "cut the part out for it, or have it moved; a note that names it settles this",
	Source: []check.Source{
		{Title: "distance between two level rectangles", How: "common practice"},
		{Title: "size of a wall plate, room around it: standards, group opening", How: "common practice"},
	},
	Limits: "The case is taken to stand in the middle of its opening. Cords, plugs and doors that swing are not seen. Electrical rules are for an electrician.",
	Until:  check.Released,
	Value:  "c", Against: []string{"k"},
	Fails: "an outlet 14 up and 22 from the left behind a case with a back", Mended: "a note on the back: cut out for outlet",
	Rows: obstructRows,
	Says: func(r *check.Result) string {
		if r.Values["c"] < 0 {
			return fmt.Sprintf("%s behind %s%s", r.Row.Words["thing"], r.Row.Words["part"], r.Row.Words["more"])
		}
		return fmt.Sprintf("%s is %s from %s; %s is wanted", r.Row.Words["thing"], r.Print("c"), r.Row.Words["part"], r.Print("k"))
	},
}

// obstructInputs are what the steps work on.
var obstructInputs = []check.Input{
	{Symbol: "x", Name: "middle from the left", Unit: check.Length},
	{Symbol: "y", Name: "middle from the floor", Unit: check.Length},
	{Symbol: "a", Name: "width", Unit: check.Length},
	{Symbol: "b", Name: "height", Unit: check.Length},
	{Symbol: "x1", Name: "part from the left", Unit: check.Length},
	{Symbol: "x2", Name: "part to", Unit: check.Length},
	{Symbol: "y1", Name: "part from the floor", Unit: check.Length},
	{Symbol: "y2", Name: "part up to", Unit: check.Length},
	{Symbol: "k", Name: "clear around it", Unit: check.Length},
}

var obstructSteps = []check.Step{
	{Symbol: "u", Name: "clear sideways", Formula: "MAX(x1-x-a/2,x-a/2-x2)", Unit: check.Length},
	{Symbol: "v", Name: "clear up and down", Formula: "MAX(y1-y-b/2,y-b/2-y2)", Unit: check.Length},
	{Symbol: "c", Name: "clear of the part", Formula: "MAX(u,v)", Unit: check.Length},
	{Symbol: "m", Name: "margin", Formula: "c-k", Unit: check.Length},
}

// distance works the steps by themselves, to count what is in the way.
var distance = &check.Check{ID: "opening.obstruct", Inputs: obstructInputs, Steps: obstructSteps}

func obstructRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, box := range boxes(j) {
		place := placeOf(j, box)
		if place == nil {
			continue
		}
		f, ok := footprint(j, box, place)
		if !ok {
			continue
		}
		var rows []check.Row
		for i := range place.Obstacles {
			rows = append(rows, f.against(j, &place.Obstacles[i])...)
		}
		out = append(out, counted(append(rows, f.mouldings(j)...))...)
	}
	return out
}

// counted tells each of the things in the way of a case how many more there are: they are one
// line, since one look at the place settles them.
func counted(rows []check.Row) []check.Row {
	things := map[string]bool{}
	for _, r := range rows {
		if m, err := distance.Margin(r.In); err == nil && m < 0 {
			things[r.Words["thing"]] = true
		}
	}
	for _, r := range rows {
		if n := len(things); n > 1 {
			r.Words["more"] = fmt.Sprintf("; %d more in the way", n-1)
		}
	}
	return rows
}

// front is a case as it stands in its opening, seen from the front.
type front struct {
	box        check.Case
	place      *check.Opening
	wide       float64 // of the opening
	x1, x2, y2 check.Value
}

func footprint(j *check.Job, box check.Case, place *check.Opening) (front, bool) {
	least, ok := check.Smallest(place.Widths)
	wide, ok1 := chainOf(j, box, place, inWidth)
	high, ok2 := chainOf(j, box, place, inHeight)
	if !ok || !ok1 || !ok2 || !wide.total.Known || !high.total.Known {
		return front{}, false
	}
	f := front{box: box, place: place, wide: least.Value.Nominal, y2: high.run(j)}
	gap := max(0, f.wide-wide.total.Nominal) / 2
	f.x1 = because(check.Exact(gap), "the case in the middle of the opening")
	f.x2 = because(check.Exact(f.wide-gap), "the case in the middle of the opening")
	return f, true
}

// against holds one thing against the part that covers it: the back, a side, what stands on
// the floor; without a back, each shelf and upright whose place is typed.
func (f front) against(j *check.Job, o *check.Obstacle) []check.Row {
	nowhere := !o.X.Known && !o.Y.Known && o.On != "floor"
	if nowhere || f.answered(o.Kind) {
		return nil
	}
	in := f.thing(j, o)
	switch o.On {
	case "ceiling":
		return nil
	case "floor", "left", "right":
		sides := f.box.Role(check.Side)
		base := f.box.Role(check.Base, check.Sill, check.Head, check.Deck)
		if o.On == "floor" && len(base) > 0 {
			sides = base
		}
		return []check.Row{f.row(o, sides[0], in, f.x1, f.x2, none("from the floor"), f.y2)}
	}
	if backs := f.box.Role(check.Back); len(backs) > 0 {
		return []check.Row{f.row(o, backs[0], in, f.x1, f.x2, none("from the floor"), f.y2)}
	}
	var out []check.Row
	for _, p := range f.box.Role(check.Shelf, check.Upright, check.Divider) {
		switch {
		case p.Role == check.Shelf && p.Y.Known && p.Thickness.Known:
			out = append(out, f.row(o, p, in, f.x1, f.x2, p.Y, more(p.Y, p.Thickness)))
		case p.Role != check.Shelf && p.X.Known && p.Thickness.Known:
			left := more(p.X, f.x1)
			out = append(out, f.row(o, p, in, left, more(left, p.Thickness), none("from the floor"), f.y2))
		}
	}
	return out
}

func more(a, b check.Value) check.Value {
	return check.Between(a.Low+b.Low, a.Nominal+b.Nominal, a.High+b.High).At(a.From)
}

// answered reports a note of the case that speaks of the thing.
func (f front) answered(kind string) bool {
	words := []string{kind, "cut out", "cutout", "cut-out", "ausschnitt"}
	switch kind {
	case "outlet", "switch":
		words = append(words, "recept", "duplex", "j-box", "steckdose")
	case "vent":
		words = append(words, "register", "grille", "reg.")
	case "baseboard", "crown":
		words = append(words, "notch", "scribe to", "back-cut", "remove base", "base off")
	}
	return says(f.box.Parts, words...)
}

// thing binds where a thing is and how large, as read, else as such things are.
func (f front) thing(j *check.Job, o *check.Obstacle) map[string]check.Value {
	off := j.Standard("site", "obstacle", "reading", check.Length).Nominal
	item := "plate"
	if o.Kind == "vent" || o.Kind == "radiator" {
		item = "vent"
	}
	in := map[string]check.Value{
		"x": check.Guess(0, f.wide/2, f.wide, "nobody read how far it is from a side"),
		"y": check.Guess(0, f.y2.Nominal/2, f.y2.Nominal, "nobody read how far up it is"),
		"a": j.Standard("opening", item, "width", check.Length),
		"b": j.Standard("opening", item, "height", check.Length),
		"k": wish(j.Standard("opening", "obstacle", "clear around", check.Length)),
	}
	if o.X.Known {
		in["x"] = o.X.PlusMinus(off)
		if o.FromRight {
			x := f.wide - o.X.Nominal
			in["x"] = because(check.Between(x-off, x, x+off).At(o.X.From), "counted from the right")
		}
	}
	if o.Y.Known {
		in["y"] = o.Y.PlusMinus(off)
	}
	if o.Width.Known {
		in["a"] = o.Width
	}
	if o.Height.Known {
		in["b"] = o.Height
	}
	if o.On == "floor" {
		in["y"], in["b"] = because(check.Exact(f.y2.Nominal/2), "in the floor: under the case wherever that stands"), none("in the floor")
	}
	return in
}

func (f front) row(o *check.Obstacle, p *check.Part, thing map[string]check.Value, x1, x2, y1, y2 check.Value) check.Row {
	in := map[string]check.Value{"x1": x1, "x2": x2, "y1": y1, "y2": y2}
	for s, v := range thing {
		in[s] = v
	}
	words := o.Kind
	if text := strings.TrimSpace(o.Text.Text); text != "" {
		words = text
	}
	return check.Row{Case: f.box.Name, Name: f.box.Title(), Marks: []string{p.Name()}, Cells: []check.Cell{o.Text.From, p.Row}, In: in,
		Most: check.Verify, Cause: words, Folds: "in the way of " + f.box.Label(), Words: map[string]string{"thing": words, "part": p.Name()}}
}

// mouldings are base and crown of a recess that runs from the floor to the ceiling: there they
// go on round the inside.
func (f front) mouldings(j *check.Job) []check.Row {
	least, ok := check.Smallest(f.place.Heights)
	ceiling := f.place.Ceiling
	if !ok || !ceiling.Known || ceiling.Nominal-least.Value.Nominal > 2*j.PerInch() {
		return nil
	}
	var out []check.Row
	for _, m := range []struct {
		kind   string
		high   check.Value
		middle float64
	}{{"baseboard", f.place.Base, f.place.Base.Nominal / 2}, {"crown", f.place.Crown, ceiling.Nominal - f.place.Crown.Nominal/2}} {
		if !m.high.Known || m.high.Nominal <= 0 || f.answered(m.kind) {
			continue
		}
		side := f.box.Role(check.Side)[0]
		thing := map[string]check.Value{"x": check.Exact(f.wide / 2), "a": check.Exact(f.wide), "y": check.Exact(m.middle), "b": m.high,
			"k": none("the moulding itself")}
		o := &check.Obstacle{Kind: m.kind, Text: check.Text{Text: m.kind + " " + j.Len(m.high.Nominal), From: m.high.From}}
		out = append(out, f.row(o, side, thing, f.x1, f.x2, none("from the floor"), f.y2))
	}
	return out
}
