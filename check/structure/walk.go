package structure

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/check"
)

// walk follows loads down.
type walk struct {
	job    *check.Job
	frame  *frame
	all    []*shelf
	screws map[*check.Joint]check.Row    // rows of structure.cleat
	lies   map[*check.Part][]*check.Part // cleats that carry a shelf though no joint ties them, by shelf
	under  map[*check.Part]bool          // parts on which something was seen to land
	guess  map[*check.Part]float64       // what lands on one piece of a part of which no joint says so
	steps  []Step
	index  map[string]int
}

func walkOf(j *check.Job) *walk {
	f := frameOf(j)
	w := &walk{job: j, frame: f, all: f.shelves(), screws: map[*check.Joint]check.Row{}, lies: map[*check.Part][]*check.Part{},
		under: map[*check.Part]bool{}, guess: map[*check.Part]float64{}, index: map[string]int{}}
	for _, jt := range j.Joints {
		r, ok := cleatRow(j, jt, w.all)
		if !ok {
			continue
		}
		w.screws[jt] = r
		if cleat, _ := passes(j, jt); jt.Kind == check.CleatJoint {
			s := lainOn(j, jt, w.all).part
			w.lies[s] = append(w.lies[s], cleat)
		}
	}
	return w
}

// tells reports whether joints or heights say how a case comes down.
func (w *walk) tells(c check.Case) bool {
	for _, p := range c.Parts {
		switch p.Role {
		case check.Shelf, check.Adjustable, check.Seat, check.Upright, check.Divider:
			if p.Y.Known || len(holds(w.job, p)) > 0 {
				return true
			}
		}
		if len(w.lies[p]) > 0 {
			return true
		}
	}
	return false
}

func (w *walk) walk(c check.Case) {
	for _, s := range w.all {
		if slices.Contains(c.Parts, s.part) {
			w.shelf(s)
		}
	}
	for _, p := range c.Parts {
		switch {
		case p.Role == check.Upright || p.Role == check.Divider || p.Role == check.Side && w.under[p]:
			w.upright(p)
		case p.Role == check.Cleat || p.Role == check.Ledger:
			w.cleat(p)
		}
	}
	w.floor(c)
}

// add keeps a step, or gives one that is alike another place and the larger use.
func (w *walk) add(c string, s Step) {
	s.Case = c
	if !s.Known() && s.Why == "" {
		s.Why = "nothing typed says how much it takes"
	}
	key := c + "\x00" + s.From + "\x00" + s.To + "\x00" + s.By
	i, seen := w.index[key]
	if !seen {
		w.index[key] = len(w.steps)
		w.steps = append(w.steps, s)
		return
	}
	old := &w.steps[i]
	s.At = append(old.At, s.At...)
	if s.Use <= old.Use && s.Force <= old.Force {
		old.At = s.At
		return
	}
	*old = s
}

// shelf adds what stands on a part, and what lands on each of its supports.
func (w *walk) shelf(s *shelf) {
	p := s.part
	landings := s.landings()
	on := Step{From: s.load.called(), To: p.Name(), By: "its own strength", Carries: true, Cell: p.Row}
	for _, l := range landings {
		on.Likely += l.force
	}
	on.Force = on.Likely
	on.take([]limit{inBending.limit(w.job, bendingRow(s)), inShear.limit(w.job, shearRow(s))})
	w.add(p.Case.Text, on)
	for _, l := range landings {
		w.add(p.Case.Text, w.landing(s, l))
	}
}

// landing is the step from a loaded part to one of its supports.
func (w *walk) landing(s *shelf, l landing) Step {
	p := s.part
	step := Step{From: p.Name(), By: l.how, Force: s.onSupport(l), Likely: l.force, At: []float64{l.at},
		Carries: carries(w.job, p, l), Cell: p.Row}
	on := l.on
	if on == nil && l.joint == nil {
		on, step.By = w.endOn(s, l)
		step.Why = "no joint says what holds it there"
		if by, pins := s.pinned(); pins && by == nil && l.end {
			step.By, step.Why = "pins", ""
		}
		if on != nil {
			w.guess[on] += l.force * pieces(p) / pieces(on)
		}
	}
	step.To = l.name
	if on != nil {
		step.To = on.Name()
		w.under[on] = true
	}
	if step.To == "" {
		step.To = "what holds its end"
	}
	if l.joint == nil {
		step.take(w.holding(s, l))
		return step
	}
	step.Cell = l.joint.Row
	if h := holdOf(w.job, p, l.joint); !step.Carries || h.grip == unsaid {
		step.Why = h.why
		if step.Carries {
			step.Why = "nobody said what fastens it to " + step.To
		} else if step.Why == "" {
			step.Why = brokenBelow(w.job, l.on, []*check.Part{p})
		}
		return step
	}
	step.take(w.holding(s, l))
	if step.Governs == "" && step.Why == "" {
		step.Why = "nothing typed says how much of it bears or how it is fastened"
	}
	return step
}

// holding are the states of a support: the wood that bears, the screws.
func (w *walk) holding(s *shelf, l landing) []limit {
	var out []limit
	for _, r := range s.rests() {
		if r.joint != l.joint || r.joint == nil && r.on != l.on && !(r.pins && l.end) {
			continue
		}
		row := bearingRow(s, r)
		row.In["K"] = here(row.In["K"], l.most)
		st := inBearing
		if r.pins {
			st.name = "pins"
		}
		out = append(out, st.limit(w.job, row))
	}
	if row, ok := w.screws[l.joint]; ok && l.joint.Kind == check.Butt {
		out = append(out, inScrews.limit(w.job, row))
	}
	return out
}

// here is the coefficient of one support where a check takes the largest of all.
func here(largest check.Value, own float64) check.Value {
	if !largest.Known || own <= 0 || largest.Nominal <= own {
		return largest
	}
	return largest.Scale(own / largest.Nominal)
}

// onSupport is the most that comes to a support, as structure.bearing works it out whatever it
// bears on; 0 where the load is not known.
func (s *shelf) onSupport(l landing) float64 {
	in := nominals(s.presses(check.Exact(l.most)))
	in["n"], in["w"], in["l"], in["F"], in["c"] = 1, 1, 1, 1, 0
	v, err := Bearing.Work(in)
	if err != nil {
		return 0
	}
	return v["R"]
}

// endOn is what is thought to hold an end of which no joint speaks: a cleat that is screwed
// under it, else the side of its case, the first on the left and the last on the right.
func (w *walk) endOn(s *shelf, l landing) (on *check.Part, by string) {
	sides := caseOf(w.job, s.part).Role(check.Side)
	switch cleats := w.lies[s.part]; {
	case !l.end:
		return nil, l.how
	case len(cleats) > 0:
		return cleats[side(l.at)*(len(cleats)-1)], "lies on it"
	case len(sides) > 0:
		return sides[side(l.at)*(len(sides)-1)], l.how
	}
	return nil, l.how
}

func holdOf(j *check.Job, p *check.Part, jt *check.Joint) hold {
	for _, h := range holds(j, p) {
		if h.joint == jt {
			return h
		}
	}
	return hold{grip: sound}
}

// upright adds the step from an upright to what it stands on.
func (w *walk) upright(u *check.Part) {
	f := footOf(w.job, u)
	s := Step{From: u.Name(), To: "floor", By: "stands on it", Likely: w.frame.bringsDown(u, f.on) + w.guess[u], Carries: !f.hangs, Cell: u.Row}
	s.Force = max(0, s.Likely) // what would rather lift presses on nothing
	switch {
	case f.hangs:
		s.To, s.Why = "nothing", "stands on nothing, "+w.job.Len(u.Y.Nominal)+" above the floor"
	case f.post != nil:
		s.To, s.By = f.post.Name(), "through "+f.on.Name()
	case f.on != nil && f.posted:
		s.To, s.Why = f.on.Name(), "nobody said whether another upright stands under it"
	case f.on != nil:
		s.To, s.Why = f.on.Name(), "over no upright: it bends "+f.on.Name()
		s.At = []float64{f.at}
	default:
		if b := baseUnder(w.job, u); b != nil {
			s.To = b.Name()
		}
	}
	var all []limit
	if row, ok := uprightRow(w.job, u, w.all); ok && !f.hangs {
		all = append(all, atNeck.limit(w.job, row), asColumn.limit(w.job, row))
	}
	if row, ok := footRow(w.frame, u); ok {
		all = append(all, inBearing.limit(w.job, row))
	}
	s.take(all)
	if len(all) == 0 && s.Why == "" {
		s.Why = "no joint says what it carries"
	}
	w.add(u.Case.Text, s)
	if b := baseUnder(w.job, u); b != nil && s.To == b.Name() {
		w.add(u.Case.Text, Step{From: b.Name(), To: "floor", By: "lies on it", Likely: s.Likely, Force: s.Force, Carries: true, Cell: b.Row,
			Why: "bears along its length; see the floor"})
	}
}

// baseUnder is the base that an upright is known to stand on, by its height.
func baseUnder(j *check.Job, u *check.Part) *check.Part {
	for _, b := range caseOf(j, u).Role(check.Base) {
		if u.Y.Known && b.Width.Known && u.Y.Nominal > touching(j) && u.Y.Nominal >= b.Width.Nominal-touching(j) {
			return b
		}
	}
	return nil
}

// cleat adds the steps from a cleat or ledger to what it is screwed to.
func (w *walk) cleat(c *check.Part) {
	fixed := false
	for _, m := range jointsOf(w.job, c) {
		if m.joint.Inferred || m.joint.Kind == "" || m.carried(c) {
			continue
		}
		fixed = true
		s := Step{From: c.Name(), To: m.called(), By: string(m.joint.Kind), Carries: true, Cell: m.joint.Row}
		if len(m.others) == 0 && toFraming(m.name) {
			s.To = "the " + m.name
		}
		for _, p := range m.others {
			w.under[p] = true
		}
		row, worked := w.screws[m.joint]
		switch g := gripOf(m.joint); {
		case g == loose:
			s.Carries, s.Why = false, "a cleat that is only glued"
		case worked:
			s.By = "screws"
			s.take([]limit{inScrews.limit(w.job, row)})
			s.Likely = s.Force
		case g == unsaid:
			s.Why = "nobody said what fastens it to " + s.To
		default:
			s.Why = fmt.Sprintf("what %s takes is not worked out", check.Typed(m.joint.Fastener.Text))
		}
		w.add(c.Case.Text, s)
	}
	if !fixed && w.under[c] {
		w.add(c.Case.Text, Step{From: c.Name(), To: "what it is fixed to", By: "its fixing", Carries: true, Cell: c.Row,
			Why: "no joint says what the cleat is fixed to"})
	}
}

// carried reports whether a joint of a cleat is with what lies on it.
func (m meeting) carried(c *check.Part) bool {
	for _, p := range m.others {
		switch p.Role {
		case check.Shelf, check.Adjustable, check.Seat, check.Deck:
			return true
		}
	}
	return false
}

// floor adds the step from a whole case to the floor.
func (w *walk) floor(c check.Case) {
	b := bulkOf(w.job, c)
	if !b.stands || b.footprint() <= 0 {
		return
	}
	s := Step{From: c.Title(), To: "floor", By: "its footprint", Carries: true, Likely: b.weight.Nominal + b.load.Nominal}
	s.Force = s.Likely
	if len(b.cells) > 0 {
		s.Cell = b.cells[0]
	}
	s.take([]limit{onFloor.limit(w.job, floorRow(w.job, c, b))})
	if !b.typed {
		s.Why = strings.TrimPrefix(s.Why+"; nobody typed what stands in it", "; ")
	}
	w.add(c.Name, s)
}
