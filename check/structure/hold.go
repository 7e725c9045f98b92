package structure

import (
	"dryfit/check"
)

// grip is how surely the fastener of a joint carries.
type grip int

const (
	loose  grip = iota // glue or friction alone: carries nothing
	unsaid             // nobody said
	sound              // wood in wood, or a fastener that is named
)

var (
	steel = words(`screw screws screwed bolt bolts bolted lag lags nail nails nailed pin pins bracket brackets dowel dowels dowelled tenon tenons
		cam cams insert inserts rod rods stud studs anchor anchors cleat cleats peg pegs wedge wedges
		schraube schrauben dübel bolzen vis tourillon tourillons tornillo tornillos clavija clavijas vite viti spina spine wkręt wkręty
		kołek kołki schroef schroeven deuvel deuvels skruv skruvar plugg`)
	sticky = words(`glue glued glueing gluing adhesive epoxy pva pl caulk friction press pressed tape biscuit biscuits leim geleimt verleimt
		kleber geklebt colle collé collée pegamento cola encolado colla incollato klej klejone lijm gelijmd lim limmad`)
)

// gripOf reads the fastener of a joint, and its fit where that is all it has.
func gripOf(jt *check.Joint) grip {
	switch {
	case jt.Screws != nil || anyWord(jt.Fastener.Text, steel):
		return sound
	case anyWord(jt.Fastener.Text+" "+jt.Fit.Text, sticky):
		return loose
	}
	return unsaid
}

// hold is what a joint does for a loaded part.
type hold struct {
	joint *check.Joint
	by    *check.Part // nil: the house, or nobody knows which part
	name  string      // of what holds, as a sentence calls it
	how   string      // "dado", "screws", ...
	grip  grip
	ends  int
	why   string // why it carries nothing
}

// holds are the joints that could carry a loaded part.
func holds(j *check.Job, p *check.Part) []hold {
	var out []hold
	for _, m := range jointsOf(j, p) {
		if m.joint.Inferred || m.joint.Kind == "" || !mayCarry(m) {
			continue
		}
		h := hold{joint: m.joint, name: m.name, how: string(m.joint.Kind), grip: sound, ends: max(1, m.each(p))}
		if len(m.others) > 0 {
			h.by, h.name = m.others[0], m.others[0].Name()
		}
		switch m.joint.Kind {
		case check.Butt, check.Mitre:
			h.judge(gripOf(m.joint), "glue or friction alone")
		case check.CleatJoint:
			h.judge(cleatGrip(j, m, p), "a cleat that is only glued")
		}
		if toFraming(m.name) {
			h.by, h.name = nil, "the "+m.name
			h.judge(gripOf(m.joint), "glue or friction alone")
		}
		out = append(out, h)
	}
	return out
}

func (h *hold) judge(g grip, reason string) {
	if g < h.grip {
		h.grip, h.why = g, reason
	}
	if g == sound {
		h.how = "screws or pins"
	}
}

// mayCarry leaves out a joint with what carries nothing by its nature, such as a nosing, and
// one in which the other part goes into the loaded one and so may stand on it.
func mayCarry(m meeting) bool {
	switch m.joint.Kind {
	case check.Dado, check.Groove, check.Rabbet, check.Butt, check.Mitre:
		if m.slotted {
			return false
		}
	}
	if len(m.others) == 0 {
		return toFraming(m.name)
	}
	switch m.others[0].Role {
	case check.Trim, check.Scribe, check.Filler, check.Door, check.Drawer, check.Unknown:
		return false
	case check.Back, check.Front:
		return gripOf(m.joint) == sound // what else carries the part is not written down
	}
	return true
}

// cleatGrip is how surely a cleat under a part is held: by the joint itself, and by the
// joints of the cleat with what it is fixed to.
func cleatGrip(j *check.Job, m meeting, p *check.Part) grip {
	if g := gripOf(m.joint); g != unsaid {
		return g
	}
	for _, o := range m.others {
		if o.Role != check.Cleat && o.Role != check.Ledger {
			continue
		}
		best, any := loose, false
		for _, of := range jointsOf(j, o) {
			if contains(of.others, p) {
				continue
			}
			any = true
			best = max(best, gripOf(of.joint))
		}
		if any {
			return best
		}
	}
	return sound // nobody said; a cleat is taken as screwed
}
