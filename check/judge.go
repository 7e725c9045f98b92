package check

// dust is the size below which a margin is zero: .3-.1-.2 is not.
const dust = 1e-9

// Most ranges that are combined at the worst of their corners; more go by root-sum-square.
const mostCorners = 3

// AtCorners reports whether the ranges of the result were combined at their corners; else by
// root-sum-square.
func (r *Result) AtCorners() bool { return len(r.Ranged) <= mostCorners }

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
	o := c.outcome(j, row.In)
	if o.broken != nil {
		r.Verdict, r.Broken = NotChecked, o.broken
		return r
	}
	r.Values, r.Ranged, r.Kindest, r.Worst, r.Decides = o.values, o.ranged, o.kindest, o.worst, o.decides
	r.Verdict = min(o.verdict, row.most())
	if r.Verdict == Verify && c.Quiet != "" && r.Values[c.Quiet] >= -dust {
		r.Verdict = Clear
	}
	if r.Decides == "" && len(c.Mends) > 0 {
		r.Decides = c.Mends[0].Symbol
	}
	return r
}

// outcome is what the ranges of a row come to, whatever the row is about. Rows with the same
// numbers share one.
type outcome struct {
	verdict Verdict
	values  map[string]float64
	worst   float64
	decides string
	ranged  []string
	kindest map[string]float64
	broken  error
}

// bench is where the rows of one check are judged, one after the other.
type bench struct {
	w        *working
	outcomes map[string]*outcome // by the numbers of a row
	numbers  []byte
	broken   error // the check has no working at all
}

type benches map[*Check]*bench

func (c *Check) bench() *bench {
	w, err := c.working()
	return &bench{w: w, outcomes: map[string]*outcome{}, broken: err}
}

func (c *Check) outcome(j *Job, in map[string]Value) *outcome {
	b := OnceFor[benches](j, c, c.bench)
	if b.broken != nil {
		return &outcome{broken: b.broken}
	}
	b.w.take(in)
	b.numbers = b.w.numbers(b.numbers[:0])
	if o := b.outcomes[string(b.numbers)]; o != nil {
		return o
	}
	b.w.settle()
	o := b.w.outcome()
	b.outcomes[string(b.numbers)] = o
	return o
}

// outcome is the verdict of a settled working, and what it rests on.
func (w *working) outcome() *outcome {
	if w.err != nil {
		return &outcome{broken: w.err}
	}
	o := &outcome{values: w.program.named(w.at), ranged: w.symbols(w.ranged), decides: w.decides(), worst: w.worst()}
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
