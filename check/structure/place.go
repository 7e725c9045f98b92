package structure

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"dryfit/check"
)

// crossing is a place where a part goes through another or stands on it.
type crossing struct {
	joint *check.Joint
	other *check.Part // what crosses it; nil where nobody knows which
	name  string      // of what crosses it, as typed where it means several parts
	at    float64     // middle, from the left or lower end
	wide  float64     // of the slot in the part itself, along it
	typed bool        // somebody gave the place; else equal bays
}

// named reports whether a joint or a load that names a part means p.
func named(j *check.Job, name string, p *check.Part) bool {
	return name != "" && (name == p.Mark.Text || slices.Contains(called(j, name), p))
}

// called are the parts that a name means which is the mark of none.
func called(j *check.Job, name string) []*check.Part {
	if j.Part(name) != nil {
		return nil
	}
	return j.Called(name)
}

// mates are the parts that a joint names.
func mates(j *check.Job, name string) []*check.Part {
	if p := j.Part(name); p != nil {
		return []*check.Part{p}
	}
	return j.Called(name)
}

// meeting is a joint as one of its parts sees it.
type meeting struct {
	joint   *check.Joint
	own     []*check.Part // all parts that its name for this side means
	others  []*check.Part
	name    string // of the other side, as typed
	slotted bool   // the part itself is the slotted one
}

// meetings are the joints of each part.
type meetings map[*check.Part][]meeting

// jointsOf are the joints of a part.
func jointsOf(j *check.Job, p *check.Part) []meeting { return check.Once(j, findMeetings)[p] }

func findMeetings(j *check.Job) meetings {
	out := meetings{}
	marked := map[string][]*check.Part{}
	for _, p := range j.Parts {
		marked[p.Mark.Text] = append(marked[p.Mark.Text], p)
	}
	meant := func(name string) map[*check.Part]bool {
		set := map[*check.Part]bool{}
		if name != "" {
			for _, p := range slices.Concat(marked[name], called(j, name)) {
				set[p] = true
			}
		}
		return set
	}
	for _, jt := range j.Joints {
		into, enters := meant(jt.Into.Text), meant(jt.Enters.Text)
		in, of := mates(j, jt.Into.Text), mates(j, jt.Enters.Text)
		for p := range into {
			if !enters[p] {
				out[p] = append(out[p], meeting{jt, in, beside(p, of), jt.Enters.Text, true})
			}
		}
		for p := range enters {
			if !into[p] {
				out[p] = append(out[p], meeting{jt, of, beside(p, in), jt.Into.Text, false})
			}
		}
	}
	return out
}

// beside keeps the parts of the same case as p, where a name means parts of several.
func beside(p *check.Part, all []*check.Part) []*check.Part {
	var out []*check.Part
	for _, q := range all {
		if q.Case.Text == p.Case.Text && q.Room.Text == p.Room.Text {
			out = append(out, q)
		}
	}
	if len(out) == 0 {
		return all
	}
	return out
}

// runsThrough reports a joint in which both parts go on past one another.
func runsThrough(k check.JointKind) bool {
	return k == check.CrossLap || k == check.NotchedLap || k == check.Notch
}

// crossings are the uprights that a shelf goes through, from its left end: at the places
// typed for the joint, else where the uprights are said to stand, else in equal bays.
func crossings(j *check.Job, p *check.Part) []crossing {
	var out []crossing
	for _, m := range jointsOf(j, p) {
		if !runsThrough(m.joint.Kind) || !m.slotted && spokenOf(j, m.joint) {
			continue
		}
		out = append(out, m.places(j, p)...)
	}
	return out
}

// through are the joints in which parts go on past one another, by the names of both sides.
type through map[[2]string][]*check.Joint

func findThrough(j *check.Job) through {
	out := through{}
	for _, jt := range j.Joints {
		if runsThrough(jt.Kind) {
			k := [2]string{jt.Into.Text, jt.Enters.Text}
			out[k] = append(out[k], jt)
		}
	}
	return out
}

// spokenOf reports whether another joint speaks of the same crossings from the other part: there
// the slots of that part stand.
func spokenOf(j *check.Job, jt *check.Joint) bool {
	back := check.Once(j, findThrough)[[2]string{jt.Enters.Text, jt.Into.Text}]
	return slices.ContainsFunc(back, func(o *check.Joint) bool { return o != jt })
}

func (m meeting) places(j *check.Job, p *check.Part) []crossing {
	length := p.Length.Nominal
	var out []crossing
	if m.slotted {
		for _, x := range typedPlaces(m.joint, length, thick(m.others)) {
			out = append(out, crossing{m.joint, only(m.others), m.called(), x, m.slot(), true})
		}
	}
	if len(out) == 0 {
		out = m.standing(j, p)
	}
	if len(out) > 0 {
		return out
	}
	n := m.each(p)
	for i := 1; i <= n; i++ {
		out = append(out, crossing{m.joint, only(m.others), m.called(), length * float64(i) / float64(n+1), m.slot(), false})
	}
	return out
}

// slot is how wide the slot in the part itself is: as typed where the part is the slotted
// one, else as wide as what goes through it.
func (m meeting) slot() float64 {
	if m.slotted && m.joint.Width.Known {
		return m.joint.Width.Nominal
	}
	return thick(m.others)
}

// standing are the places of uprights whose position in the case is typed, one row each.
func (m meeting) standing(j *check.Job, p *check.Part) []crossing {
	left := p.X.Nominal
	if !p.X.Known {
		for _, s := range caseOf(j, p).Role(check.Side) {
			left = s.Thickness.Nominal
		}
	}
	var out []crossing
	for _, o := range m.others {
		x := o.X.Nominal + o.Thickness.Nominal/2 - left
		if !o.X.Known || pieces(o) > 1 || x <= 0 || x >= p.Length.Nominal {
			return nil
		}
		out = append(out, crossing{m.joint, o, o.Name(), x, m.slot(), true})
	}
	return out
}

// each is how many crossings one piece of a part has: all crossings over the pieces of its
// side of the joint, else the pieces of the other side.
func (m meeting) each(p *check.Part) int {
	count := func(ps []*check.Part) (n float64) {
		for _, q := range ps {
			n += pieces(q)
		}
		return n
	}
	if m.joint.Count.Known {
		return int(math.Round(m.joint.Count.Nominal / math.Max(1, count(m.own))))
	}
	return int(count(m.others))
}

func only(ps []*check.Part) *check.Part {
	if len(ps) == 1 {
		return ps[0]
	}
	return nil
}

// called is what the other side of a joint is called.
func (m meeting) called() string {
	if p := only(m.others); p != nil {
		return p.Name()
	}
	return m.name
}

func thick(ps []*check.Part) float64 {
	for _, p := range ps {
		if p.Thickness.Known {
			return p.Thickness.Nominal
		}
	}
	return 0
}

// typedPlaces are the middles of the slots of a joint from the left or lower end of the
// slotted part. Edges and clear bays are turned into middles by the width of the slot, or of
// what goes in. A place off the part is left out; fit.pitch speaks of it.
func typedPlaces(jt *check.Joint, length, other float64) []float64 {
	wide := other
	if jt.Width.Known {
		wide = jt.Width.Nominal
	}
	var at []float64
	for _, v := range jt.At {
		if !v.Known {
			continue
		}
		switch {
		case jt.Centres:
			at = append(at, v.Nominal)
		case jt.Far:
			at = append(at, v.Nominal-wide/2)
		default:
			at = append(at, v.Nominal+wide/2)
		}
	}
	if len(at) == 0 {
		at = fromBays(jt.Bays, length, wide)
	}
	var out []float64
	for _, x := range at {
		if jt.From == "right" || jt.From == "top" {
			x = length - x
		}
		if x > 0 && x < length {
			out = append(out, x)
		}
	}
	return out
}

// fromBays turns clear bays into the middles between them. The bays that only say "balance"
// or "equal" share what is left.
func fromBays(bays []check.Value, length, wide float64) []float64 {
	if len(bays) < 2 {
		return nil
	}
	left, open := length-wide*float64(len(bays)-1), 0
	for _, b := range bays {
		if b.Known {
			left -= b.Nominal
		} else {
			open++
		}
	}
	var out []float64
	x := 0.0
	for _, b := range bays[:len(bays)-1] {
		clear := b.Nominal
		if !b.Known {
			clear = left / float64(open)
		}
		x += clear
		out = append(out, x+wide/2)
		x += wide
	}
	return out
}

// caseOf is the case a part belongs to, with all its parts.
func caseOf(j *check.Job, p *check.Part) check.Case { return j.CaseOf(p) }

// toFraming reports whether words speak of a fixing into the house: what is screwed to it does
// not fall.
func toFraming(text string) bool { return check.OfTheHouse(text) }

func words(list string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(list) {
		set[w] = true
	}
	return set
}

func anyWord(text string, set map[string]bool) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if set[w] {
			return true
		}
	}
	return false
}
