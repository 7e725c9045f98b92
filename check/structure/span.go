package structure

import (
	"fmt"
	"math"
	"slices"

	"dryfit/check"
	"dryfit/check/beam"
)

// span is a loaded part as a beam: how long its longest bay is and, as coefficients of that
// bay, what a load does to it. Where nobody said how it is held up, each number has the
// range of what could be.
type span struct {
	bay check.Value // longest bay

	sag, moment, shear    check.Value // of an even load w, any bay loaded or not: over wL^4/EI, wL^2, wL
	reaction, atEnd       check.Value // the most of any support and of an end, over wL
	pointSag, pointMoment check.Value // of a load in the middle of any bay: over PL^3/EI, PL
	slotMoment, slotPoint check.Value // the moments at the worst slot, 0 without one
	slotDepth             check.Value // how deep it is cut

	likely layout // how it is held up, as far as anybody knows
	length float64
	each   []float64 // the most of each support of the likely layout, over wL of the longest bay

	over  []crossing // uprights it goes through
	posts []post     // what stands right under it, where it goes through nothing
	ends  bool       // its ends are known to be held up
	typed bool       // the places of the uprights are typed
}

// layout is one way in which a part may be held up.
type layout struct {
	supports []float64
	cuts     []cut
}

// cut is a slot from an edge, as it stands in a layout.
type cut struct {
	at, wide float64
	soft     float64 // length over which it softens the part
	kept     float64 // share of the bending stiffness left
	depth    float64
	width    float64 // left
}

// spanOf finds how a part is held up and works out its coefficients.
func spanOf(j *check.Job, p *check.Part) (span, error) {
	s := span{over: crossings(j, p)}
	if len(s.over) == 0 {
		s.posts = postsUnder(j, p)
	}
	for _, c := range s.over {
		s.typed = c.typed
	}
	box := caseOf(j, p)
	s.ends = s.sides(box) || s.endJoint(j, p)
	likely, others, how := s.layouts(j, p, box)
	s.likely, s.length = likely, p.Length.Nominal
	first, err := likely.solve(j, p.Length.Nominal)
	if err != nil {
		return s, err
	}
	all := []result{first}
	for _, l := range others {
		if r, err := l.solve(j, p.Length.Nominal); err == nil {
			all = append(all, r)
		}
	}
	s.take(p, all, how)
	return s, nil
}

// onPost reports a joint with a post under the part.
func (s *span) onPost(m meeting) bool {
	return slices.ContainsFunc(s.posts, func(o post) bool { return contains(m.others, o.part) })
}

// sides reports whether the case has sides beside a part: those that stand under it hold no end.
func (s *span) sides(box check.Case) bool {
	for _, p := range box.Role(check.Side) {
		if !s.stoodUnderBy(p) {
			return true
		}
	}
	return false
}

// endJoint reports whether a joint holds the ends of a part.
func (s *span) endJoint(j *check.Job, p *check.Part) bool {
	for _, m := range jointsOf(j, p) {
		if s.onPost(m) {
			continue
		}
		if !runsThrough(m.joint.Kind) && !m.slotted || m.joint.Kind == check.CleatJoint {
			return true
		}
	}
	return false
}

// layouts are the likely way in which a part is held up, and the others that could be.
func (s *span) layouts(j *check.Job, p *check.Part, box check.Case) (likely layout, others []layout, how string) {
	length := p.Length.Nominal
	places := s.places()
	n := len(places)
	withEnds := layout{supports: append(append([]float64{0}, places...), length), cuts: s.cuts(j, p, places)}
	switch {
	case n == 0:
		return s.plain(p, box)
	case s.typed && !s.ends && n >= 2:
		free := layout{supports: places, cuts: withEnds.cuts}
		return withEnds, []layout{free}, "its ends on something or free, nobody said"
	case s.typed || s.ends || n < 2:
		return withEnds, nil, ""
	}
	at := func(bays int) layout {
		l := layout{supports: equal(length, bays)}
		l.cuts = s.cuts(j, p, l.supports[1:len(l.supports)-1])
		return l
	}
	return at(n), []layout{at(n - 1), at(n + 1)}, fmt.Sprintf("%d uprights at places nobody typed", n)
}

// plain is a part that goes through nothing. Uprights of its case that no joint ties to it
// may stand under it all the same, where it runs past them.
func (s *span) plain(p *check.Part, box check.Case) (layout, []layout, string) {
	length := p.Length.Nominal
	if l, ok := s.overPosts(p); ok {
		return l, nil, ""
	}
	s.posts = nil
	alone := layout{supports: []float64{0, length}}
	n, inside := 0, 0.0
	for _, u := range box.Role(check.Upright, check.Divider) {
		n += int(pieces(u))
	}
	for _, q := range box.Role(check.Shelf, check.Deck, check.Head, check.Sill, check.Seat) {
		inside = math.Max(inside, q.Length.Nominal)
	}
	if n == 0 || length < .75*inside || p.Role == check.Adjustable {
		return alone, nil, ""
	}
	if p.Role == check.Seat { // the dividers of a seat stand under it; some may be its ends
		return layout{supports: equal(length, n+1)}, []layout{{supports: equal(length, max(1, n-1))}}, fmt.Sprintf("%d dividers at places nobody typed", n)
	}
	return alone, []layout{{supports: equal(length, n+1)}}, fmt.Sprintf("on its ends alone or on the %d uprights of the case too, nobody said", n)
}

func equal(length float64, bays int) []float64 {
	var out []float64
	for i := range bays + 1 {
		out = append(out, length*float64(i)/float64(bays))
	}
	return out
}

func (s *span) places() []float64 {
	var out []float64
	for _, c := range s.over {
		out = append(out, c.at)
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 })
}

// cuts are the slots of a part at some places: an upright goes into the front or back edge
// of a shelf and takes width, over its own thickness.
func (s *span) cuts(j *check.Job, p *check.Part, places []float64) []cut {
	if len(s.over) == 0 || !p.Width.Known || p.Width.Nominal <= 0 {
		return nil
	}
	var out []cut
	for i, x := range places {
		c := s.at(x, i)
		depth := c.joint.DepthOf
		if named(j, c.joint.Into.Text, p) {
			depth = c.joint.DepthIn
		}
		if !depth.Known || !(c.wide > 0) || depth.Nominal <= 0 || depth.Nominal >= p.Width.Nominal {
			continue
		}
		left := p.Width.Nominal - depth.Nominal
		out = append(out, newCut(x, c.wide, depth.Nominal, left))
	}
	return out
}

// newCut is a slot that takes depth and leaves left of the width. Stress flows around its
// corners, and the panel twists there: it softens the part over its own width and the smaller
// of what is cut and what is left. House rule; shells of the whole panel give .7 to 1.1 of it.
func newCut(at, wide, depth, left float64) cut {
	return cut{at: at, wide: wide, soft: wide + math.Min(depth, left), kept: left / (left + depth), depth: depth, width: left}
}

// at is the crossing at a place; where the places are no more than equal bays, the i-th.
func (s *span) at(x float64, i int) crossing {
	for _, c := range s.over {
		if math.Abs(c.at-x) < 1e-9 {
			return c
		}
	}
	return s.over[min(i, len(s.over)-1)]
}

// result is a layout worked out.
type result struct {
	bay                          float64
	sag, moment, shear           float64
	reaction, atEnd              float64
	each                         []float64
	pointSag, pointMoment        float64
	slotMoment, slotPoint, depth float64
}

func (l layout) work(length float64) (result, error) {
	b, err := l.beam(length)
	if err != nil {
		return result{}, err
	}
	r := result{bay: longestBay(l.supports)}
	bays := b.Bays(1)
	worst, err := b.Worst(bays)
	if err != nil {
		return r, err
	}
	for _, s := range worst.Spans {
		r.sag = math.Max(r.sag, s.Sag.Value)
		r.moment = math.Max(r.moment, math.Max(s.Sagging.Value, s.Hogging.Value))
		r.shear = math.Max(r.shear, s.Shear.Value)
	}
	for i, c := range worst.Reactions {
		r.each = append(r.each, c.Value)
		r.reaction = math.Max(r.reaction, c.Value)
		if i == 0 || i == len(worst.Reactions)-1 {
			r.atEnd = math.Max(r.atEnd, c.Value)
		}
	}
	if err := l.points(b, &r); err != nil {
		return r, err
	}
	if err := l.slots(b, bays, &r); err != nil {
		return r, err
	}
	r.scale()
	return r, nil
}

func (l layout) beam(length float64) (beam.Beam, error) {
	b := beam.Beam{Length: length}
	for _, x := range l.supports {
		b.Supports = append(b.Supports, beam.Support{At: x})
	}
	var slots []beam.Slot
	for i, c := range l.cuts {
		wide := c.soft
		for k, o := range l.cuts { // two that stand close share what lies between them
			if k != i {
				wide = math.Min(wide, math.Abs(o.at-c.at))
			}
		}
		slots = append(slots, beam.Slot{Centre: c.at, Width: math.Max(wide, c.wide), EI: c.kept})
	}
	pieces, err := beam.Slotted(length, 1, 0, slots)
	b.Pieces = pieces
	return b, err
}

// points puts one in the middle of each bay in turn, and at each end that overhangs.
func (l layout) points(b beam.Beam, r *result) error {
	last := len(l.supports) - 1
	var at []float64
	for i := 1; i <= last; i++ {
		at = append(at, (l.supports[i-1]+l.supports[i])/2)
	}
	if l.supports[0] > 1e-9 {
		at = append(at, 0)
	}
	if l.supports[last] < b.Length-1e-9 {
		at = append(at, b.Length)
	}
	for _, x := range at {
		b.Loads = beam.Loads{Points: []beam.Point{{At: x, P: 1}}}
		got, err := b.Solve()
		if err != nil {
			return err
		}
		e := got.Between(0, b.Length)
		r.pointSag = math.Max(r.pointSag, e.Sag.Value)
		r.pointMoment = math.Max(r.pointMoment, math.Max(e.Sagging.Value, e.Hogging.Value))
		for _, c := range l.cuts {
			r.slotPoint = math.Max(r.slotPoint, c.largest(got))
		}
	}
	return nil
}

// slots finds the slot with the largest stress: moments add up bay by bay, so that the worst
// loading of each place loads the bays that bend it one way.
func (l layout) slots(b beam.Beam, bays []beam.Loads, r *result) error {
	most := 0.0
	for _, c := range l.cuts {
		up, down := 0.0, 0.0
		for _, load := range bays {
			b.Loads = load
			got, err := b.Solve()
			if err != nil {
				return err
			}
			e := got.Between(c.ends(b.Length))
			up, down = up+math.Max(0, e.Sagging.Value), down+math.Max(0, e.Hogging.Value)
		}
		if m := math.Max(up, down); m/c.width > most {
			most, r.slotMoment, r.depth = m/c.width, m, c.depth
		}
	}
	return nil
}

func (c cut) ends(length float64) (from, to float64) {
	return math.Max(0, c.at-c.wide/2), math.Min(length, c.at+c.wide/2)
}

func (c cut) largest(r *beam.Result) float64 {
	e := r.Between(c.ends(math.Inf(1)))
	return math.Max(0, math.Max(e.Sagging.Value, e.Hogging.Value))
}

// under works out what point loads do, as coefficients of their sum: over PL^3/EI and PL.
func (s *span) under(places, loads []float64) (sag, moment float64, err error) {
	b, err := s.likely.beam(s.length)
	if err != nil {
		return 0, 0, err
	}
	sum := 0.0
	for i, x := range places {
		b.Points = append(b.Points, beam.Point{At: x, P: loads[i]})
		sum += loads[i]
	}
	r, err := b.Solve()
	if err != nil {
		return 0, 0, err
	}
	e, l := r.Between(0, s.length), longestBay(s.likely.supports)
	return e.Sag.Value / (sum * l * l * l), math.Max(e.Sagging.Value, e.Hogging.Value) / (sum * l), nil
}

// scale turns what loads of one do into coefficients of the longest bay.
func (r *result) scale() {
	l := r.bay
	r.sag /= l * l * l * l
	r.moment /= l * l
	r.slotMoment /= l * l
	r.shear /= l
	r.reaction /= l
	r.atEnd /= l
	for i := range r.each {
		r.each[i] /= l
	}
	r.pointSag /= l * l * l
	r.pointMoment /= l
	r.slotPoint /= l
}

func longestBay(supports []float64) float64 {
	longest := 0.0
	for i := 1; i < len(supports); i++ {
		longest = math.Max(longest, supports[i]-supports[i-1])
	}
	return longest
}

// take binds the coefficients: those of the likely layout, with the range over all.
func (s *span) take(p *check.Part, all []result, how string) {
	what := fmt.Sprintf("%d supports, any bay loaded or not", len(s.over)+2)
	if all[0].slotMoment > 0 {
		what += ", slots taken out"
	}
	bind := func(of func(result) float64) check.Value {
		low, high := of(all[0]), of(all[0])
		for _, r := range all {
			low, high = math.Min(low, of(r)), math.Max(high, of(r))
		}
		if low == high {
			return solved(low, what)
		}
		return check.Guess(low, of(all[0]), high, how)
	}
	s.each = all[0].each
	s.bay = bind(func(r result) float64 { return r.bay })
	switch {
	case !s.bay.Guessed && s.bay.Nominal == p.Length.Nominal:
		s.bay = p.Length
	case !s.bay.Guessed:
		s.bay.Why = "longest bay of " + p.Name()
	}
	s.sag = bind(func(r result) float64 { return r.sag })
	s.moment = bind(func(r result) float64 { return r.moment })
	s.shear = bind(func(r result) float64 { return r.shear })
	s.reaction = bind(func(r result) float64 { return r.reaction })
	s.atEnd = bind(func(r result) float64 { return r.atEnd })
	s.pointSag = bind(func(r result) float64 { return r.pointSag })
	s.pointMoment = bind(func(r result) float64 { return r.pointMoment })
	s.slotMoment = bind(func(r result) float64 { return r.slotMoment })
	s.slotPoint = bind(func(r result) float64 { return r.slotPoint })
	s.slotDepth = bind(func(r result) float64 { return r.depth })
}
