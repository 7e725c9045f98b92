package schedule

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryfit/check"
)

// OddOne asks about one row that differs from nearly all of its case without a note: in
// material, in finish, in depth; and about a size whose digits, or whose length and width,
// changed places, where the swap makes it what its siblings are.
var OddOne = &check.Check{
	ID:      "schedule.odd-one",
	Asks:    "Does one row differ from nearly all of its case, without a note?",
	Costs:   "one shelf in another wood, found when the case stands",
	Applies: "every row without a note that has four rows or more of its kind beside it in its case, or three that are all of another material or finish, and every row that a swap would make equal to another",
	Inputs: []check.Input{
		{Symbol: "n", Name: "other rows of its kind in the case", Unit: check.Count},
		{Symbol: "a", Name: "of them, alike", Unit: check.Count},
		{Symbol: "g", Name: "of them, like this row", Unit: check.Count},
		{Symbol: "L", Name: "share that is nearly all", Unit: check.Ratio},
	},
	Steps: []check.Step{
		{Symbol: "s", Name: "share that is alike", Formula: "a/n", Unit: check.Ratio},
		{Symbol: "m", Name: "margin", Formula: "IF(g>0,g,L-s)", Unit: check.Ratio},
	},
	NoMend: "make it like the others, or say in a note that it is meant",
	Source: []check.Source{{Title: "a case is of one material and finish unless a note says otherwise", How: "house rule"}},
	Limits: "Backs, doors, trim, scribes and cleats may differ. A mistake made in two rows is not seen.",
	Until:  check.BeforeCut,
	Value:  "a",
	Fails:  "five white oak shelves and one of red oak",
	Mended: "six of white oak, or a note",
	Rows:   oddRows,
	Says:   func(r *check.Result) string { return r.Row.Words["says"] },
}

// nearlyAll is the share of a case that makes the one left over odd: four of five.
const nearlyAll = 0.79

// kind is one way in which a row may be odd.
type kind struct {
	name  string
	of    func(*check.Part) string
	group func(*check.Part) any // parts of one group are of its kind
	close func(p, q *check.Part) bool
}

var kinds = []kind{
	{"material", func(p *check.Part) string { return strings.ToLower(p.Material.Text) },
		func(p *check.Part) any { return p.Thickness.Nominal }, always},
	{"finish", func(p *check.Part) string { return strings.ToLower(p.Finish.Text) },
		func(*check.Part) any { return 0 }, always},
	{"depth", func(p *check.Part) string { return strconv.FormatFloat(p.Width.Nominal, 'g', 9, 64) },
		func(p *check.Part) any { return p.Role }, func(p, q *check.Part) bool {
			return math.Abs(p.Width.Nominal-q.Width.Nominal) < .25*q.Width.Nominal
		}},
}

func always(_, _ *check.Part) bool { return true }

// carcass reports whether a part is of the body of a case, which is of one stuff.
func carcass(p *check.Part) bool {
	switch p.Role {
	case check.Shelf, check.Upright, check.Side, check.Head, check.Sill, check.Deck, check.Divider:
		return true
	}
	return false
}

func oddRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, c := range j.Cases() {
		var tallies []tally
		for _, k := range kinds {
			tallies = append(tallies, k.tally(c))
		}
		for _, p := range c.Parts {
			if p.Note.Text != "" {
				continue
			}
			for i, k := range kinds {
				if r, ok := k.row(j, tallies[i], p); ok {
					out = append(out, r)
				}
			}
			if r, ok := swapped(j, c, p); ok {
				out = append(out, r)
			}
		}
	}
	return out
}

// tally counts, for each group, the parts that say one thing, in the order of the rows.
type tally map[any][]*votes

type votes struct {
	word  string
	first *check.Part
	n     int
}

func (k kind) tally(c check.Case) tally {
	out := tally{}
	at := map[[2]any]*votes{}
	for _, p := range c.Parts {
		word := k.of(p)
		if !carcass(p) || word == "" || word == "0" {
			continue
		}
		g := k.group(p)
		v := at[[2]any{g, word}]
		if v == nil {
			v = &votes{word: word, first: p}
			at[[2]any{g, word}] = v
			out[g] = append(out[g], v)
		}
		v.n++
	}
	return out
}

// least is how many others it takes to call one odd, sure how many where all of them are of
// the same stuff; depths and numbers of layers
// differ more readily.
const least, sure = 4, 3

func (k kind) row(j *check.Job, t tally, p *check.Part) (check.Row, bool) {
	own := k.of(p)
	if own == "" || own == "0" || !carcass(p) {
		return check.Row{}, false
	}
	n, like, most := 0, 0, &votes{}
	for _, v := range t[k.group(p)] {
		switch {
		case v.word == own:
			like = v.n - 1
			n += like
		case k.close(p, v.first):
			n += v.n
			if v.n > most.n {
				most = v
			}
		}
	}
	alike := max(most.n, like)
	if n < least && (k.name == "depth" || n < sure || alike < n || len(p.Layers) > 0) {
		return check.Row{}, false
	}
	r := oddRow(p, k.name, n, alike, like)
	if most.first != nil {
		r.Words["says"] = fmt.Sprintf("%s %s, all others of the case %s; no note says why", k.name, k.print(j, p), k.print(j, most.first))
	}
	return r, true
}

func (k kind) print(j *check.Job, p *check.Part) string {
	if k.name == "depth" {
		return j.Len(p.Width.Nominal)
	}
	return k.of(p)
}

func oddRow(p *check.Part, cause string, n, alike, like int) check.Row {
	at := map[string]check.Cell{"material": p.Material.From, "finish": p.Finish.From, "depth": p.Width.From}[cause]
	if cause == "swapped" {
		at = p.Length.From
	}
	r := row(p, cause, at)
	r.Most = check.Verify
	r.In["n"], r.In["a"], r.In["g"] = check.Exact(float64(n)), check.Exact(float64(alike)), check.Exact(float64(like))
	r.In["L"] = check.Exact(nearlyAll)
	return r
}

// swapped finds a sibling of the same role and thickness whose sizes a row has in the wrong
// places: length and width, or two digits of the length.
func swapped(j *check.Job, c check.Case, p *check.Part) (check.Row, bool) {
	if p.Role == check.Unknown || !p.Length.Known || !p.Width.Known {
		return check.Row{}, false
	}
	for _, q := range c.Parts {
		if q == p || q.Role != p.Role || q.Thickness.Nominal != p.Thickness.Nominal || near(q.Length, p.Length) && near(q.Width, p.Width) {
			continue
		}
		switch {
		case near(p.Length, q.Width) && near(p.Width, q.Length):
			if p.Length.Nominal > p.Width.Nominal {
				continue // of the two, the one that is wider than long is the odd one
			}
			r := oddRow(p, "swapped", 1, 1, 0)
			r.Words["says"] = fmt.Sprintf("%s long and %s wide; %s is the other way round", j.Len(p.Length.Nominal), j.Len(p.Width.Nominal), q.Name())
			return r, true
		case near(p.Width, q.Width) && digitsSwapped(p.Length.Nominal, q.Length.Nominal) && usual(c, q):
			r := oddRow(p, "swapped", 1, 1, 0)
			r.Words["says"] = fmt.Sprintf("%s long, the others %s; digits swapped?", j.Len(p.Length.Nominal), j.Len(q.Length.Nominal))
			return r, true
		}
	}
	return check.Row{}, false
}

func near(a, b check.Value) bool { return a.Known && b.Known && math.Abs(a.Nominal-b.Nominal) < 1e-6 }

// usual reports whether another row of the case has the length of q too.
func usual(c check.Case, q *check.Part) bool {
	for _, o := range c.Parts {
		if o != q && (near(o.Length, q.Length) || near(o.Width, q.Length)) {
			return true
		}
	}
	return false
}

// digitsSwapped reports whether two neighbouring digits of the whole part change one length
// into the other, with the same fraction.
func digitsSwapped(a, b float64) bool {
	if math.Abs(a-math.Floor(a)-(b-math.Floor(b))) > 1e-9 {
		return false
	}
	x, y := strconv.Itoa(int(a)), strconv.Itoa(int(b))
	if len(x) != len(y) || len(x) < 2 || x == y {
		return false
	}
	for i := 0; i+1 < len(x); i++ {
		if x[:i]+x[i+1:i+2]+x[i:i+1]+x[i+2:] == y {
			return true
		}
	}
	return false
}
