package check

import (
	"math"
	"slices"
	"sort"
	"strings"

	"dryfit/check/length"
)

// Beside is another row about the same thing, which a change offered for this one must leave
// in peace: an offer that lifts a HOLD and leaves a question on the same part is half an offer.
type Beside struct {
	Check *Check // nil: the check of the row itself
	Row   Row
}

// agree carries the change that clears the row on until the rows beside it are in peace too,
// else tries the other mends. Where none does, the first change stays, and says what it leaves.
// A change that rests on something to be measured first is left as it is.
func (r *Result) agree() {
	if r.Fix == nil || r.Fix.Measure != "" || len(r.Row.Beside) == 0 {
		return
	}
	open := r.open(r.Fix.Symbol, r.Fix.To)
	if len(open) == 0 {
		return
	}
	first := slices.IndexFunc(r.Check.Mends, func(m Mend) bool { return m.Symbol == r.Fix.Symbol })
	for _, m := range r.Check.Mends[first:] {
		x, ok := r.inPeace(m)
		if !ok {
			continue
		}
		text := r.order(m, x)
		if m.Symbol == r.Fix.Symbol && r.Verdict == Hold && !r.stops(r.Fix) {
			text += "; at " + r.Check.UnitOf(m.Symbol).Print(r.Fix.To, r.Job.Unit) + " still open: " + strings.Join(open, ", ")
		}
		r.Fix = &Fix{Symbol: m.Symbol, To: x, Text: text}
		return
	}
	r.Fix.Leaves = strings.Join(open, ", ")
}

// inPeace finds the smallest change by a mend, in whole steps from its nominal, that leaves the
// row and those beside it CLEAR. More of a change is taken to help more, so that the steps are
// halved; what is found was judged. A mend that may go either way is no such change.
func (r *Result) inPeace(m Mend) (float64, bool) {
	if m.Up == m.Down {
		return 0, false
	}
	v, step := r.Row.In[m.Symbol], r.stepOf(m)
	to := func(k int) float64 {
		if m.Up {
			return (math.Floor(v.Nominal/step+dust) + float64(k)) * step
		}
		return (math.Ceil(v.Nominal/step-dust) - float64(k)) * step
	}
	reach := m.reach()
	for reach > 0 && to(reach) < max(m.least(v.Nominal), dust) {
		reach--
	}
	peace := func(k int) bool {
		return !r.Check.speaks(r.Job, r.Row.with(m.Symbol, to(k))) && len(r.open(m.Symbol, to(k))) == 0
	}
	k := 1 + sort.Search(reach, func(i int) bool { return peace(i + 1) })
	if k > reach {
		return 0, false
	}
	return to(k), true
}

// open are the causes of the rows beside this one that a change leaves at HOLD or VERIFY.
func (r *Result) open(symbol string, x float64) []string {
	var out []string
	for _, b := range r.Row.Beside {
		if c, row := b.under(r.Check, symbol, x); c.speaks(r.Job, row) {
			out = append(out, row.Cause)
		}
	}
	return out
}

// stops reports whether a change leaves a row beside this one at HOLD.
func (r *Result) stops(f *Fix) bool {
	return slices.ContainsFunc(r.Row.Beside, func(b Beside) bool {
		c, row := b.under(r.Check, f.Symbol, f.To)
		return c.Judge(r.Job, row).Verdict == Hold
	})
}

// under is the row with a change, if it has the size at all, and its check.
func (b Beside) under(own *Check, symbol string, x float64) (*Check, Row) {
	if b.Check != nil {
		own = b.Check
	}
	if _, has := b.Row.In[symbol]; has {
		return own, b.Row.with(symbol, x)
	}
	return own, b.Row
}

// speaks reports whether a row is HOLD or VERIFY. One that fails at its nominals is one of the
// two, and which of them is not worked out.
func (c *Check) speaks(j *Job, row Row) bool {
	at := map[string]float64{}
	for symbol, v := range row.In {
		if v.Known {
			at[symbol] = v.Nominal
		}
	}
	if v, err := c.Work(at); err == nil && v[c.margin()] < -dust {
		return true
	}
	v := c.Judge(j, row).Verdict
	return v == Hold || v == Verify
}

// with is the row with one input changed: a typed range moves along, a guess becomes what was
// ordered.
func (r Row) with(symbol string, x float64) Row {
	v := r.In[symbol]
	moved := Value{Low: x + v.Low - v.Nominal, Nominal: x, High: x + v.High - v.Nominal, Known: true, From: v.From}
	if v.Guessed {
		moved = Exact(x)
	}
	in := make(map[string]Value, len(r.In))
	for k, old := range r.In {
		in[k] = old
	}
	in[symbol] = moved
	r.In = in
	return r
}

// stepOf is by how much a mend moves at a time, in the unit of the job.
func (r *Result) stepOf(m Mend) float64 {
	switch {
	case r.Job.Unit == length.Millimetre && m.StepMM > 0:
		return m.StepMM
	case m.Step > 0:
		return m.Step
	}
	return r.Job.step(r.Check.UnitOf(m.Symbol))
}

// least is the smallest value that is offered in the place of one.
func (m Mend) least(nominal float64) float64 { return max(m.Least, m.Share*nominal) }

func (m Mend) reach() int {
	if m.Reach == 0 {
		return 64
	}
	return m.Reach
}
