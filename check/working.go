package check

import (
	"encoding/binary"
	"math"
)

// working is the steps of a check over the ranges of its inputs. An input is known by its
// place among the inputs. A range may be moved and the working settled again.
type working struct {
	check   *Check
	program *program
	ranges  []span    // of the inputs
	at      []float64 // inputs and steps at the point being evaluated: at the nominals when settled
	back    []float64 // where a move comes back to
	ranged  []int     // inputs with a range, in order
	margin  float64   // at the nominals
	losses  []float64 // see settle
	err     error     // the first since the working was settled
}

// span is what one input could be.
type span struct {
	low, nominal, high float64
	guessed            bool
}

// exactly is a span without a range.
func exactly(x float64) span { return span{low: x, nominal: x, high: x} }

// around is the span moved so that its nominal comes to x.
func (s span) around(x float64) span {
	return span{low: x + s.low - s.nominal, nominal: x, high: x + s.high - s.nominal}
}

func (s span) wide() bool { return s.high-s.low > dust*math.Max(1, math.Abs(s.nominal)) }

// working makes room for the working of a row.
func (c *Check) working() (*working, error) {
	p, err := c.program()
	if err != nil {
		return nil, err
	}
	return &working{check: c, program: p, ranges: make([]span, len(c.Inputs)),
		at: make([]float64, len(p.names)), back: make([]float64, len(p.names))}, nil
}

// take takes the ranges of inputs that are all known. The working is not settled yet.
func (w *working) take(in map[string]Value) {
	for i, input := range w.check.Inputs {
		v := in[input.Symbol]
		w.ranges[i] = span{v.Low, v.Nominal, v.High, v.Guessed}
	}
}

// numbers appends all that the working rests on.
func (w *working) numbers(to []byte) []byte {
	for _, s := range w.ranges {
		for _, x := range [...]float64{s.low, s.nominal, s.high} {
			to = binary.NativeEndian.AppendUint64(to, math.Float64bits(x))
		}
		guessed := byte(0)
		if s.guessed {
			guessed = 1
		}
		to = append(to, guessed)
	}
	return to
}

// settle puts every input at its nominal and works out the margin there.
func (w *working) settle() {
	w.ranged, w.losses, w.err = w.ranged[:0], w.losses[:0], nil
	for i, s := range w.ranges {
		w.at[i] = s.nominal
		if s.wide() {
			w.ranged = append(w.ranged, i)
		}
	}
	w.margin = w.eval(w.program.all)
}

// eval works some steps out at the present point and gives the margin there; where it cannot
// be worked out, all is lost.
func (w *working) eval(steps []int) float64 {
	m, err := w.program.eval(w.check, w.at, steps)
	if err != nil && w.err == nil {
		w.err = err
	}
	return m
}

// move takes one input to x, with all that rests on it, and gives the margin there.
func (w *working) move(i int, x float64) float64 {
	w.at[i] = x
	return w.eval(w.program.resting[i])
}

// with is the margin with one input moved to x, the others as they are. It comes back.
func (w *working) with(i int, x float64) float64 {
	copy(w.back, w.at)
	m := w.move(i, x)
	copy(w.at, w.back)
	return m
}

// passes reports whether a row with these ranges is CLEAR.
func (w *working) passes() bool {
	w.settle()
	return w.err == nil && w.margin >= -dust && w.worst() >= -dust && w.err == nil
}

// cost is how much margin each range costs at its worse end, the others at nominal.
func (w *working) cost() []float64 {
	if len(w.losses) == 0 {
		for _, i := range w.ranged {
			s := w.ranges[i]
			w.losses = append(w.losses, max(0, w.margin-min(w.with(i, s.low), w.with(i, s.high))))
		}
	}
	return w.losses
}

// decides is the input that costs most margin; a guess goes before a typed value that costs
// as much.
func (w *working) decides() string {
	losses := w.cost()
	guessed := func(k int) bool { return w.ranges[w.ranged[k]].guessed }
	best := -1
	for k := range losses {
		if best < 0 || losses[k] > losses[best]+dust || losses[k] > losses[best]-dust && guessed(k) && !guessed(best) {
			best = k
		}
	}
	if best < 0 {
		return ""
	}
	return w.program.names[w.ranged[best]]
}

// worst is the least margin over the ranges.
func (w *working) worst() float64 {
	if len(w.ranged) <= mostCorners {
		copy(w.back, w.at)
		least := min(w.margin, w.corners(w.ranged))
		copy(w.at, w.back)
		return least
	}
	sum := 0.0
	for _, l := range w.cost() {
		sum += l * l
	}
	return w.margin - math.Sqrt(sum)
}

// corners is the least margin over the ends of some ranges together. It stays at the last.
func (w *working) corners(ranged []int) float64 {
	if len(ranged) == 0 {
		return w.eval(w.program.all)
	}
	i, rest := ranged[0], ranged[1:]
	w.at[i] = w.ranges[i].low
	least := w.corners(rest)
	w.at[i] = w.ranges[i].high
	return min(least, w.corners(rest))
}

// samples is how finely a guess is searched for its kindest value: a two-sided margin is
// best inside the range, not at an end.
const samples = 24

// kindest is the best margin that the guesses allow, typed values at their nominal, and
// the guesses there. It climbs one guess at a time until none helps, and stays there.
func (w *working) kindest() (float64, map[string]float64) {
	best := w.margin
	for improved := true; improved && best < -dust; {
		improved = false
		for _, i := range w.ranged {
			s, keep := w.ranges[i], w.at[i]
			if !s.guessed {
				continue
			}
			for k := 0; k <= samples; k++ {
				x := s.low + (s.high-s.low)*float64(k)/samples
				if m := w.with(i, x); m > best+dust {
					best, keep, improved = m, x, true
				}
			}
			w.move(i, keep)
		}
	}
	found := map[string]float64{}
	for _, i := range w.ranged {
		if w.ranges[i].guessed {
			found[w.program.names[i]] = w.at[i]
		}
	}
	return best, found
}

// symbols names inputs.
func (w *working) symbols(inputs []int) []string {
	var out []string
	for _, i := range inputs {
		out = append(out, w.program.names[i])
	}
	return out
}
