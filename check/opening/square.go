package opening

import (
	"fmt"

	"dryfit/check"
	"dryfit/check/shape"
)

// Square asks whether the case goes in level and plumb. Sides that lean the same way leave
// less than every width that was read: the level rectangle runs from the largest of the left
// side to the least of the right. It also asks whether the scribe covers the widest gap that
// is left, and whether the readings agree with each other.
var Square = &check.Check{
	ID:      "opening.square",
	Asks:    "Does the case go in level and plumb, does the scribe cover what is left, and do the readings agree?",
	Costs:   "a case that fits every width and still does not go in, or a gap that nothing covers",
	Applies: "every case in an opening of which a lean or both diagonals were read; every scribe and filler; readings that check each other",
	Inputs: []check.Input{
		{Symbol: "L", Name: "level size", Unit: check.Length, Measure: "read plumb and level again, with direction and length"},
		{Symbol: "w", Name: "smallest reading", Unit: check.Length},
		{Symbol: "p", Name: "first face out of straight by", Unit: check.Length},
		{Symbol: "q", Name: "other face out of straight by", Unit: check.Length},
		{Symbol: "T", Name: "size when the case may lean", Unit: check.Length},
		{Symbol: "h", Name: "finish still to come", Unit: check.Length},
		{Symbol: "R", Name: "run of parts", Unit: check.Length},
		{Symbol: "F", Name: "finish on the run", Unit: check.Film, Measure: "measure the film on a painted sample"},
		{Symbol: "g", Name: "clearance to get it in", Unit: check.Length},
		{Symbol: "S", Name: "scribe or filler at each edge, 0 for none", Unit: check.Length},
		{Symbol: "k", Name: "least of it left after fitting", Unit: check.Length},
		{Symbol: "x", Name: "readings disagree by", Unit: check.Length},
		{Symbol: "a", Name: "most they may disagree by", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "U", Name: "bound: no level rectangle is larger than", Formula: "w", Unit: check.Length, Aside: true},
		{Symbol: "B", Name: "bound: it is no smaller than", Formula: "w-p-q", Unit: check.Length, Aside: true},
		{Symbol: "s", Name: "spare, level and plumb", Formula: "L-h-R-F", Unit: check.Length},
		{Symbol: "l", Name: "spare when the case may lean", Formula: "T-h-R-F", Unit: check.Length, Aside: true},
		{Symbol: "G", Name: "widest gap left to cover, case in the middle", Formula: "MAX((s+p+q)/2,p,q)", Unit: check.Length},
		{Symbol: "c", Name: "scribe to spare", Formula: "IF(S>0,S-k-G,s-g)", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "MIN(s-g,c,a-x)", Unit: check.Length},
	},
	Mends: []check.Mend{
		{Symbol: "S", Order: "make scribe or filler {} wide", Up: true, Step: .0625, StepMM: 1, Reach: 48},
		{Symbol: "R", Order: "make the run {}", Step: .0625, StepMM: 1, Reach: 128},
	},
	NoMend: "read the opening again: widths, plumb with direction and length, both diagonals",
	Source: []check.Source{
		{Title: "level rectangle between two leaning faces: largest of one, least of the other", How: "common practice"},
		{Title: "lean from two diagonals: two right triangles over one height", How: "common practice"},
		{Title: "a case may lean 1/8 in 96: ANSI/AWI 0620-2018 3.1 h", How: "read, second hand"},
		{Title: "readings that disagree by over four tapes, or diagonals by over 1/4 in, are read again", How: "house rule"},
	},
	Limits: "Between readings a face is straight. A lean read over a short level is carried on to the end. " +
		"Diagonals tell a lean no closer than they were read: no use under 1/4 in. A twist is seen only as leans that differ; sides that bow the same way show in no width.",
	Until: check.Released,
	Value: "s", Against: []string{"g"},
	Fails: "widths 94, 93 3/4, 94, both sides leaning 3/8 to one side, and a case 93 3/8", Mended: "the case 93",
	Rows: squareRows,
	Says: squareSays,
	Way:  squareWay,
}

func squareSays(r *check.Result) string {
	switch {
	case r.Row.Words["kind"] == "readings":
		return fmt.Sprintf("readings disagree by %s: %s", r.Print("x"), r.Row.Words["readings"])
	case r.Values["s"] >= 0 && r.Values["s"] < r.Values["g"]:
		leaves := fmt.Sprintf(" leaves %s of the level %s %s, wanted %s", figure(r, "s"), r.Row.Words["direction"], figure(r, "L"), r.Print("g"))
		return brief(r, r.Row.Words["chain"]+leaves, "run of "+r.Print("R")+leaves)
	case r.Values["s"] < 0:
		level := fmt.Sprintf("; level %s only %s", r.Row.Words["direction"], r.Print("L"))
		return brief(r, r.Row.Words["chain"]+level, "run of "+r.Print("R")+level)
	case r.Values["S"] > 0 && r.Values["c"] < 0:
		return fmt.Sprintf("widest gap is %s; scribe or filler of %s covers %s less", r.Print("G"), r.Print("S"), r.PrintSize("c"))
	}
	return fmt.Sprintf("%s to spare in a level %s of %s: rests on the %s", r.Print("s"), r.Row.Words["direction"], r.Print("L"), r.Check.Named(r.Decides))
}

// squareWay offers the lean that a case may take, where that lets it in.
func squareWay(r *check.Result) string {
	if r.Row.Words["kind"] == "readings" || r.Fix == nil || r.Values["l"] < r.Values["g"] || r.Values["s"] >= r.Values["g"] {
		return ""
	}
	return fmt.Sprintf("%s; or set it out of plumb, at most %s over %s", r.Fix.Text, r.Job.Len(r.Job.PerInch()/8), r.Job.Len(96*r.Job.PerInch()))
}

func squareRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, box := range boxes(j) {
		place := placeOf(j, box)
		for _, d := range []direction{inWidth, inHeight, inDepth} {
			c, ok := chainOf(j, box, place, d)
			if !ok {
				continue
			}
			if r, ok := squareRow(j, box, place, c, d); ok {
				out = append(out, r)
			}
		}
	}
	for _, o := range j.Openings {
		if r, ok := readingsRow(j, o); ok {
			out = append(out, r)
		}
	}
	return out
}

// chainOf is the run of a case in a direction: as typed, else inferred.
func chainOf(j *check.Job, box check.Case, place *check.Opening, d direction) (chain, bool) {
	for _, run := range j.Runs {
		if run.Direction != d.name || saysLiner(run.Fits.Text) || saysCeiling(run.Fits.Text) {
			continue
		}
		if t := targetOf(j, run); t.box.Label() == box.Label() && t.place == place {
			return typedChain(j, box, run), true
		}
	}
	return inferred(j, box, d.name)
}

// squareRow is one direction of one case. It is not asked where no lean was read and nothing
// is there to cover a gap: then width and height have said all there is.
func squareRow(j *check.Job, box check.Case, place *check.Opening, c chain, d direction) (check.Row, bool) {
	r := sizeRow(j, box, place, c, d)
	r.Words["direction"], r.Cause, r.Under, r.Rests = d.name, "level "+d.name, "opening."+d.name, ""
	in := map[string]check.Value{"R": r.In["R"], "F": r.In["F"], "g": leastOf(r.In["g"]), "h": r.In["h"],
		"w": none(""), "p": none(""), "q": none(""), "T": none(""), "S": none("nothing to cover a gap"),
		"k": none("nothing to cover a gap"), "x": none("asked by itself"), "a": none("asked by itself")}
	r.In = in
	if place == nil {
		in["L"] = noPlace(j, box, d.name)
		return r, true
	}
	if len(d.readings(place)) == 0 {
		return r, false // the size itself asks for it
	}
	if d.name == "width" {
		in["S"], in["k"] = cover(j, box)
	}
	least, _ := check.Smallest(d.readings(place))
	in["w"] = least.Value
	l, read := levelOf(j, place, d)
	if !read {
		if in["S"].Nominal == 0 || len(frontal(place.Widths)) < 2 {
			return r, false
		}
		return r, uncovered(j, place, r)
	}
	l = narrowed(j, box, place, l, d)
	r.Rests = contested(j, place)
	in["L"] = l.value(j, methodOf(d))
	p, q := l.outOfStraight()
	in["p"], in["q"] = because(check.Exact(p), "greatest less least of the face"), because(check.Exact(q), "greatest less least of the face")
	in["T"] = leaned(j, place, c, l, d)
	return r, true
}

// leastOf is the least clearance that lets a case in: the readings of the level size bring
// their own doubt, and the wish for more is asked of the plain size.
func leastOf(v check.Value) check.Value {
	if !v.Guessed {
		return v
	}
	return because(check.Exact(v.Low), "the least of "+v.Why)
}

func methodOf(d direction) string {
	if d.name == "depth" {
		return "solver: least depth less the lean of the back wall, over the errors of the readings"
	}
	return "solver: largest rectangle between the two faces as read, each bulge given to either face, errors of the readings by root-sum-square"
}

func levelOf(j *check.Job, o *check.Opening, d direction) (level, bool) {
	switch d.name {
	case "width":
		return sides(j, o).level()
	case "height":
		return floorAndHead(j, o).level()
	}
	return levelDepth(j, o)
}

// narrowed takes off what the corners close towards the back.
func narrowed(j *check.Job, box check.Case, o *check.Opening, l level, d direction) level {
	deep, ok := inferredDepth(box)
	if d.name != "width" || !ok || !deep.total.Known {
		return l
	}
	c := closing(j, o, deep.total.Nominal)
	l.sure -= c.High
	l.low, l.nominal, l.high = l.low-c.High, l.nominal-c.Nominal, l.high-c.Low
	l.guessed = l.guessed || c.Guessed
	return l
}

// uncovered binds a row that only asks whether the scribe covers: the faces differ by what the
// widths differ.
func uncovered(j *check.Job, o *check.Opening, r check.Row) bool {
	most := 0.0
	for _, each := range frontal(o.Widths) {
		most = max(most, each.Value.Nominal)
	}
	r.In["L"] = measured(j, o, o.Widths, "width")
	r.In["q"] = because(check.Exact(most-r.In["w"].Nominal), "largest less smallest width; no lean was read")
	r.In["T"] = because(check.Exact(r.In["w"].Nominal), "no lean was read")
	return true
}

// cover is the scribe or filler of a case, and how much of it must be left.
func cover(j *check.Job, box check.Case) (stock, left check.Value) {
	strip := largest(box.Role(check.Scribe, check.Filler), widthOf)
	if strip == nil {
		return none("no scribe or filler in the schedule"), none("no scribe or filler in the schedule")
	}
	return strip.Width, limit(j.Standard("opening", "scribe", "left after fitting", check.Length))
}

// leaned is the widest case that goes in when it may lean as far as a case may.
func leaned(j *check.Job, o *check.Opening, c chain, l level, d direction) check.Value {
	same := because(check.Exact(l.nominal), "may lean only between the sides")
	if d.name != "width" {
		return same
	}
	high := lengthOfFace(j, o.Heights)
	open := shape.Opening{Left: profile(l.along, l.near), Right: profile(l.along, l.far), Floor: flat(0), Head: flat(high)}
	most := j.Standard("opening", "case", "lean", check.Ratio).Nominal / 12
	width, lean, err := open.Turned(high-most*c.total.Nominal, most)
	if err != nil {
		return same
	}
	return because(check.Exact(max(width, l.nominal)), fmt.Sprintf("solver: search over leans up to 1/8 in 96, best at %s in the height", j.Len(lean*high)))
}

// contested is what rests on the readings of an opening where they contradict each other, ""
// where they agree: a case that only perhaps goes in is then the same question.
func contested(j *check.Job, o *check.Opening) string {
	rule, by, _, ok := disagreement(j, surveyOf(j, o))
	if !ok || by <= rule.within {
		return ""
	}
	return readingsOf(o)
}

func readingsOf(o *check.Opening) string { return "readings of " + o.Row.String() }

// readingsRow holds the readings of one opening against each other.
func readingsRow(j *check.Job, o *check.Opening) (check.Row, bool) {
	rule, by, words, ok := disagreement(j, surveyOf(j, o))
	if !ok {
		return check.Row{}, false
	}
	alone := none("no case: the readings against each other")
	w, _ := check.Smallest(o.Widths)
	r := check.Row{Case: o.Name.Text, Name: placeName(o), Cells: []check.Cell{o.Row}, Most: check.Verify, Cause: "readings", Rests: readingsOf(o), Speaks: true,
		Words: map[string]string{"kind": "readings", "readings": words}}
	r.In = map[string]check.Value{"L": because(check.Exact(w.Value.Nominal), "no case: the readings against each other"), "w": w.Value,
		"p": alone, "q": alone, "T": alone, "h": alone, "R": alone, "F": alone, "g": alone, "S": alone, "k": alone,
		"x": because(check.Exact(by), "solver: "+rule.name), "a": because(check.Exact(rule.within), "four times the error of a reading, or the shop's figure for diagonals")}
	return r, true
}
