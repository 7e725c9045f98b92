package opening

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// direction is what differs between width, height and depth: one question, three ways.
type direction struct {
	name     string
	readings func(*check.Opening) []check.Reading
	coming   string  // surface whose finish to come takes from this size
	times    float64 // on so many of its faces
	play     string  // its clearance in the standards
	sides    float64 // wanted so many times
	ends     float64 // coated faces at the ends of the run
}

var (
	inWidth = direction{"width", func(o *check.Opening) []check.Reading { return o.Widths }, "walls", 2, "clearance per side", 2, 2}
	// The finish of the floor is the one that is forgotten; a ceiling still to come counts too.
	inHeight = direction{"height", func(o *check.Opening) []check.Reading { return o.Heights }, "floor", 1, "clearance at head", 1, 1}
	inDepth  = direction{"depth", func(o *check.Opening) []check.Reading { return o.Depths }, "walls", 1, "clearance at back", 1, 1}
)

var sizeInputs = []check.Input{
	{Symbol: "R", Name: "run of parts", Unit: check.Length},
	{Symbol: "F", Name: "finish on the run", Unit: check.Film, Measure: "measure the film on a painted sample"},
	{Symbol: "g", Name: "clearance to get it in", Unit: check.Length},
	{Symbol: "o", Name: "measured size", Unit: check.Length},
	{Symbol: "h", Name: "finish still to come", Unit: check.Length},
}

func sizeSteps() []check.Step {
	return []check.Step{
		{Symbol: "A", Name: "room left for the case", Formula: "o-h", Unit: check.Length},
		{Symbol: "s", Name: "spare", Formula: "A-R-F", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "s-g", Unit: check.Length},
	}
}

// sizeInputsFor names the measured size as what it is: the height of one opening.
func sizeInputsFor(name string) []check.Input {
	in := append([]check.Input{}, sizeInputs...)
	in[3].Name = "measured " + name
	return in
}

var sizeSource = []check.Source{
	{Title: "sum of a chain of parts against the smallest reading", How: "common practice"},
	{Title: "clearances: shop figures in the standards, group opening", How: "house rule"},
}

// sizeSays writes the chain out, as far as a sentence of twenty words holds it; the working has
// it whole.
func sizeSays(name string) func(*check.Result) string {
	return func(r *check.Result) string {
		chain, run, room := r.Row.Words["chain"], "run of "+r.Print("R"), figure(r, "A")
		switch {
		case r.Values["s"] < 0:
			over := r.PrintSize("s") + " over"
			return brief(r, fmt.Sprintf("%s, %s the %s %s", chain, over, name, room), fmt.Sprintf("%s, %s %s", chain, over, room),
				fmt.Sprintf("%s, %s over %s", strings.TrimSuffix(chain, " "+r.Job.Unit.String()), strings.TrimSuffix(r.PrintSize("s"), " "+r.Job.Unit.String()), room),
				fmt.Sprintf("%s, %s the %s %s", run, over, name, room))
		case r.Values["m"] < 0:
			leaves := fmt.Sprintf("leaves %s of %s, wanted %s", figure(r, "s"), room, figure(r, "g"))
			return brief(r, chain+" "+leaves, run+" "+leaves)
		}
		return brief(r, fmt.Sprintf("%s only just goes into %s", chain, room), fmt.Sprintf("%s only just goes into %s", run, room))
	}
}

// mostWords is how long a sentence may be with the name of what it speaks of.
const mostWords = 20

// brief is the first of some sentences that is short enough, else the last.
func brief(r *check.Result, sentences ...string) string {
	for _, s := range sentences {
		if len(strings.Fields(r.Row.Name+" "+s)) <= mostWords {
			return s
		}
	}
	return sentences[len(sentences)-1]
}

// sizeWay is what clears a run, with the part of it that is best made shorter.
func sizeWay(r *check.Result) string {
	if way := measureIt(r); way != "" {
		return way
	}
	if r.Verdict != check.Hold || r.Fix == nil || r.Fix.Symbol != "R" || r.Fix.Measure != "" || r.Row.Words["longest"] == "" {
		return ""
	}
	var size, n float64
	if _, err := fmt.Sscanf(r.Row.Words["of"], "%g %g", &size, &n); err != nil {
		return ""
	}
	to := size - (r.Values["R"]-r.Fix.To)/n
	step := r.Job.PerInch() / 64
	if r.Job.Unit == length.Millimetre {
		step = .1
	}
	if to = math.Floor(to/step+1e-6) * step; to <= 0 {
		return ""
	}
	return fmt.Sprintf("%s: %s %s", r.Fix.Text, r.Row.Words["longest"], r.Job.Len(to))
}

// asLong names the part of a link, and those of its case that go with it: the bottom and the
// fixed shelves with the top, the right side with the left.
func asLong(box check.Case, l link, d direction) []string {
	names := []string{l.name}
	of := slices.IndexFunc(box.Parts, func(p *check.Part) bool { return p.Name() == l.name })
	if of < 0 {
		return names
	}
	for _, p := range box.Parts {
		decks := (p.Role == check.Shelf || slices.Contains(decks(box), p)) && slices.Contains(decks(box), box.Parts[of])
		size := along(p, d.name)
		if p.Name() != l.name && (decks || p.Role == box.Parts[of].Role) && size.Known && math.Abs(size.Nominal-l.size.Nominal) < 1e-6 {
			names = append(names, p.Name())
		}
	}
	return names
}

// measureIt says at which reading a size holds that nobody measured on site.
func measureIt(r *check.Result) string {
	t := r.Turns
	if r.Row.Rests == "" || r.Verdict != check.Verify || t == nil || t.Symbol != "o" || !t.Alone {
		return ""
	}
	return fmt.Sprintf("measure it on site, at three places, floor and plaster in: holds from %s; taken as %s", r.Job.Len(t.At), r.Print("o"))
}

// sizeRows are the typed runs, and the cases of which nobody typed one.
func sizeRows(j *check.Job, d direction) []check.Row {
	var out []check.Row
	told := map[string]bool{}
	for _, run := range j.Runs {
		if run.Direction != d.name {
			continue
		}
		t := targetOf(j, run)
		told[t.box.Label()] = true
		out = append(out, typedRow(j, run, t, d))
	}
	for _, box := range boxes(j) {
		if told[box.Label()] {
			continue
		}
		if c, ok := inferred(j, box, d.name); ok {
			out = append(out, sizeRow(j, box, placeOf(j, box), c, d))
		}
	}
	if d.name == "width" {
		out = append(out, ledgeRows(j, told)...)
	}
	return out
}

// target is what a typed run must fit.
type target struct {
	box   check.Case
	place *check.Opening
	inner bool // the inside of the liner of the job, not the opening
}

func targetOf(j *check.Job, run *check.Run) target {
	t := target{box: check.Case{Name: run.Case.Text}}
	if t.box.Name == "" {
		t.box.Name = run.Fits.Text
	}
	for _, o := range j.Openings {
		if t.box.Is(o.Name.Text) || (check.Case{Name: run.Fits.Text}).Is(o.Name.Text) || len(j.Openings) == 1 {
			t.place = o
		}
	}
	most := 0
	for _, each := range boxes(j) {
		if n := namedIn(j, run, each); t.place != nil && placeOf(j, each) == t.place && n < most {
			continue // another case of the same opening has more parts in the run
		} else {
			most = n
		}
		if each.Is(run.Case.Text) || each.Is(run.Fits.Text) || t.place != nil && placeOf(j, each) == t.place {
			t.box = each
			if t.place == nil {
				t.place = placeOf(j, each)
			}
		}
	}
	t.inner = saysLiner(run.Fits.Text)
	return t
}

// namedIn counts the marks of a run that are those of parts of a case.
func namedIn(j *check.Job, run *check.Run, box check.Case) int {
	n := 0
	for _, it := range run.Items {
		if p := j.Part(it.Mark); p != nil && slices.Contains(box.Parts, p) {
			n++
		}
	}
	return n
}

func typedRow(j *check.Job, run *check.Run, t target, d direction) check.Row {
	r := sizeRow(j, t.box, t.place, typedChain(j, t.box, run), d)
	if run.Clearance.Known {
		r.In["g"] = run.Clearance
	}
	switch {
	case t.inner:
		if inside, ok := insideOf(j, d.name); ok {
			r.In["o"], r.In["h"], r.Rests = inside, none("the liner is finished"), ""
			if !run.Clearance.Known {
				r.In["g"] = none("no clearance typed")
			}
		}
	case d.name == "height" && t.place != nil && saysCeiling(run.Fits.Text):
		r.In["o"] = noReading(t.place, "ceiling height")
		if t.place.Ceiling.Known {
			r.In["o"] = t.place.Ceiling.PlusMinus(closeness(j, t.place, t.place.Heights).Nominal)
		}
	}
	return r
}

func sizeRow(j *check.Job, box check.Case, place *check.Opening, c chain, d direction) check.Row {
	r := check.Row{Case: box.Name, Name: box.Title(), Marks: c.marks, Cells: c.cells, Terms: c.terms(),
		Words: map[string]string{"chain": c.short(j)}, Cause: d.name}
	if c.total.Known && len(c.gathered()) > 1 {
		if l := c.longestLink(); l.size.Known {
			r.Words["longest"], r.Words["of"] = strings.Join(asLong(box, l, d), ", "), fmt.Sprintf("%.17g %.17g", l.size.Nominal, l.n)
		}
	}
	r.In = map[string]check.Value{"R": c.run(j), "F": film(j, box, d.ends, c.contacts()),
		"g": wish(j.Standard("opening", "case", d.play, check.Length).Scale(d.sides))}
	if c.trimmed {
		r.In["g"] = none("the scribe takes up the play")
	}
	if place == nil {
		r.In["o"], r.In["h"] = noPlace(j, box, d.name), none("no site measure")
		return r
	}
	r.In["o"] = measured(j, place, d.readings(place), d.name)
	r.In["h"] = coming(place, d)
	r.Rests = rests(place, d.readings(place))
	return r
}

// coming is the finish that the form says will still be put on in a direction.
func coming(o *check.Opening, d direction) check.Value {
	v := said(o, d.coming).Scale(d.times)
	if d.name != "height" {
		return v
	}
	c := said(o, "ceiling")
	if c.Nominal == 0 {
		return v
	}
	return because(check.Between(v.Low+c.Low, v.Nominal+c.Nominal, v.High+c.High), v.Why+"; "+c.Why)
}

// film is the finish on the outer faces of a run. Parts that are finished before they go
// together carry two more films wherever one meets the next.
func film(j *check.Job, box check.Case, ends, contacts float64) check.Value {
	for _, p := range box.Role(check.Side) {
		if f, ok, _ := j.Finish(p.Finish.Text); ok && p.Finish.Text != "" {
			v := j.Entry(f.Film, check.Film)
			return check.Guess(ends*v.Low, ends*v.Nominal, (ends+2*contacts)*v.High, "from the ends alone to every meeting face: "+v.Why)
		}
	}
	paint, _, _ := j.Finish("paint")
	return check.Guess(0, 0, (ends+2*contacts)*j.Entry(paint.Film, check.Film).High, "finish of the sides unsaid")
}
