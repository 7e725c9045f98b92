package opening

import (
	"fmt"
	"math"

	"dryfit/check"
)

// survey is the readings of an opening that say the same thing twice: what two of them give, a
// third must give again.
type survey struct {
	names  []string
	values []float64
	off    []float64 // what each reading may be off by
	rules  []rule
}

// rule is one thing that the readings must agree on.
type rule struct {
	name    string
	within  float64                            // most they may disagree by
	differs func(at func(int) float64) float64 // by how much they do
	uses    []int
}

func (s *survey) add(name string, v, off float64) int {
	s.names, s.values, s.off = append(s.names, name), append(s.values, v), append(s.off, off)
	return len(s.values) - 1
}

func (s *survey) at(i int) float64 { return s.values[i] }

// worst is the rule that is broken most, as a share of what it allows.
func (s *survey) worst() (r rule, by float64, ok bool) {
	share := -1.0
	for _, each := range s.rules {
		if d := math.Abs(each.differs(s.at)); d/each.within > share {
			r, by, share, ok = each, d, d/each.within, true
		}
	}
	return r, by, ok
}

// liar is the reading that most likely lies: moved alone, and by less than any other that
// would do, it makes all agree. ok is false where two readings would do about as well.
func (s *survey) liar() (name string, ought float64, ok bool) {
	r, _, _ := s.worst()
	best, second := math.Inf(1), math.Inf(1)
	for _, i := range r.uses {
		moved, mends := s.moved(i, r)
		if !mends {
			continue
		}
		switch far := math.Abs(moved-s.values[i]) / s.off[i]; {
		case far < best:
			best, second = far, best
			name, ought = s.names[i], moved
		case far < second:
			second = far
		}
	}
	return name, ought, best < .75*second
}

// moved is where one reading would have to be for a rule to hold exactly, and whether all the
// rules hold then.
func (s *survey) moved(i int, r rule) (to float64, mends bool) {
	was := s.values[i]
	defer func() { s.values[i] = was }()
	step := max(1e-6*math.Abs(was), 1e-6)
	for range 40 { // Newton: the rules are all but straight
		d := r.differs(s.at)
		if math.Abs(d) < 1e-9 {
			break
		}
		s.values[i] += step
		slope := (r.differs(s.at) - d) / step
		s.values[i] -= step
		if math.Abs(slope) < 1e-6 {
			return was, false
		}
		s.values[i] -= d / slope
	}
	to = s.values[i]
	for _, each := range s.rules {
		if math.Abs(each.differs(s.at)) > each.within {
			return to, false
		}
	}
	return to, true
}

// absent stands for a reading that nobody took.
const absent = -1

// surveyOf gathers the readings of an opening that check each other. X runs to the right from
// the foot of the left side, Y up.
func surveyOf(j *check.Job, o *check.Opening) *survey {
	s := &survey{}
	w, h := sides(j, o), floorAndHead(j, o)
	if len(w.along) < 2 || o.Poor {
		return s
	}
	n := len(w.along) - 1
	wf, wt := s.add("width at the floor", w.size[0], w.off), s.add("width at the top", w.size[n], w.off)
	left, right := s.lean("plumb of the left side", w.near), s.lean("plumb of the right side", w.far)
	if left >= 0 && right >= 0 {
		s.rules = append(s.rules, rule{"widths and plumb", 4 * max(w.off, s.off[left], s.off[right]), func(at func(int) float64) float64 {
			return at(wt) - at(wf) - at(left) - at(right)
		}, []int{wf, wt, left, right}})
	}
	if len(h.along) < 2 {
		return s
	}
	m := len(h.along) - 1
	hl, hr := s.add("height at the left", h.size[0], h.off), s.add("height at the right", h.size[m], h.off)
	floor, head := s.lean("level of the floor", h.near), s.lean("level of the head", h.far)
	if floor >= 0 && head >= 0 {
		s.rules = append(s.rules, rule{"heights and level", 4 * max(h.off, s.off[floor], s.off[head]), func(at func(int) float64) float64 {
			return at(hr) - at(hl) - at(floor) - at(head)
		}, []int{hl, hr, floor, head}})
	}
	s.diagonals(j, o, corners{wf, wt, hl, hr, left, right, floor})
	return s
}

// lean adds a lean that was read with its direction.
func (s *survey) lean(name string, t tilt) int {
	if !t.known || t.guessed {
		return absent
	}
	return s.add(name, t.nominal, t.off)
}

// corners are the readings from which the four corners follow.
type corners struct{ wf, wt, hl, hr, left, right, floor int }

// diagonals adds each diagonal against the corners that the other readings give. What nobody
// read of the floor widens what they may disagree by.
func (s *survey) diagonals(j *check.Job, o *check.Opening, c corners) {
	if c.left < 0 && c.right < 0 {
		return
	}
	within := j.Standard("site", "diagonals against sides", "disagree by", check.Length).Nominal
	if c.floor < 0 {
		within += j.Standard("site", "floor", "lean", check.Ratio).Nominal / 12 * s.values[c.wf]
	}
	off := j.Standard("site", "diagonal", "reading", check.Length).Nominal
	opt := func(at func(int) float64, i int) float64 {
		if i < 0 {
			return 0
		}
		return at(i)
	}
	topLeft := func(at func(int) float64) float64 { // of the left side, from its foot
		if c.left >= 0 {
			return -at(c.left)
		}
		return at(c.wf) + at(c.right) - at(c.wt)
	}
	for _, d := range o.Diagonals {
		if !d.Value.Known || d.At != "LB-RT" && d.At != "RB-LT" {
			continue
		}
		i := s.add("diagonal "+d.At, d.Value.Nominal, off)
		uses := []int{i, c.wf, c.wt, c.hl, c.hr}
		for _, k := range []int{c.left, c.right, c.floor} {
			if k >= 0 {
				uses = append(uses, k)
			}
		}
		differs := func(at func(int) float64) float64 {
			return at(i) - math.Hypot(topLeft(at)+at(c.wt), at(c.hr)-opt(at, c.floor))
		}
		if d.At == "RB-LT" {
			differs = func(at func(int) float64) float64 {
				return at(i) - math.Hypot(at(c.wf)-topLeft(at), at(c.hl)+opt(at, c.floor))
			}
		}
		s.rules = append(s.rules, rule{"diagonal " + d.At + " and sides", within, differs, uses})
	}
}

// disagreement is the worst of the readings of an opening, in words.
func disagreement(j *check.Job, s *survey) (r rule, by float64, words string, ok bool) {
	r, by, ok = s.worst()
	if !ok {
		return r, 0, "", false
	}
	words = r.name
	if name, ought, told := s.liar(); told {
		words = fmt.Sprintf("most likely the %s, ought to read %s", name, j.Len(ought))
	}
	return r, by, words, true
}
