package schedule

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"dryfit/check"
	"dryfit/check/length"
)

// Units asks whether one size is in another unit than its family.
var Units = &check.Check{
	ID:      "schedule.units",
	Asks:    "Is one size in another unit than its family says: inches among millimetres, feet among inches?",
	Costs:   "a part cut 25 times too small, or a column that was never read in the right unit",
	Applies: "every size of a part that has others of its role in the same tab, and every length and width beside two other parts of its case",
	Inputs: []check.Input{
		{Symbol: "x", Name: "size as typed", Unit: check.Length},
		{Symbol: "s", Name: "others of its role", Unit: check.Length},
		{Symbol: "k", Name: "nearest slip of unit", Unit: check.Ratio},
		{Symbol: "t", Name: "how near counts as that slip", Unit: check.Ratio},
	},
	Steps: []check.Step{
		{Symbol: "q", Name: "off by a factor of", Formula: "MAX(x/s,s/x)", Unit: check.Ratio},
		{Symbol: "e", Name: "distance from that slip", Formula: "ABS(q/k-1)", Unit: check.Ratio},
		{Symbol: "m", Name: "clear of the slip", Formula: "e-t", Unit: check.Ratio},
	},
	NoMend:  "type the size in the unit of its column",
	Source:  []check.Source{{Title: "25.4 mm to the inch (exact), 12 inches to the foot; 10 and 2.54 for centimetres", How: "common practice"}},
	Limits:  "A size alone in its role is held against its case, opening and sheet only where it is far longer; a column that is wrong as a whole is found by its opening.",
	Until:   check.Released,
	Root:    true,
	Value:   "x",
	Against: []string{"s"},
	Fails:   "22.5 in a millimetre column whose other sizes are 571 and 572",
	Mended:  "571.5",
	Rows:    unitRows,
	Says: func(r *check.Result) string {
		if says := r.Row.Words["says"]; says != "" {
			return says
		}
		return fmt.Sprintf("%s %.6g %s, the others %s: %s?", r.Row.Words["field"], r.Values["x"], r.Job.Unit, r.Print("s"), r.Row.Words["slip"])
	},
}

// slips are the factors by which a size goes wrong when its unit is taken for another.
// Two honest sizes are seldom 25.4 or 12 times apart; 10 and 2.54 happen, so there the match
// must be closer and the word is softer.
var slips = []slip{
	{25.4, .02, check.Hold, "inches", "millimetres"},
	{12, .02, check.Hold, "feet", "inches"},
	{10, .005, check.Verify, "centimetres", "millimetres"},
	{2.54, .005, check.Verify, "inches", "centimetres"},
}

type slip struct {
	factor, near float64
	most         check.Verdict
	long, short  string // the two units
}

// says which unit was typed for which: a size that is too small was typed in the longer one.
// Nobody measures inch work in centimetres, so that ten times is a point out of its place there.
func (s slip) says(size, family float64, unit length.Unit) string {
	if s.factor == 10 && unit == length.Inch {
		return "decimal point out of place"
	}
	if size < family {
		return s.long + " typed for " + s.short
	}
	return s.short + " typed for " + s.long
}

// agree is how close two sizes are to be called siblings.
const agree = 0.02

func unitRows(j *check.Job) []check.Row {
	var out []check.Row
	ps := j.Pieces()
	all := families(ps)
	for _, p := range ps {
		for i, s := range p.Sizes() {
			if !s.Value.Known || s.Value.Nominal <= 0 || doubted(p, s.Field) {
				continue
			}
			family, ok := all.sibling(p, i)
			if !ok && s.Field != "thickness" {
				family, ok = tenth(ps, p, i)
			}
			if !ok && s.Field == "thickness" {
				family, ok = sheet(j, s.Value.Nominal)
			}
			r, odd := outOfProportion(j, p, i)
			switch {
			case odd && !(ok && slipped(s.Value.Nominal, family)):
				out = append(out, r)
			case ok:
				out = append(out, unitRow(j, p, s, family))
			}
		}
	}
	return out
}

func doubted(p *check.Part, field string) bool {
	for _, d := range p.Doubts {
		if d.Field == field {
			return true
		}
	}
	return false
}

func unitRow(j *check.Job, p *check.Part, s check.Size, family float64) check.Row {
	k := nearestSlip(math.Max(s.Value.Nominal/family, family/s.Value.Nominal))
	r := row(p, s.Field, s.Value.From)
	r.In["x"] = check.Exact(s.Value.Nominal).At(s.Value.From)
	r.In["x"] = plain(r.In["x"], s.Value)
	r.In["s"], r.In["k"], r.In["t"] = check.Exact(family), check.Exact(k.factor), check.Exact(k.near)
	r.Words["field"], r.Words["slip"] = s.Field, k.says(s.Value.Nominal, family, j.Unit)
	r.Most = k.most
	return r
}

func plain(v, like check.Value) check.Value { v.Plain = like.Plain; return v }

func nearestSlip(q float64) slip {
	best := slips[0]
	for _, s := range slips {
		if math.Abs(math.Log(q/s.factor)) < math.Abs(math.Log(q/best.factor)) {
			best = s
		}
	}
	return best
}

// slipped reports whether one of two sizes was typed in another unit than the other.
func slipped(x, other float64) bool {
	q := math.Max(x/other, other/x)
	k := nearestSlip(q)
	return math.Abs(q/k.factor-1) < k.near
}

// kin are the parts of one role in one tab.
type kin struct {
	book, tab string
	role      check.Role
}

func kinOf(p *check.Part) kin { return kin{p.Row.Book, p.Row.Tab, p.Role} }

// sizes are the sizes of one kind, length, width or thickness, of all kin.
type sizes struct {
	sorted   []float64
	distinct []float64 // in the order of the rows
}

type familyList map[kin]*[3]sizes

func families(ps []*check.Part) familyList {
	out := familyList{}
	seen := map[string]bool{}
	for _, p := range ps {
		f := out[kinOf(p)]
		if f == nil {
			f = &[3]sizes{}
			out[kinOf(p)] = f
		}
		for i, s := range p.Sizes() {
			x := s.Value.Nominal
			if !(x > 0) {
				continue
			}
			f[i].sorted = append(f[i].sorted, x)
			if k := fmt.Sprint(kinOf(p), i, x); !seen[k] {
				seen[k] = true
				f[i].distinct = append(f[i].distinct, x)
			}
		}
	}
	for _, f := range out {
		for i := range f {
			slices.Sort(f[i].sorted)
		}
	}
	return out
}

// around counts the sizes within two in a hundred of x.
func (s sizes) around(x float64) int {
	from := sort.Search(len(s.sorted), func(i int) bool { return s.sorted[i]/x-1 > -agree })
	to := sort.Search(len(s.sorted), func(i int) bool { return s.sorted[i]/x-1 >= agree })
	return to - from
}

// sibling is the size that the other parts of the same role and tab agree on: at least two
// of them within two in a hundred of one another. A size that one other has is no slip.
func (all familyList) sibling(p *check.Part, i int) (float64, bool) {
	if p.Role == check.Unknown || p.FitOnSite() {
		return 0, false
	}
	x, f := p.Sizes()[i].Value.Nominal, all[kinOf(p)][i]
	if f.around(x) > 1 {
		return 0, false
	}
	best, most := 0.0, 1
	for _, y := range f.distinct {
		n := f.around(y)
		if math.Abs(x/y-1) < agree {
			n-- // itself
		}
		if n > most {
			best, most = y, n
		}
	}
	return best, most > 1
}

// tenth is the size that at least two parts of the carcass of a case share, and of which the size
// of a part alone in its role is the tenth: 8.6 beside a back and a door of 86, 56 beside 560.
func tenth(ps []*check.Part, p *check.Part, i int) (float64, bool) {
	if !ofCarcass(p.Role) || len(ps) > mostCompared {
		return 0, false
	}
	x, family, n := p.Sizes()[i].Value.Nominal, 0.0, 0
	for _, q := range ps {
		y := q.Sizes()[i].Value.Nominal
		switch {
		case q == p || kinOf(q).tab != kinOf(p).tab || q.Case.Text != p.Case.Text || !(y > 0):
		case math.Abs(y/x-1) < agree:
			return 0, false // another is as small
		case (ofCarcass(q.Role) || q.Role == check.Scribe || q.Role == check.Filler) && math.Abs(y/x/10-1) < .005:
			family = y
			n++
		}
	}
	return family, n > 1
}

// mostCompared is how many parts are held against one another one by one.
const mostCompared = 500

func ofCarcass(r check.Role) bool {
	switch r {
	case check.Side, check.Head, check.Sill, check.Deck, check.Back, check.Divider, check.Upright, check.Shelf, check.Adjustable, check.Door:
		return true
	}
	return false
}

// sheet is the sheet thickness that a thickness would be in the other unit, when in its own
// it could be no board: 19 in an inch job, 0.75 in a millimetre job.
func sheet(j *check.Job, t float64) (float64, bool) {
	const thickest = 4 // in; nothing in a case is thicker
	switch {
	case j.Unit == length.Inch && t > thickest && t/25.4 <= thickest:
		return t / 25.4, true
	case j.Unit == length.Millimetre && t < 2:
		return t * 25.4, true
	}
	return 0, false
}
