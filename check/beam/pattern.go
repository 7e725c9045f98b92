package beam

import "fmt"

// Case is the largest value of a quantity over several loadings, and the loading that made it.
type Case struct {
	Extreme
	On []bool // which of the loads stood there
}

// Worst is the largest of everything over several loadings.
type Worst struct {
	Spans     []WorstSpan
	Reactions []Case // the most each support has to carry
	Uplift    []Case // the most each support has to hold down, 0 if it never does; always 0 where it only rests
}

// WorstSpan is the worst of one span of the beam with all supports in touch.
type WorstSpan struct {
	From, To                           float64
	Sag, Rise, Sagging, Hogging, Shear Case
}

// Bays gives one load for every bay and overhang of the beam, w per unit of length, for Worst.
func (b Beam) Bays(w float64) []Loads {
	m := newMesh(b)
	held := make([]bool, len(b.Supports))
	for i := range held {
		held[i] = true
	}
	var bays []Loads
	for _, s := range m.spans(held) {
		bays = append(bays, Loads{Spread: []Spread{{From: m.node[s.from], To: m.node[s.to], W: w}}})
	}
	return bays
}

// Worst solves the beam with its own loads, which always stand, and with the passing loads on
// and off, and keeps the worst of each quantity. Up to six passing loads are tried in every
// combination. More than six are taken for bays in order from the left, and only the
// loadings are tried that can be the worst of a run: all, none, every other one, two
// neighbours with every other one beyond them, and those turned on for off.
//
// Errors: as Solve.
func (b Beam) Worst(passing []Loads) (*Worst, error) {
	if err := b.check(); err != nil {
		return nil, err
	}
	var worst *Worst
	for _, on := range patterns(len(passing)) {
		loaded := b
		for i, load := range passing {
			if on[i] {
				loaded.Loads = loaded.and(load)
			}
		}
		r, err := loaded.Solve()
		if err != nil {
			return nil, fmt.Errorf("passing loads %v: %w", on, err)
		}
		if worst == nil {
			worst = b.noCase()
		}
		worst.take(r, on)
	}
	return worst, nil
}

func (b Beam) noCase() *Worst {
	w := &Worst{Reactions: make([]Case, len(b.Supports)), Uplift: make([]Case, len(b.Supports))}
	for _, bay := range b.Bays(0) {
		w.Spans = append(w.Spans, WorstSpan{From: bay.Spread[0].From, To: bay.Spread[0].To})
	}
	for i, s := range b.Supports {
		w.Reactions[i].At, w.Uplift[i].At = s.At, s.At
	}
	return w
}

func (w *Worst) take(r *Result, on []bool) {
	for i := range w.Spans {
		s := &w.Spans[i]
		e := r.Between(s.From, s.To)
		s.Sag.keep(e.Sag, on)
		s.Rise.keep(e.Rise, on)
		s.Sagging.keep(e.Sagging, on)
		s.Hogging.keep(e.Hogging, on)
		s.Shear.keep(e.Shear, on)
	}
	for i, reaction := range r.Reactions {
		w.Reactions[i].keep(Extreme{reaction, w.Reactions[i].At}, on)
		w.Uplift[i].keep(Extreme{-reaction, w.Uplift[i].At}, on)
	}
}

// keep starts from zero: with nothing passing, nothing is worse than nothing.
func (c *Case) keep(e Extreme, on []bool) {
	if e.Value > c.Value {
		c.Extreme, c.On = e, on
	}
}

// patterns lists the loadings to try, each a new slice.
func patterns(n int) [][]bool {
	const each = 6
	var list [][]bool
	add := func(on func(i int) bool) {
		pattern := make([]bool, n)
		for i := range pattern {
			pattern[i] = on(i)
		}
		list = append(list, pattern)
	}
	if n <= each {
		for choice := range 1 << n {
			add(func(i int) bool { return choice>>i&1 == 1 })
		}
		return list
	}
	add(func(int) bool { return false })
	add(func(int) bool { return true })
	for k := range n {
		pair := func(i int) bool { return i <= k && (k-i)%2 == 0 || i > k && (i-k)%2 == 1 }
		add(pair)
		add(func(i int) bool { return !pair(i) })
	}
	return list
}
