package structure

import (
	"fmt"
	"math"

	"dryfit/check"
)

// fixing is what holds a case to the house.
type fixing struct {
	named  bool        // a joint or a note names one
	takes  check.Value // pulled straight out; missing where a fixing is named that nobody can work out
	height check.Value // above the floor
	screws string      // as a sentence calls them
	at     check.Cell
}

var (
	anchored  = words("anchor anchors anchored anchoring verankert ancré anclado ancorato kotwa verankerd förankrad")
	intoWords = words("into fixed fastened secured befestigt fixé fijado fissato")
	studs     = words("stud studs framing blocking joist joists ständer")
)

// fixingOf finds what fixes a case into the house. A run of parts that only fits an opening is
// none. Screws into studs that are counted and have a size are worked out, all together at the
// height of the highest; any other fixing is taken as good.
func fixingOf(j *check.Job, c check.Case, top check.Value) fixing {
	f := fixing{takes: check.Exact(0), height: check.Exact(0)}
	for _, p := range c.Parts {
		text := p.Note.Text + " " + p.Description.Text
		if anyWord(text, anchored) || toFraming(text) && (anyWord(text, steel) || anyWord(text, intoWords)) {
			return fixing{named: true}
		}
		for _, m := range jointsOf(j, p) {
			if len(m.others) == 0 && toFraming(m.name) && gripOf(m.joint) == sound || toFraming(m.joint.Fastener.Text) {
				f.add(j, p, m, top)
			}
		}
	}
	return f
}

// add takes one joint into the house.
func (f *fixing) add(j *check.Job, p *check.Part, m meeting, top check.Value) {
	f.named = true
	one := pulledOut(j, m, p)
	if !one.Known || !f.takes.Known {
		f.takes = check.Value{}
		return
	}
	n := m.joint.Screws.Count.Nominal * math.Max(1, m.joint.Count.Nominal)
	f.takes = plus(f.takes, one, n)
	f.takes.Guessed = true
	f.takes.Why = one.Why
	count := fmt.Sprintf("%g screws", n)
	if n == 1 {
		count = "one screw"
	}
	f.screws = fmt.Sprintf("%s %s x %s", count, gauge(m.joint.Screws.Gauge), j.Len(m.joint.Screws.Length.Nominal))
	f.at = m.joint.Row
	at := top
	if p.Y.Known && p.Y.Nominal > 0 {
		at = p.Y
	}
	f.height = larger(f.height, at)
}

// pulledOut is what one screw of a joint takes pulled out of a stud, as structure.cleat works it
// out: at the least and the most of what nobody measured. It is missing for anything but
// screws of a known size into studs.
func pulledOut(j *check.Job, m meeting, through *check.Part) check.Value {
	jt := m.joint
	if jt.Screws == nil || !jt.Screws.Count.Known || !jt.Screws.Length.Known || !anyWord(m.name+" "+jt.Fastener.Text, studs) || !through.Thickness.Known {
		return check.Value{}
	}
	sc := screwOf(j, jt.Screws.Gauge)
	if !sc.known {
		return check.Value{}
	}
	in := driven(j, jt, sc, through, nil)
	in["C"], in["R"], in["n"] = duration(j, "a person"), check.Exact(0), check.Exact(1)
	at := func(gap, gravity func(check.Value) float64) float64 {
		x := nominals(in)
		x["g"], x["G"] = gap(in["g"]), gravity(in["G"])
		v, err := Cleat.Work(x)
		if err != nil {
			return 0
		}
		return v["W"]
	}
	low, high := func(v check.Value) float64 { return v.Low }, func(v check.Value) float64 { return v.High }
	likely := func(v check.Value) float64 { return v.Nominal }
	return check.Guess(at(high, low), at(likely, likely), at(low, high), "pull-out of wood screws, "+in["g"].Why+", "+in["G"].Why)
}

// inRecess reports whether a case stands in an opening that was measured.
func inRecess(j *check.Job, c check.Case) bool {
	o := j.OpeningOf(c)
	return o != nil && len(o.Widths) > 0
}
