package structure

import (
	"fmt"
	"math"

	"dryfit/check"
)

// state is one way in which a step of a path may give way. What comes there and how much of
// the strength that uses stand in the steps of a check and nowhere else.
type state struct {
	check *check.Check
	name  string
	force string                         // symbol of the force that the check counts on; empty if it knows only moments
	use   func(map[string]float64) share // of what it takes
	loads []string                       // inputs that grow with the load
}

type share = float64

var (
	inBending = state{Bending, "bending", "", ratio("S", "A"), []string{"q", "g", "P", "N"}}
	inShear   = state{Shear, "shear", "", ratio("V", "T"), []string{"q", "g", "P"}}
	inBearing = state{Bearing, "bearing", "R", ratio("p", "A"), []string{"q", "g", "P"}}
	inScrews  = state{Cleat, "screws", "R", ratio("q", "A"), []string{"R"}}
	atNeck    = state{Upright, "neck", "N", ratio("X", "A"), []string{"W", "P"}}
	asColumn  = state{Upright, "column", "N", largerOf("f", "y"), []string{"W", "P"}}
	onFloor   = state{Floor, "floor", "G", ratio("P", "l"), []string{"Q", "W"}}
)

func ratio(value, against string) func(map[string]float64) share {
	return func(v map[string]float64) share { return v[value] / v[against] }
}

func largerOf(a, b string) func(map[string]float64) share {
	return func(v map[string]float64) share { return math.Max(v[a], v[b]) }
}

// limit is a state worked out for one row.
type limit struct {
	state
	verdict check.Verdict
	load    float64 // that the check counts on, 0 if it knows only moments
	use     float64 // load over the load that it takes; 0 if not known
	why     string  // why it is not known
}

// limit works a state out: all loads of the row grow together until the check turns.
func (s state) limit(j *check.Job, row check.Row) limit {
	l := limit{state: s}
	r := s.check.Judge(j, row)
	l.verdict = r.Verdict
	switch {
	case len(r.Absent) > 0:
		l.why = wanting(row.In[r.Absent[0]].Ask, r.Check.Named(r.Absent[0]))
		return l
	case r.Broken != nil:
		l.why = r.Broken.Error()
		return l
	}
	l.load = r.Values[s.force]
	l.use = 1 / s.turns(row.In, s.use(r.Values))
	return l
}

func wanting(a check.Ask, name string) string {
	if a.What != "" {
		name = a.What
	}
	if a.Cell != (check.Cell{}) {
		return fmt.Sprintf("wants %s (%s)", name, a.Cell)
	}
	return "wants " + name
}

// turns is how many times the loads of a row may grow until the state is used up, with every
// input at its nominal. Most uses grow with the load and are found at once; that of a column
// off its middle grows faster, and is halved down to.
func (s state) turns(in map[string]check.Value, use share) float64 {
	if !(use > 0) {
		return math.Inf(1)
	}
	at := func(k float64) float64 { return s.scaled(in, k) }
	a, b := 1.0, 1/use
	if end := at(b); !(math.Abs(end-1) > 1e-9) {
		return b
	}
	low, high := math.Min(a, b), math.Max(a, b)
	for range 60 {
		mid := (low + high) / 2
		if at(mid) > 1 {
			high = mid
		} else {
			low = mid
		}
	}
	return low
}

// scaled is the use with all loads k times what they are.
func (s state) scaled(in map[string]check.Value, k float64) share {
	at := nominals(in)
	for _, symbol := range s.loads {
		at[symbol] *= k
	}
	v, err := s.check.Work(at)
	if err != nil {
		return math.NaN()
	}
	return s.use(v)
}

func nominals(in map[string]check.Value) map[string]float64 {
	at := map[string]float64{}
	for symbol, v := range in {
		if v.Known {
			at[symbol] = v.Nominal
		}
	}
	return at
}

// governing is the state that is used most, and whether the use of any is known.
func governing(all []limit) (most limit, known bool) {
	for _, l := range all {
		if l.use > most.use {
			most, known = l, true
		}
	}
	return most, known
}
