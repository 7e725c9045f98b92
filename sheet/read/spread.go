package read

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check"
)

// spread gives each part that a joint or a load names beside others a joint or a load of its
// own. Only the whole job knows what is a mark, so that it stands behind the reading of all tabs.
func spread(j *check.Job) {
	defer j.Keep()()
	names := severalIn(j)
	var joints []*check.Joint
	for _, jt := range j.Joints {
		joints = append(joints, spreadJoint(j, names, jt)...)
	}
	places := names
	places.known = func(name string) bool { return names.known(name) || bearsName(j, name) }
	var loads []*check.Load
	for _, l := range j.Loads {
		for _, on := range places.parts(l.On.Text) {
			one := *l
			one.On.Text = on
			loads = append(loads, &one)
		}
	}
	j.Joints, j.Loads = joints, loads
}

// bearsName reports whether a case, a room or an opening is called so, or "Case A" for A.
func bearsName(j *check.Job, name string) bool {
	own := func(called string) bool {
		if called == "" {
			return false
		}
		words := strings.Fields(fold(called))
		return fold(called) == fold(name) || len(words) > 1 && caseNouns[words[0]] && words[1] == fold(name)
	}
	return slices.ContainsFunc(j.Cases(), func(c check.Case) bool { return own(c.Name) || own(c.Room) }) ||
		slices.ContainsFunc(j.Openings, func(o *check.Opening) bool { return own(o.Name.Text) })
}

// spreadJoint is a joint for each pair of parts that a row names.
func spreadJoint(j *check.Job, names severalNames, jt *check.Joint) []*check.Joint {
	into, enters := names.parts(jt.Into.Text), names.parts(jt.Enters.Text)
	if len(into) == 1 && len(enters) == 1 {
		if into[0] == jt.Into.Text && enters[0] == jt.Enters.Text {
			return []*check.Joint{jt}
		}
	}
	s := &spreading{job: j, of: jt, into: into, enters: enters}
	s.pair()
	s.positions()
	s.counts()
	return s.out
}

// spreading is one row of a joint schedule that names several parts.
type spreading struct {
	job          *check.Job
	of           *check.Joint
	into, enters []string
	out          []*check.Joint
}

// pair makes the joints: every slotted part with every one that goes in, of the same case where
// such there are.
func (s *spreading) pair() {
	for _, a := range s.into {
		mates := s.sameCase(a)
		for _, b := range mates {
			one := *s.of
			one.At = slices.Clone(s.of.At)
			one.Bays = slices.Clone(s.of.Bays)
			one.Into.Text, one.Enters.Text = a, b
			s.out = append(s.out, &one)
		}
	}
}

func (s *spreading) sameCase(mark string) []string {
	p := s.job.Part(mark)
	if p == nil {
		return s.enters
	}
	var out []string
	for _, b := range s.enters {
		if q := s.job.Part(b); q != nil && q.Case.Text == p.Case.Text && q.Room.Text == p.Room.Text {
			out = append(out, b)
		}
	}
	if out == nil {
		return s.enters
	}
	return out
}

// pieces is how many pieces a name means, 0 where nobody says.
func (s *spreading) pieces(name string) float64 {
	if name == "" {
		return 1
	}
	parts := s.job.Called(name)
	if p := s.job.Part(name); p != nil {
		parts = []*check.Part{p}
	}
	n := 0.0
	for _, p := range parts {
		if !p.Qty.Known {
			return 0
		}
		n += p.Qty.Nominal
	}
	return n
}

// positions gives the parts that go in their own of the positions typed: as many in order as
// there are pieces of each. Where they do not come out even, nobody knows which goes where.
func (s *spreading) positions() {
	if len(s.enters) < 2 || len(s.of.At) == 0 && len(s.of.Bays) == 0 {
		return
	}
	for _, a := range s.into {
		mine := s.joints(a)
		if len(mine) < 2 || s.inOrder(mine) {
			continue
		}
		for _, one := range mine {
			one.At, one.Bays = nil, nil
		}
		s.job.Unread = append(s.job.Unread, check.Unread{Cell: s.of.Row, Text: s.of.Enters.Text, Mark: a, Wants: "positions",
			Why: fmt.Sprintf("nobody says which of %s goes where in %s; give each its own row", s.of.Enters.Text, a)})
	}
}

func (s *spreading) joints(into string) []*check.Joint {
	var out []*check.Joint
	for _, one := range s.out {
		if one.Into.Text == into {
			out = append(out, one)
		}
	}
	return out
}

func (s *spreading) inOrder(mine []*check.Joint) bool {
	if len(s.of.Bays) > 0 {
		return false
	}
	total := 0
	for _, one := range mine {
		n := s.pieces(one.Enters.Text)
		if n == 0 {
			return false
		}
		total += int(n)
	}
	if total != len(s.of.At) {
		return false
	}
	at := s.of.At
	for _, one := range mine {
		n := int(s.pieces(one.Enters.Text))
		one.At, at = slices.Clone(at[:n]), at[n:]
	}
	return true
}

// counts shares the crossings of the row out: by the positions, else by the pieces that meet. A
// number that does not come out even is asked for, for a wrong share is worse than none.
func (s *spreading) counts() {
	n := s.of.Count
	if !n.Known || len(s.out) < 2 {
		return
	}
	shares, total := make([]float64, len(s.out)), 0.0
	for i, one := range s.out {
		meet := s.pieces(one.Enters.Text)
		if len(one.At) > 0 {
			meet = float64(len(one.At))
		}
		shares[i] = meet * s.pieces(one.Into.Text)
		total += shares[i]
		if shares[i] == 0 {
			total = 0
			break
		}
	}
	for i, one := range s.out {
		share := n.Nominal * shares[i] / total
		if total == 0 {
			share = n.Nominal / float64(len(s.out))
		}
		if share != math.Trunc(share) {
			s.askCount(total)
			return
		}
		one.Count = check.Exact(share).At(n.From)
		one.Count.Why = fmt.Sprintf("of %g for all parts of the row", n.Nominal)
	}
}

func (s *spreading) askCount(total float64) {
	n := s.of.Count
	why := fmt.Sprintf("%g crossings do not share out evenly over the parts that the row names", n.Nominal)
	if total > 0 {
		why += fmt.Sprintf("; their pieces make %g", total)
	}
	for i, one := range s.out {
		ask := check.Ask{Cell: n.From, What: "the number of crossings of each part, in a row of its own"}
		if i == 0 {
			ask.Says = why
		}
		one.Count = check.Missing(ask)
	}
	s.job.Unread = append(s.job.Unread, check.Unread{Cell: n.From, Text: fmt.Sprintf("%g", n.Nominal), Why: why, Mark: s.into[0], Wants: "quantity"})
}
