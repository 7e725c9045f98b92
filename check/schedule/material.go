package schedule

import (
	"fmt"
	"math"
	"strings"

	"dryfit/check"
	"dryfit/check/standard"
)

// Material asks whether the material and the finish are known, and whether the sheet exists
// in the stated thickness.
var Material = &check.Check{
	ID:      "schedule.material",
	Asks:    "Are material and finish known, and is the stated thickness sold in it?",
	Costs:   "a sheet that cannot be bought, found on the day of cutting",
	Applies: "every part whose row says a material or a finish, and a part without a material where nearly all rows of its tab name one",
	Inputs: []check.Input{
		{Symbol: "t", Name: "thickness as stated", Unit: check.Length},
		{Symbol: "T", Name: "nearest thickness sold", Unit: check.Length},
		{Symbol: "h", Name: "how far off counts as the same", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "o", Name: "off by", Formula: "ABS(t-T)", Unit: check.Length},
		{Symbol: "m", Name: "within the allowance", Formula: "h-o", Unit: check.Length},
	},
	NoMend:  "name a thickness that is sold, or say that it is made up",
	Source:  []check.Source{{Title: "thicknesses that sheets are sold in: standards table", How: "common practice"}},
	Limits:  "Silent for solid wood and for parts made of layers. Does not know what is in stock.",
	Until:   check.BeforeCut,
	Root:    true,
	Value:   "t",
	Against: []string{"T"},
	Fails:   "MDF, 1 3/8 thick, which nobody sells",
	Mended:  "MDF, 1 1/2 thick",
	Rows:    materialRows,
	Says: func(r *check.Result) string {
		return fmt.Sprintf("%s %s is not sold; nearest %s", r.Print("t"), r.Row.Words["material"], r.Print("T"))
	},
}

func materialRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, p := range j.Pieces() {
		if p.Material.Text != "" {
			out = append(out, materialRow(j, p))
		} else if r, ok := blankRow(j, p); ok {
			out = append(out, r)
		}
		if p.Finish.Text != "" {
			out = append(out, finishRow(j, p)...)
		}
	}
	return out
}

func materialRow(j *check.Job, p *check.Part) check.Row {
	r := row(p, strings.ToLower(p.Material.Text), p.Material.From)
	m, ok, like := j.Material(p.Material.Text)
	if !ok {
		r.In["t"] = check.Missing(check.Ask{Cell: p.Material.From, What: unknown("material", p.Material.Text, like),
			Says: fmt.Sprintf("material %s is not known", check.Typed(p.Material.Text))})
		return r
	}
	r.Words["material"] = m.Name
	r.In["t"], r.In["T"], r.In["h"] = check.Exact(0), check.Exact(0), check.Exact(0)
	sold, ok := nearestSold(j, p, m)
	if !ok {
		return r // solid wood, made up, or no thickness to hold against it: known, and nothing more to ask
	}
	r.Most = check.Verify
	r.Cause += fmt.Sprintf(" %.4g", p.Thickness.Nominal)
	r.In["t"] = check.Exact(p.Thickness.Nominal).At(p.Thickness.From)
	r.In["t"] = plain(r.In["t"], p.Thickness)
	r.In["T"] = check.Exact(sold)
	r.In["h"] = check.Exact(math.Max(p.Thickness.Nominal*.04, j.PerInch()/32))
	return r
}

// blankRow asks for the material of a row that names none where nearly all rows of its tab
// do: one who cuts from the list will take the nearest sheet.
func blankRow(j *check.Job, p *check.Part) (check.Row, bool) {
	sized := p.Length.Known && p.Width.Known && p.Thickness.Known
	if !sized || p.Role == check.Unknown || p.FitOnSite() || len(p.Layers) > 0 {
		return check.Row{}, false
	}
	named, blank := 0, 0
	for _, q := range j.Pieces() {
		switch {
		case q.Row.Tab != p.Row.Tab || q.Row.Book != p.Row.Book:
		case q.Material.Text != "":
			named++
		case len(q.Layers) == 0:
			blank++
		}
	}
	if named < namedBeside*blank {
		return check.Row{}, false // the tab leaves it to a note or to the shop
	}
	at := j.MaterialCell(p)
	r := row(p, "no material", at)
	r.In["t"] = check.Missing(check.Ask{Cell: at, What: "the material", Says: "material is not given, the other rows name one"})
	return r, true
}

// namedBeside is how many rows with a material there must be for each without.
const namedBeside = 3

// nearestSold is the nearest thickness the material is sold in, in the unit of the job.
func nearestSold(j *check.Job, p *check.Part, m standard.Material) (float64, bool) {
	if !p.Thickness.Known || len(p.Layers) > 0 || m.Layers > 1 || m.Solid() || len(m.Sold) == 0 {
		return 0, false
	}
	sold := nearest(j, m.Sold, p.Thickness.Nominal)
	const glued = 1.25 // so much thicker than any sheet, it is glued up, whatever the row says
	return sold, p.Thickness.Nominal < glued*sold
}

// finishRow asks only about a finish that nobody knows; a known one has no thickness of its
// own to hold against anything.
func finishRow(j *check.Job, p *check.Part) []check.Row {
	_, ok, like := j.Finish(p.Finish.Text)
	if ok {
		return nil
	}
	r := row(p, "finish "+strings.ToLower(p.Finish.Text), p.Finish.From)
	r.In["t"] = check.Missing(check.Ask{Cell: p.Finish.From, What: unknown("finish", p.Finish.Text, like),
		Says: fmt.Sprintf("finish %s is not known", check.Typed(p.Finish.Text))})
	return []check.Row{r}
}

func unknown(kind, text string, like []string) string {
	if len(like) == 0 {
		return fmt.Sprintf("a %s that stands in the standards, or add %s there,", kind, check.Typed(text))
	}
	return fmt.Sprintf("%s, or another %s that stands in the standards,", strings.Join(like, " or "), kind)
}
