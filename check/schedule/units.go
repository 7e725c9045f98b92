package schedule

import (
	"fmt"
	"math"

	"dryfit/check"
	"dryfit/check/length"
)

// Units asks whether one size is in another unit than its family.
var Units = &check.Check{
	ID:      "schedule.units",
	Asks:    "Is one size in another unit than its family says: inches among millimetres, feet among inches?",
	Costs:   "a part cut 25 times too small, or a column that was never read in the right unit",
	Applies: "every size that has siblings: parts of the same role in the same tab",
	Inputs: []check.Input{
		{Symbol: "x", Name: "size as typed", Unit: check.Length},
		{Symbol: "s", Name: "its siblings", Unit: check.Length},
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
	Limits:  "A size alone in its role has no siblings and is not asked; a family that is wrong as a whole is found by its opening.",
	Until:   check.Released,
	Root:    true,
	Value:   "x",
	Against: []string{"s"},
	Fails:   "22 1/2 in a millimetre column whose siblings are 571 and 572",
	Mended:  "571.5",
	Rows:    unitRows,
	Says: func(r *check.Result) string {
		return fmt.Sprintf("%s %s among siblings of %s: %s?", r.Row.Words["field"], r.Print("x"), r.Print("s"), r.Row.Words["slip"])
	},
}

// slips are the factors by which a size goes wrong when its unit is taken for another.
// Two honest sizes are seldom 25.4 or 12 times apart; 10 and 2.54 happen, so there the match
// must be closer and the word is softer.
var slips = []slip{
	{25.4, .02, check.Hold, "inches taken for millimetres or the other way"},
	{12, .02, check.Hold, "feet taken for inches or the other way"},
	{10, .005, check.Verify, "centimetres taken for millimetres or the other way"},
	{2.54, .005, check.Verify, "inches taken for centimetres or the other way"},
}

type slip struct {
	factor, near float64
	most         check.Verdict
	says         string
}

// agree is how close two sizes are to be called siblings.
const agree = 0.02

func unitRows(j *check.Job) []check.Row {
	var out []check.Row
	ps := j.Pieces()
	for _, p := range ps {
		for i, s := range p.Sizes() {
			if !s.Value.Known || s.Value.Nominal <= 0 || doubted(p, s.Field) {
				continue
			}
			family, ok := sibling(ps, p, i)
			if !ok && s.Field == "thickness" {
				family, ok = sheet(j, s.Value.Nominal)
			}
			if ok {
				out = append(out, unitRow(p, s, family))
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

func unitRow(p *check.Part, s check.Size, family float64) check.Row {
	k := nearestSlip(math.Max(s.Value.Nominal/family, family/s.Value.Nominal))
	r := row(p, s.Field, s.Value.From)
	r.In["x"] = check.Exact(s.Value.Nominal).At(s.Value.From)
	r.In["x"] = plain(r.In["x"], s.Value)
	r.In["s"], r.In["k"], r.In["t"] = check.Exact(family), check.Exact(k.factor), check.Exact(k.near)
	r.Words["field"], r.Words["slip"] = s.Field, k.says
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

// sibling is the size that the other parts of the same role and tab agree on: at least two
// of them within two in a hundred of one another.
func sibling(ps []*check.Part, p *check.Part, i int) (float64, bool) {
	if p.Role == check.Unknown || p.FitOnSite() {
		return 0, false
	}
	x := p.Sizes()[i].Value.Nominal
	var best float64
	most := 1
	var near bool
	for _, q := range ps {
		if q == p || q.Role != p.Role || q.Row.Tab != p.Row.Tab || q.Row.Book != p.Row.Book {
			continue
		}
		y := q.Sizes()[i].Value.Nominal
		if math.Abs(y/x-1) < agree {
			near = true
		}
		if n := agreeing(ps, p, q, i); n > most && y > 0 {
			best, most = y, n
		}
	}
	return best, most > 1 && !near
}

// agreeing counts the siblings of p that agree with q, q among them.
func agreeing(ps []*check.Part, p, q *check.Part, i int) int {
	y := q.Sizes()[i].Value.Nominal
	n := 0
	for _, o := range ps {
		if o != p && o.Role == q.Role && o.Row.Tab == q.Row.Tab && o.Row.Book == q.Row.Book &&
			math.Abs(o.Sizes()[i].Value.Nominal/y-1) < agree {
			n++
		}
	}
	return n
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
