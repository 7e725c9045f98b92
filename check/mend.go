package check

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dryfit/check/length"
)

// Turn is the value of one input at which the verdict turns, with everything else as it is.
type Turn struct {
	Input  string // name of the input
	Symbol string
	At     float64
	Least  bool // it passes from At upward; else from At downward
	Alone  bool // measured there, this one input makes the row CLEAR
}

// Fix is a change that was tried and clears the row.
type Fix struct {
	Symbol  string
	To      float64
	Text    string // "cut the slot 2 5/16"
	Measure string // what must be measured as well; empty if the change is enough
	Leaves  string // causes of rows beside this one that the change leaves open; empty if none
}

// Solve works backwards from a HOLD or a VERIFY: the turning value of the input that
// decides, and the smallest change that clears the row. Every offer is judged before it is
// made.
func (r *Result) Solve() {
	if r.Verdict != Hold && r.Verdict != Verify {
		return
	}
	w, err := r.Check.working()
	if err != nil {
		return
	}
	w.take(r.Row.In)
	if r.Verdict == Verify {
		r.Turns = r.turn(w)
	}
	r.Fix = r.fix(w, "")
	r.agree()
	if r.Fix == nil && r.Verdict == Hold {
		r.Fix = r.fixMeasured(w)
	}
}

// fixMeasured looks for a change that clears the row once some guesses are measured at what
// they are thought to be: the one that costs most first, then one more each time. It leaves
// them measured.
func (r *Result) fixMeasured(w *working) *Fix {
	var names []string
	for _, i := range w.dearest() {
		symbol := w.program.names[i]
		if !r.Row.In[symbol].Unmeasured() {
			continue
		}
		w.ranges[i] = exactly(w.ranges[i].nominal)
		names = append(names, r.Check.measure(symbol))
		if f := r.fix(w, strings.Join(names, " and ")); f != nil {
			return f
		}
	}
	return nil
}

// dearest are the inputs with a range, the one that costs most margin first.
func (w *working) dearest() []int {
	w.settle()
	losses := map[int]float64{}
	for k, l := range w.cost() {
		losses[w.ranged[k]] = l
	}
	out := slices.Clone(w.ranged)
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(losses[b], losses[a]) })
	return out
}

func (r *Result) fix(w *working, measure string) *Fix {
	for _, m := range r.Check.Mends {
		if x, ok := r.search(w, m); ok {
			return &Fix{Symbol: m.Symbol, To: x, Text: r.order(m, x), Measure: measure}
		}
	}
	return nil
}

func (r *Result) order(m Mend, x float64) string {
	return strings.ReplaceAll(m.Order, "{}", r.Check.UnitOf(m.Symbol).Print(x, r.Job.Unit))
}

// search walks outward from the nominal in whole cutting steps until the row is CLEAR.
func (r *Result) search(w *working, m Mend) (float64, bool) {
	i := w.program.places[m.Symbol]
	nominal, step := w.ranges[i].nominal, r.stepOf(m)
	for k := 1; k <= m.reach(); k++ {
		up := (math.Floor(nominal/step+dust) + float64(k)) * step
		down := (math.Ceil(nominal/step-dust) - float64(k)) * step
		if !m.Down && w.clears(i, up) {
			return up, true
		}
		if !m.Up && down >= m.least(nominal) && w.clears(i, down) {
			return down, true
		}
	}
	return 0, false
}

// clears reports whether the row is CLEAR with one input moved to x. A typed range moves
// with it; a guess becomes what was ordered.
func (w *working) clears(i int, x float64) bool {
	if w.ranges[i].guessed {
		return w.tried(i, exactly(x))
	}
	return w.tried(i, w.ranges[i].around(x))
}

// tried reports whether the row is CLEAR with one range changed. It leaves the ranges as they
// were.
func (w *working) tried(i int, s span) bool {
	old := w.ranges[i]
	w.ranges[i] = s
	clear := w.passes()
	w.ranges[i] = old
	return clear
}

// nominalPasses reports whether the row passes at the nominals with one input measured at x.
func (w *working) nominalPasses(i int, x float64) bool {
	w.settle()
	return w.with(i, x) >= -dust && w.err == nil
}

// turn finds where the deciding input turns the row to CLEAR, every other input keeping its
// range. A typed or measured value is read again and keeps its tolerance; a guess is
// measured and loses its range. Where no value does, because another range fails by itself,
// it finds where the nominal margin turns.
func (r *Result) turn(w *working) *Turn {
	symbol := r.Decides
	v := r.Row.In[symbol]
	if !v.Ranged() {
		return nil
	}
	i := w.program.places[symbol]
	passes := func(x float64) bool { return w.tried(i, exactly(x)) }
	starts := [2]float64{v.Low, v.High}
	reach := v.High - v.Low
	if !v.Unmeasured() {
		passes = func(x float64) bool { return w.clears(i, x) }
		starts = [2]float64{v.Nominal, v.Nominal}
		reach *= 3 // a reading may be taken again and come out anywhere near
	}
	t := &Turn{Input: r.Check.Named(symbol), Symbol: symbol, Alone: true}
	if t.find(reach, starts, passes) {
		return t
	}
	t.Alone = false
	if t.find(v.High-v.Low, [2]float64{v.Low, v.High}, func(x float64) bool { return w.nominalPasses(i, x) }) {
		return t
	}
	return nil
}

// find looks upward from the first start and downward from the second, as far as reach, for
// the first value that passes.
func (t *Turn) find(reach float64, starts [2]float64, passes func(float64) bool) bool {
	for i, bad := range starts {
		if passes(bad) {
			continue
		}
		toward := 1 - 2*float64(i)
		for k := 1; k <= 2*samples; k++ {
			good := bad + toward*reach*float64(k)/(2*samples)
			if passes(good) {
				t.At, t.Least = bisect(good-toward*reach/(2*samples), good, passes), i == 0
				return true
			}
		}
	}
	return false
}

// bisect narrows the turning point between a value that fails and one that passes, and
// returns the passing side.
func bisect(bad, good float64, passes func(float64) bool) float64 {
	for i := 0; i < 60; i++ {
		mid := (bad + good) / 2
		if passes(mid) {
			good = mid
		} else {
			bad = mid
		}
	}
	return good
}

// Named is the name of an input or a step.
func (c *Check) Named(symbol string) string {
	for _, in := range c.Inputs {
		if in.Symbol == symbol {
			return in.Name
		}
	}
	for _, s := range c.Steps {
		if s.Symbol == symbol {
			return s.Name
		}
	}
	return symbol
}

// measure is how an input would be measured.
func (c *Check) measure(symbol string) string {
	for _, in := range c.Inputs {
		if in.Symbol == symbol && in.Measure != "" {
			return in.Measure
		}
	}
	return "measure the " + c.Named(symbol)
}

// UnitOf is the unit of an input or a step.
func (c *Check) UnitOf(symbol string) Unit {
	for _, in := range c.Inputs {
		if in.Symbol == symbol {
			return in.Unit
		}
	}
	for _, s := range c.Steps {
		if s.Symbol == symbol {
			return s.Unit
		}
	}
	return Ratio
}

// step is the smallest change that the shop can make of a kind of quantity: its cutting step
// for a length, one for a count, a hundredth for the rest.
func (j *Job) step(u Unit) float64 {
	switch u {
	case Length:
		name := "inch"
		if j.Unit == length.Millimetre {
			name = "metric"
		}
		return j.Standard("cutting", name, "step", Length).Nominal
	case Count:
		return 1
	}
	return 0.01
}
