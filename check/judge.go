package check

import (
	"fmt"
	"math"

	"dryfit/check/formula"
)

// dust is the size below which a margin is zero: .3-.1-.2 is not.
const dust = 1e-9

// Most ranges that are combined at the worst of their corners; more go by root-sum-square.
const mostCorners = 3

// AtCorners reports whether the ranges of the result were combined at their corners; else by
// root-sum-square.
func (r *Result) AtCorners() bool { return len(r.Ranged) <= mostCorners }

// Work evaluates the steps at given inputs, and returns inputs and steps.
func (c *Check) Work(in map[string]float64) (map[string]float64, error) {
	steps, err := c.formulas()
	if err != nil {
		return nil, err
	}
	w := &working{check: c, steps: steps, at: map[string]float64{}}
	for k, x := range in {
		w.at[k] = x
	}
	w.eval()
	return w.at, w.err
}

// Formula is the parsed formula of the i-th step of a validated check.
func (c *Check) Formula(i int) *formula.Formula {
	steps, err := c.formulas()
	if err != nil {
		panic(err) // Validate refuses such a check
	}
	return steps[i]
}

// Result is a row with its verdict.
type Result struct {
	Check   *Check
	Row     Row
	Job     *Job
	Verdict Verdict
	Values  map[string]float64 // inputs and steps at their nominal; missing ones are absent
	Worst   float64            // least margin over the ranges
	Ranged  []string           // symbols of the inputs with a range
	Kindest map[string]float64 // the guesses where they favour the part most
	Decides string             // symbol of the input that decides most
	Turns   *Turn              // where that input turns the verdict
	Fix     *Fix               // what clears it, proven; nil if nothing does
	Absent  []string           // symbols of missing inputs
	Broken  error              // the working could not be done
}

// Margin is the last step at the nominal of every input.
func (r *Result) Margin() float64 { return r.Values[r.Check.margin()] }

func (c *Check) margin() string { return c.Steps[len(c.Steps)-1].Symbol }

// Judge makes the verdict of one row from the ranges of its inputs. It is the only place
// that does.
//
//	HOLD         fails with typed values at their nominal and every guess at its kindest
//	VERIFY       fails somewhere inside the ranges, but not so
//	CLEAR        passes everywhere inside the ranges
//	NOT CHECKED  an input is missing
//
// A check may also say that a result far inside its limit is CLEAR whatever the ranges (see
// Check.Quiet).
//
// Up to three ranges are combined at all their corners; more by root-sum-square of the
// single losses.
func (c *Check) Judge(j *Job, row Row) *Result {
	r := &Result{Check: c, Row: row, Job: j}
	for _, in := range c.Inputs {
		if !row.In[in.Symbol].Known {
			r.Absent = append(r.Absent, in.Symbol)
		}
	}
	if len(r.Absent) > 0 {
		r.Verdict, r.Decides = NotChecked, r.Absent[0]
		return r
	}
	w, err := c.working(row.In)
	if err != nil {
		r.Verdict, r.Broken = NotChecked, err
		return r
	}
	r.Values, r.Ranged = w.all, w.ranged
	v := w.verdict()
	r.Kindest = v.kindest
	r.Verdict, r.Worst, r.Decides = min(v.verdict, row.most()), v.worst, v.decides
	if r.Verdict == Verify && c.Quiet != "" && r.Values[c.Quiet] >= -dust {
		r.Verdict = Clear
	}
	if r.Decides == "" && len(c.Mends) > 0 {
		r.Decides = c.Mends[0].Symbol
	}
	return r
}

// working evaluates the steps of a check over the ranges of one row.
type working struct {
	check  *Check
	steps  []*formula.Formula
	in     map[string]Value
	at     map[string]float64 // the point being evaluated
	all    map[string]float64 // inputs and steps at the nominals
	ranged []string           // symbols with a range, in the order of the inputs
	margin float64            // at the nominals
	err    error
}

func (c *Check) working(in map[string]Value) (*working, error) {
	steps, err := c.formulas()
	if err != nil {
		return nil, err
	}
	w := &working{check: c, steps: steps, in: in, at: map[string]float64{}}
	for _, i := range c.Inputs {
		w.at[i.Symbol] = in[i.Symbol].Nominal
		if in[i.Symbol].Ranged() {
			w.ranged = append(w.ranged, i.Symbol)
		}
	}
	w.margin = w.eval()
	w.all = map[string]float64{}
	for k, v := range w.at {
		w.all[k] = v
	}
	return w, w.err
}

// eval works the steps out at the present point and returns the margin. The first error
// is kept.
func (w *working) eval() float64 {
	for i, f := range w.steps {
		x, err := f.Eval(w.value)
		if err != nil {
			if w.err == nil {
				w.err = fmt.Errorf("%s: step %s: %w", w.check.ID, w.check.Steps[i].Symbol, err)
			}
			return math.Inf(-1)
		}
		w.at[w.check.Steps[i].Symbol] = x
	}
	return w.at[w.check.margin()]
}

func (w *working) value(name string) (float64, bool) { x, ok := w.at[name]; return x, ok }

// with evaluates at one changed input and puts it back.
func (w *working) with(symbol string, x float64) float64 {
	old := w.at[symbol]
	w.at[symbol] = x
	m := w.eval()
	w.at[symbol] = old
	return m
}

type outcome struct {
	verdict Verdict
	worst   float64
	decides string
	kindest map[string]float64
}

func (w *working) verdict() outcome {
	o := outcome{decides: w.decides(), worst: w.worst()}
	best := w.margin
	if best < -dust {
		best, o.kindest = w.kindest()
	}
	switch {
	case best < -dust:
		o.verdict = Hold
	case o.worst < -dust:
		o.verdict = Verify
	}
	return o
}

// passes reports whether a row with these inputs is CLEAR.
func (c *Check) passes(in map[string]Value) bool {
	w, err := c.working(in)
	return err == nil && w.margin >= -dust && w.worst() >= -dust && w.err == nil
}

// losses is how much margin each range costs at its worse end, the others at nominal.
func (w *working) losses() []float64 {
	out := make([]float64, len(w.ranged))
	for i, s := range w.ranged {
		out[i] = max(0, w.margin-min(w.with(s, w.in[s].Low), w.with(s, w.in[s].High)))
	}
	return out
}

// decides is the input that costs most margin; a guess goes before a typed value that costs
// as much.
func (w *working) decides() string {
	losses := w.losses()
	best := -1
	for i := range losses {
		if best < 0 || losses[i] > losses[best]+dust ||
			losses[i] > losses[best]-dust && w.in[w.ranged[i]].Guessed && !w.in[w.ranged[best]].Guessed {
			best = i
		}
	}
	if best < 0 {
		return ""
	}
	return w.ranged[best]
}

// worst is the least margin over the ranges.
func (w *working) worst() float64 {
	if len(w.ranged) <= mostCorners {
		return min(w.margin, w.corners(0))
	}
	sum := 0.0
	for _, l := range w.losses() {
		sum += l * l
	}
	return w.margin - math.Sqrt(sum)
}

// corners is the least margin over the ends of the ranges from the i-th on.
func (w *working) corners(i int) float64 {
	if i == len(w.ranged) {
		return w.eval()
	}
	s := w.ranged[i]
	v, old := w.in[s], w.at[s]
	least := math.Inf(1)
	for _, x := range []float64{v.Low, v.High} {
		w.at[s] = x
		least = min(least, w.corners(i+1))
	}
	w.at[s] = old
	return least
}

// samples is how finely a guess is searched for its kindest value: a two-sided margin is
// best inside the range, not at an end.
const samples = 24

// kindest is the best margin that the guesses allow, typed values at their nominal, and
// the guesses there. It climbs one guess at a time until none helps.
func (w *working) kindest() (float64, map[string]float64) {
	best := w.margin
	start, found := map[string]float64{}, map[string]float64{}
	var guesses []string
	for _, s := range w.ranged {
		if w.in[s].Guessed {
			guesses = append(guesses, s)
			start[s] = w.at[s]
		}
	}
	for improved := true; improved && best < -dust; {
		improved = false
		for _, s := range guesses {
			v, keep := w.in[s], w.at[s]
			for i := 0; i <= samples; i++ {
				x := v.Low + (v.High-v.Low)*float64(i)/samples
				if m := w.with(s, x); m > best+dust {
					best, keep, improved = m, x, true
				}
			}
			w.at[s] = keep
		}
	}
	for s, x := range start {
		found[s] = w.at[s]
		w.at[s] = x
	}
	return best, found
}
