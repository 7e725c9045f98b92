package fit

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// Use asks whether a case serves what it is for, from the shop's own list of sizes: clothes
// hang clear of the door, books stand on their shelf, people sit at the height of a chair. It
// speaks only where the words of the schedule leave no doubt what a case is for.
var Use = &check.Check{
	ID:      "fit.use",
	Asks:    "Is it deep, high or low enough for what it is for?",
	Costs:   "a wardrobe whose doors do not close on a coat",
	Applies: "cases with a hanging rod, shelves for books, and seats on a front",
	Inputs: []check.Input{
		{Symbol: "x", Name: "size as scheduled", Unit: check.Length},
		{Symbol: "a", Name: "least of the shop's list", Unit: check.Length},
		{Symbol: "b", Name: "most of the shop's list", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "m", Name: "margin", Formula: "MIN(x-a,b-x)", Unit: check.Length},
	},
	NoMend: "ask what shall stand or sit there",
	Source: []check.Source{{Title: "sizes of use: standards table", How: "common practice"}},
	Limits: "VERIFY at most. Asks no more than the four sizes, and nothing where a word leaves a doubt.",
	Until:  check.BeforeCut,
	Value:  "x", Against: []string{"a", "b"},
	Fails:  "a wardrobe 18 deep with a rod",
	Mended: "24 deep",
	Rows:   useRows,
	Says: func(r *check.Result) string {
		limit, side := "a", "at least"
		if r.Values["x"] > r.Values["b"] {
			limit, side = "b", "at most"
		}
		return fmt.Sprintf("%s %s; the shop's list says %s %s", r.Row.Words["what"], r.Print("x"), side, r.Print(limit))
	},
}

func useRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, c := range j.Cases() {
		out = append(out, hanging(j, c)...)
		out = append(out, books(j, c)...)
		out = append(out, seats(j, c)...)
	}
	return out
}

func useRow(j *check.Job, p *check.Part, what, item, property string, x check.Value) (check.Row, bool) {
	limit := j.Standard("use", item, property, check.Length)
	if !x.Known || !limit.Known {
		return check.Row{}, false
	}
	r := check.Row{Case: p.Case.Text, Name: p.Name(), Marks: marks(p), Cells: cells(p.Row, x), Cause: what, Most: check.Verify,
		Folds: what, Words: map[string]string{"what": what}}
	most := because(check.Exact(limit.High), limit.Why)
	if property == "least" {
		most = because(check.Exact(1e4*j.PerInch()), "no most")
	}
	r.In = map[string]check.Value{"x": x, "a": because(check.Exact(limit.Low), limit.Why), "b": most}
	return r, true
}

// hanging is the depth of a case in which something says that clothes hang.
func hanging(j *check.Job, c check.Case) []check.Row {
	side := longest(c.Role(check.Side), thick)
	if side == nil || !anyWord(j, c, "rod", "hanging rail", "kleiderstange", "penderie") {
		return nil
	}
	if r, ok := useRow(j, side, "hanging depth", "hanging depth", "least", side.Width); ok {
		return []check.Row{r}
	}
	return nil
}

// anyWord reports whether a row of the case, hardware too, is called by one of some words.
func anyWord(j *check.Job, c check.Case, words ...string) bool {
	for _, p := range j.Parts {
		if p.Case.Text != c.Name || p.Room.Text != c.Room {
			continue
		}
		for _, field := range strings.FieldsFunc(strings.ToLower(p.Description.Text), func(r rune) bool { return r == ',' || r == ';' || r == '(' }) {
			for _, w := range words {
				if strings.HasSuffix(strings.TrimSpace(field), w) || strings.Contains(field, w+" ") {
					return true
				}
			}
		}
	}
	return false
}

// books is the depth of the shelves of a case whose load the office called books.
func books(j *check.Job, c check.Case) []check.Row {
	var out []check.Row
	for _, l := range j.Loads {
		item, ok := j.Shop.Load(l.Kind.Text)
		if !ok || item != "books" || l.Inferred || !c.Is(l.On.Text) {
			continue
		}
		for _, p := range c.Role(check.Shelf, check.Adjustable) {
			if r, ok := useRow(j, p, "shelf for books, depth", "book depth", "least", p.Width); ok {
				out = append(out, r)
			}
		}
		break
	}
	return out
}

// seats is the height of a seat that lies on its front. A base may stand under the front or
// behind it: then the height is not plain.
func seats(j *check.Job, c check.Case) []check.Row {
	front := longest(c.Role(check.Front), long)
	if front == nil || !front.Width.Known || len(c.Role(check.Base)) > 0 {
		return nil
	}
	var out []check.Row
	for _, p := range c.Role(check.Seat) {
		if !p.Thickness.Known {
			continue
		}
		h := check.Between(front.Width.Low+p.Thickness.Low, front.Width.Nominal+p.Thickness.Nominal, front.Width.High+p.Thickness.High).At(front.Width.From)
		h.Why = "front and seat, one on the other"
		if r, ok := useRow(j, p, "seat height", "seat height", "aimed at", h); ok {
			out = append(out, r)
		}
	}
	return out
}
