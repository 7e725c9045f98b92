package read

import (
	"fmt"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/sheet/read/phrase"
)

// SettleSlots gives the joints of a job what the office says of slots elsewhere than in
// their own rows, and turns clear bays and upper edges into the lower edges of slots. It
// stands behind the inferring of crossings, so that a rule such as "ALL SHELF SLOTS
// 1-15/16 x 5-5/8 DP" reaches those too. A value that a row gives itself stays.
func SettleSlots(j *check.Job, books []*Book) {
	s := slotSettler{job: j, notes: map[*check.Part]slotRule{}}
	for _, b := range books {
		for _, t := range b.Tabs {
			s.rulesOf(t)
		}
	}
	s.notesOf(books)
	defer j.Keep()() // its parts stay as they are
	for _, jt := range j.Joints {
		s.rule(jt)
		s.place(jt)
	}
}

// slotRule is a rule with the cell it stands in, in the unit of the job.
type slotRule struct {
	phrase.SlotRule
	from check.Cell
	what string // "the note of A3", "the standing rule"
}

type slotSettler struct {
	job      *check.Job
	standing []slotRule
	notes    map[*check.Part]slotRule
}

// rulesOf collects the standing rules of a tab: slot lines outside of the rows of parts.
func (s *slotSettler) rulesOf(t *Tab) {
	if t.grid == nil || t.Kind == "ignored" {
		return
	}
	for i := range t.grid.Rows {
		row := &t.grid.Rows[i]
		if word := t.roles[row.N].word; word == "part" || word == "layer" || word == "header" || word == "joints" {
			continue
		}
		for k := range row.Cells {
			c := &row.Cells[k]
			if c.Kind != Words {
				continue
			}
			if rule, ok := phrase.Slots(c.Text(), bareUnit(t, s.job.Unit)); ok {
				s.standing = append(s.standing, s.inJob(rule, t, c.From(), "the standing rule"))
			}
		}
	}
}

// bareUnit is the unit of bare numbers in the lines of a tab.
func bareUnit(t *Tab, job length.Unit) length.Unit {
	if t.Unit == length.Unsaid {
		return job
	}
	return t.Unit
}

func (s *slotSettler) inJob(rule phrase.SlotRule, t *Tab, from check.Cell, what string) slotRule {
	k := length.Convert(1, bareUnit(t, s.job.Unit), s.job.Unit)
	for _, v := range []*check.Value{&rule.Width, &rule.Over, &rule.Depth} {
		if v.Known {
			*v = v.Scale(k).At(from)
		}
	}
	return slotRule{rule, from, what}
}

// notesOf collects what the notes of parts say of their slots.
func (s *slotSettler) notesOf(books []*Book) {
	tabs := map[[2]string]*Tab{}
	for _, b := range books {
		for _, t := range b.Tabs {
			tabs[[2]string{b.Path, t.Name}] = t
		}
	}
	for _, p := range s.job.Parts {
		t := tabs[[2]string{p.Note.From.Book, p.Note.From.Tab}]
		if t == nil {
			continue
		}
		if rule, ok := phrase.Slots(p.Note.Text, bareUnit(t, s.job.Unit)); ok {
			s.notes[p] = s.inJob(rule, t, p.Note.From, "the note of "+p.Name())
		}
	}
}

// rule fills in width and depths that the row of a joint leaves out: from the note of the
// slotted part, of the part that goes in, else from a standing rule that speaks of either.
func (s *slotSettler) rule(jt *check.Joint) {
	switch jt.Kind {
	case check.CleatJoint, check.Butt, check.Mitre:
		return
	}
	into, enters := s.job.Part(jt.Into.Text), s.job.Part(jt.Enters.Text)
	for _, r := range s.rulesFor(into, enters) {
		s.fill(jt, r, into, enters)
	}
}

func (s *slotSettler) rulesFor(into, enters *check.Part) []slotRule {
	var rules []slotRule
	for _, p := range []*check.Part{into, enters} {
		if r, ok := s.notes[p]; ok && p != nil {
			rules = append(rules, r)
		}
	}
	for _, r := range s.standing {
		if r.Of == "" || hasRole(into, r.Of) || hasRole(enters, r.Of) || into == nil && enters == nil {
			rules = append(rules, r)
		}
	}
	return rules
}

func hasRole(p *check.Part, role string) bool { return p != nil && string(p.Role) == role }

func (s *slotSettler) fill(jt *check.Joint, r slotRule, into, enters *check.Part) {
	if !jt.Width.Known {
		switch {
		case r.Width.Known:
			jt.Width = r.Width
		case r.Over.Known && enters != nil && enters.Thickness.Known:
			t := enters.Thickness
			jt.Width = check.Between(t.Low+r.Over.Low, t.Nominal+r.Over.Nominal, t.High+r.Over.High).At(r.from)
			jt.Width.Guessed = t.Guessed || r.Over.Guessed
		}
		if jt.Width.Known {
			jt.Width.Why = fmt.Sprintf("from %s in %s", r.what, r.from)
		}
	}
	depth := r.Depth
	if !depth.Known && r.Half && into != nil && into.Width.Known {
		w := into.Width
		depth = check.Between(w.Low/2, w.Nominal/2, w.High/2).At(r.from)
	}
	if !depth.Known {
		return
	}
	depth.Why = fmt.Sprintf("from %s in %s", r.what, r.from)
	if !jt.DepthIn.Known {
		jt.DepthIn = depth
	}
	if !jt.DepthOf.Known && jt.Kind == check.CrossLap {
		jt.DepthOf = depth
	}
}

// place turns the positions of a joint into the lower or left edges of its slots, where
// they were typed as clear bays or as upper edges of the part that goes in.
func (s *slotSettler) place(jt *check.Joint) {
	if jt.Bays == nil && !jt.Far {
		return
	}
	into, enters := s.job.Part(jt.Into.Text), s.job.Part(jt.Enters.Text)
	if enters == nil || !enters.Thickness.Known {
		s.job.Notes = append(s.job.Notes, fmt.Sprintf("the positions of %s are not placed: the thickness of %s is not known", jt.Row, jt.Enters.Text))
		return
	}
	t := enters.Thickness
	if jt.Far {
		for i, v := range jt.At {
			jt.At[i] = minus(v, t)
		}
		jt.Far = false
		return
	}
	bays, why := s.bays(jt, into, t)
	if why != "" {
		s.job.Notes = append(s.job.Notes, fmt.Sprintf("the clear bays of %s are not placed: %s", jt.Row, why))
		return
	}
	at := check.Exact(0)
	jt.At = nil
	for i, bay := range bays[:len(bays)-1] {
		at = plus(at, bay)
		if i > 0 {
			at = plus(at, t)
		}
		at.From, at.Why = bay.From, "clear bays added up from the "+jt.From
		jt.At = append(jt.At, at)
	}
	jt.Centres = false
}

// bays gives every clear bay of a joint a size, the open ones an equal share of what is left
// of the slotted part: as many bays as slots and one more.
func (s *slotSettler) bays(jt *check.Joint, into *check.Part, t check.Value) (bays []check.Value, why string) {
	bays = append([]check.Value{}, jt.Bays...)
	slots := 0
	if into != nil && into.Qty.Known && jt.Count.Known && into.Qty.Nominal > 0 {
		slots = int(jt.Count.Nominal / into.Qty.Nominal)
	}
	open := 0
	for _, b := range bays {
		if !b.Known {
			open++
		}
	}
	switch {
	case open == 1 && len(bays) == 1:
		if slots == 0 {
			return nil, "nobody says how many slots share the equal bays"
		}
		for len(bays) < slots+1 {
			bays = append(bays, bays[0])
		}
		open = len(bays)
	case open == 0 && (slots == len(bays) || slots == 0 && !fills(bays, into, t)):
		bays = append(bays, check.Value{From: bays[len(bays)-1].From}) // the balance goes without saying
		open = 1
	}
	if open == 0 || open == 1 && !bays[len(bays)-1].Known {
		return bays, "" // no slot stands behind the last bay
	}
	if into == nil || !into.Length.Known {
		return nil, "the length of " + jt.Into.Text + " is not known"
	}
	left := into.Length
	for _, b := range bays {
		if b.Known {
			left = minus(left, b)
		}
	}
	for range len(bays) - 1 {
		left = minus(left, t)
	}
	if left.Nominal <= 0 {
		return nil, "they are longer than " + jt.Into.Text
	}
	n := float64(open)
	share := check.Between(left.Low/n, left.Nominal/n, left.High/n)
	share.Guessed = left.Guessed
	for i := range bays {
		if !bays[i].Known {
			bays[i] = share.At(bays[i].From)
		}
	}
	return bays, ""
}

// fills reports whether the bays, with a part between each two, make the whole length.
func fills(bays []check.Value, into *check.Part, t check.Value) bool {
	if into == nil || !into.Length.Known {
		return false
	}
	sum := float64(len(bays)-1) * t.Nominal
	for _, b := range bays {
		sum += b.Nominal
	}
	return into.Length.Nominal-sum < t.Nominal
}

func plus(a, b check.Value) check.Value {
	v := check.Between(a.Low+b.Low, a.Nominal+b.Nominal, a.High+b.High)
	v.Guessed = a.Guessed || b.Guessed
	return v
}

func minus(a, b check.Value) check.Value {
	v := check.Between(a.Low-b.High, a.Nominal-b.Nominal, a.High-b.Low)
	v.Guessed, v.From = a.Guessed || b.Guessed, a.From
	return v
}
