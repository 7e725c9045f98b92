package fit

import (
	"fmt"
	"math"

	"dryfit/check"
)

// Case asks whether what stands in a case has the clearance it wants: loose shelves between
// the sides and not deeper than they are, doors in the opening or over it. Where nobody said
// whether top and bottom stand between the sides, the reading counts under which the part
// fits best, and the word is VERIFY at most.
var Case = &check.Check{
	ID:      "fit.case",
	Asks:    "Do shelves and doors have the clearance in their case that they want, and fixed parts none?",
	Costs:   "shelves that scrape the paint off the sides or fall off their pins; doors that rub",
	Applies: "loose shelves and doors of a case with sides, top and bottom, where a reading comes near; fixed shelves, tops, bottoms and dividers against one another",
	Inputs: []check.Input{
		{Symbol: "I", Name: "opening of the case", Unit: check.Length},
		{Symbol: "P", Name: "size of the part", Unit: check.Length},
		{Symbol: "N", Name: "parts side by side", Unit: check.Count},
		{Symbol: "g", Name: "films between, in all", Unit: check.Ratio},
		{Symbol: "f", Name: "film on one face", Unit: check.Film},
		{Symbol: "a", Name: "least clearance wanted, in all", Unit: check.Length},
		{Symbol: "b", Name: "most clearance wanted, in all", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "c", Name: "clearance after finish, in all", Formula: "I-N*P-g*f", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "MIN(c-a,b-c)", Unit: check.Length},
	},
	Mends:  []check.Mend{{Symbol: "P", Order: "make it {}", Reach: 128}},
	NoMend: "measure the case as it stands, and cut the parts to it",
	Source: []check.Source{{Title: "inside of the case less the part and its films", How: "common practice"}},
	Limits: "Takes bays between dividers as equal, sides as square. Drawers and sliding doors are not asked.",
	Until:  check.Released,
	Value:  "c", Against: []string{"a", "b"},
	Fails:  "a loose shelf 34 long between sides 34 apart",
	Mended: "the shelf 33 7/8",
	Rows:   caseRows,
	Says:   caseSays,
	Way: func(r *check.Result) string {
		if r.Row.Words["exact"] == "" {
			return ""
		}
		return "make it " + r.Print("I")
	},
}

func caseSays(r *check.Result) string {
	what, of := r.Row.Words["what"], r.Print("I")
	switch c := r.Values["c"]; {
	case r.Margin() >= 0:
		return fmt.Sprintf("may not have the clearance it wants in %s: rests on the %s", r.Row.Words["opening"], r.Check.Named(r.Decides))
	case c < 0:
		return fmt.Sprintf("%s too %s for the %s of %s", r.PrintSize("c"), what, of, r.Row.Words["opening"])
	case c < r.Values["a"]:
		return fmt.Sprintf("only %s to spare in the %s of %s; %s wanted", r.Print("c"), of, r.Row.Words["opening"], r.Print("a"))
	}
	if r.Row.Words["exact"] != "" {
		return fmt.Sprintf("%s too short for the %s of %s", r.Print("c"), of, r.Row.Words["opening"])
	}
	return fmt.Sprintf("%s to spare in the %s of %s; %s at most", r.Print("c"), of, r.Row.Words["opening"], r.Print("b"))
}

func caseRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, b := range boxes(j) {
		for _, p := range b.Role(check.Adjustable) {
			if r, ok := b.looseRow(p); ok {
				out = append(out, r)
			}
			if r, ok := b.depthRow(p); ok {
				out = append(out, r)
			}
		}
		for _, p := range b.Role(check.Door) {
			if d, ok := b.doors(p); ok {
				out = append(out, d.row())
				out = append(out, d.heightRow()...)
			}
		}
		out = append(out, b.fixedRows()...)
	}
	return out
}

// near is how far off a reading may be before it is another bay, or another case.
func (b box) near() float64 { return b.job.PerInch() }

// looseRow is a loose shelf between the sides, or between side and divider.
func (b box) looseRow(p *check.Part) (check.Row, bool) {
	if !p.Length.Known {
		return check.Row{}, false
	}
	bay := b.bay()
	fin, film := finish(b.job, p)
	least := b.job.Standard("fit", "adjustable shelf in case", "clearance", check.Length)
	most := b.job.Standard("fit", "adjustable shelf in case", "most on its pins", check.Length)
	r := b.row(p, "loose shelf", p.Length)
	r.Words["what"], r.Words["opening"] = "long", b.Label()
	said := saysBetween(b.Role(check.Deck, check.Head, check.Sill)) && b.bays() == 1
	if !said {
		r.Most = check.Verify
		bay = because(check.Exact(b.closest(bay, p.Length.Nominal)).At(bay.From), bay.Why)
	}
	spare := bay.Nominal - p.Length.Nominal
	if !said && math.Abs(spare) > b.near() || spare > .25*bay.Nominal {
		return r, false // a shelf of another bay
	}
	g := 2.0 + 2*fin.Faces.Nominal/2
	r.In = map[string]check.Value{"I": bay, "P": p.Length, "N": check.Exact(1), "g": check.Exact(g), "f": settled(film),
		"a": check.Guess(0, least.Low, least.Low, least.Why), "b": upTo(most)}
	return r, true
}

// closest is the reading of the inside under which a part fits best.
func (b box) closest(v check.Value, size float64) float64 {
	if math.Abs(v.Low-size) < math.Abs(v.Nominal-size) && v.Low >= size {
		return v.Low
	}
	return v.Nominal
}

// depthRow is a loose shelf against the depth of the sides.
func (b box) depthRow(p *check.Part) (check.Row, bool) {
	if !p.Width.Known || !b.side.Width.Known {
		return check.Row{}, false
	}
	r := b.row(p, "shelf depth", p.Width)
	if b.deck.Width.Known && b.deck.Width.Nominal >= p.Width.Nominal && p.Width.Nominal > b.side.Width.Nominal {
		r.Most = check.Verify // top and bottom say that the sides are wrong
	}
	r.Words["what"], r.Words["opening"] = "deep", "the sides"
	r.In = map[string]check.Value{"I": b.side.Width, "P": p.Width, "N": check.Exact(1), "g": check.Exact(0), "f": check.Exact(0),
		"a": check.Exact(0), "b": because(check.Exact(b.side.Width.Nominal), "a shelf may be as shallow as it likes")}
	return r, true
}

func (b box) row(p *check.Part, cause string, at check.Value) check.Row {
	return check.Row{Case: p.Case.Text, Name: p.Name(), Marks: marks(p), Count: int(pieces(p)), Cells: cells(p.Row, at, b.deck.Length),
		Cause: cause, Words: map[string]string{}}
}

// door is one way in which the doors of a case may close it: so many side by side, in the
// opening or over it.
type door struct {
	box    box
	part   *check.Part
	n      float64
	inset  bool
	open   float64 // what they close
	least  float64
	most   float64
	beside float64 // how far the doors are from what this reading wants
}

// doors is the reading that the doors of a case come nearest to. In the opening, gaps all
// round want a reveal each; over it, doors cover at most the sides and at least half of each.
func (b box) doors(p *check.Part) (door, bool) {
	if !p.Width.Known || p.Width.Nominal <= 0 {
		return door{}, false
	}
	gap := b.job.Standard("fit", "door or drawer", "reveal", check.Length)
	t := b.side.Thickness.Nominal
	best, found := door{}, false
	for n := 1.0; n <= pieces(p); n++ {
		if math.Mod(pieces(p), n) != 0 {
			continue
		}
		for _, in := range b.readings() {
			all := n * p.Width.Nominal
			inset := door{box: b, part: p, n: n, inset: true, open: in, least: (n + 1) * gap.Low, most: (n + 1) * gap.High}
			over := door{box: b, part: p, n: n, open: in + 2*t, least: (n - 1) * gap.Low, most: t + (n-1)*gap.High}
			for _, d := range []door{inset, over} {
				spare := d.open - all
				d.beside = math.Max(0, math.Max(d.least-spare, spare-d.most))
				if !found || d.beside < best.beside {
					best, found = d, true
				}
			}
		}
	}
	return best, found && (best.beside < b.near() || b.covered(best))
}

// covered reports whether the only doors of a case, side by side over its sides, are wider than
// it is, by less than another case would be.
func (b box) covered(d door) bool {
	wide := d.n * d.part.Width.Nominal
	return d.n == pieces(d.part) && len(b.Role(check.Door)) == 1 && wide > d.open && wide < 1.25*d.open
}

func (b box) readings() []float64 {
	if b.inner.Low == b.inner.Nominal {
		return []float64{b.inner.Nominal}
	}
	return []float64{b.inner.Nominal, b.inner.Low}
}

// heightRow is a door against the height of the sides: between them it may still lie over top
// and bottom. It may be as low as it likes, others stand over it.
func (d door) heightRow() []check.Row {
	b, p := d.box, d.part
	side := longest(b.Role(check.Side), long)
	if side == nil || !p.Length.Known || p.Length.Nominal < p.Width.Nominal || p.Length.Nominal > 1.25*side.Length.Nominal || len(b.Role(check.Base)) > 0 {
		return nil
	}
	high := side.Length.Nominal
	r := b.row(p, "door height", p.Length)
	r.Most = check.Verify
	r.Words["what"], r.Words["opening"], r.Words["exact"] = "high", b.Label(), "yes"
	r.In = map[string]check.Value{"I": because(check.Exact(high), "as high as the sides"), "P": p.Length, "N": check.Exact(1), "g": check.Exact(0), "f": check.Exact(0),
		"a": check.Exact(-b.job.PerInch() / 16), "b": because(check.Exact(high), "a door may be as low as it likes")}
	return []check.Row{r}
}

func (d door) row() check.Row {
	r := d.box.row(d.part, "door", d.part.Width)
	r.Most = check.Verify
	r.Words["what"], r.Words["opening"] = "wide", d.box.Label()
	_, film := finish(d.box.job, d.part)
	films := 0.0
	if d.inset {
		films = 2*d.n + 2
	}
	opening := check.Exact(d.open)
	opening.Why = "over the sides"
	if d.inset {
		opening = because(check.Exact(d.open).At(d.box.deck.Length.From), "between the sides")
	}
	slack := d.box.job.Standard("spread", "part cut to size", "CNC, 2 sigma", check.Film).Nominal
	r.In = map[string]check.Value{"I": opening, "P": d.part.Width, "N": check.Exact(d.n), "g": check.Exact(films), "f": settled(film),
		"a": check.Exact(d.least - slack), "b": check.Exact(d.most + slack)}
	return r
}
