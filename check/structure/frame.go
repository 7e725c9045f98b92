package structure

import (
	"strings"

	"dryfit/check"
)

// frame is a job as loaded parts that stand on one another. Each is worked out once, for all
// checks.
type frame struct {
	job *check.Job
	of  map[*check.Part]*shelf

	posts map[*check.Part][]*shelf // what stands on each post; see overPost
}

func frameOf(j *check.Job) *frame {
	return check.Once(j, func(j *check.Job) *frame { return &frame{job: j, of: map[*check.Part]*shelf{}} })
}

// shelf is a loaded part with all that a check needs to know of it.
type shelf struct {
	frame *frame
	job   *check.Job
	part  *check.Part
	stuff stuff
	load  load
	span  span
	above above
	width check.Value // of the panel, without the strip in front of it
}

// shelves are the loaded parts of a job: shelves and seats. A loaded part whose length,
// or what holds it up, cannot be read has a span that asks for it.
func shelves(j *check.Job) []*shelf { return frameOf(j).shelves() }

func (f *frame) shelves() []*shelf {
	var out []*shelf
	for _, p := range f.job.Pieces() {
		if p.Role == check.Shelf || p.Role == check.Adjustable || p.Role == check.Seat {
			out = append(out, f.shelf(p))
		}
	}
	return out
}

// shelf is a loaded part of the frame. What stands on it is worked out first, from the top
// down; heights keep two shelves from standing on one another.
func (f *frame) shelf(p *check.Part) *shelf {
	if s := f.of[p]; s != nil {
		return s
	}
	j := f.job
	s := &shelf{frame: f, job: j, part: p, stuff: stuffOf(j, p), load: loadOn(j, p), above: nothingAbove()}
	f.of[p] = s
	s.width = panel(p, s.stuff.strip.thick.Nominal)
	if !p.Length.Known || p.Length.Nominal <= 0 {
		s.span = noSpan(ask(check.Value{Ask: p.Length.Ask}, p, "length"))
		return s
	}
	got, err := spanOf(j, p)
	if err != nil {
		got = noSpan(check.Missing(check.Ask{Cell: got.placed(p), What: "how the part is held up: " + err.Error()}))
	}
	s.span = got
	s.overDepth()
	s.above = aboveOf(s)
	return s
}

// placed is the cell in which the places of what holds a part up are typed, else its row.
func (s span) placed(p *check.Part) check.Cell {
	for _, c := range s.over {
		if c.typed && len(c.joint.At) > 0 && c.joint.At[0].From != (check.Cell{}) {
			return c.joint.At[0].From
		}
	}
	return p.Row
}

// noSpan asks for one thing wherever the span is wanted.
func noSpan(v check.Value) span {
	return span{bay: v, sag: v, moment: v, shear: v, reaction: v, atEnd: v, pointSag: v, pointMoment: v, slotMoment: v, slotPoint: v, slotDepth: v}
}

// panel is the width of the panel without the strip in front of it.
func panel(p *check.Part, a float64) check.Value {
	b := ask(p.Width, p, "width")
	if !b.Known || a == 0 || a >= b.Nominal {
		return b
	}
	return why(check.Between(b.Low-a, b.Nominal-a, b.High-a).At(b.From), "the width less the strip")
}

// backHeld is 1 where the back edge is screwed along the wall or to a cleat as long as the
// part, else 0.
func (s *shelf) backHeld() check.Value {
	for _, m := range jointsOf(s.job, s.part) {
		if m.joint.Screws == nil {
			continue
		}
		if len(m.others) == 0 && toFraming(m.name) {
			return why(check.Exact(1), "screwed to the "+m.name)
		}
		for _, o := range m.others {
			const alongBack = .8
			if (o.Role == check.Cleat || o.Role == check.Ledger) && o.Length.Nominal >= alongBack*s.part.Length.Nominal {
				return why(check.Exact(1), "screwed to the cleat "+o.Name())
			}
		}
	}
	return why(check.Exact(0), "no joint screws the back edge to a cleat as long as the part")
}

// turning is the share of a strip below the panel that counts: all of it where the back edge
// is screwed, the ends are housed, or the part goes through two uprights or more; else
// nobody knows.
func (s *shelf) turning() check.Value {
	if s.stuff.strip.deep.Nominal <= s.part.Thickness.Nominal {
		return check.Exact(1)
	}
	if s.backHeld().Nominal == 1 {
		return why(check.Exact(1), "the back edge is screwed")
	}
	housed := 0
	for _, m := range jointsOf(s.job, s.part) {
		switch m.joint.Kind {
		case check.Dado, check.Groove, check.Rabbet:
			if !m.slotted {
				housed++
			}
		}
	}
	if housed > 0 || len(s.span.over) >= 2 {
		return why(check.Exact(1), "the part is housed, so that it cannot turn")
	}
	return check.Guess(0, 0, 1, "nothing named keeps the part from turning")
}

// overDepth turns a seat that lies on its front and on something at the back: it spans its
// own depth, and a person is carried by a strip as long as he is wide.
func (s *shelf) overDepth() {
	p, box := s.part, caseOf(s.job, s.part)
	if p.Role != check.Seat || !p.Width.Known || p.Width.Nominal >= s.span.bay.Nominal {
		return
	}
	long := func(ps []*check.Part) bool {
		for _, q := range ps {
			if q.Length.Nominal >= .8*p.Length.Nominal {
				return true
			}
		}
		return false
	}
	if !long(box.Role(check.Front)) || !long(box.Role(check.Ledger, check.Cleat, check.Back)) {
		return
	}
	across := layout{supports: []float64{0, p.Width.Nominal}}
	r, err := across.solve(s.job, p.Width.Nominal)
	if err != nil {
		return
	}
	s.span = span{ends: true, likely: across, length: p.Width.Nominal}
	s.span.take(p, []result{r}, "")
	s.span.bay = p.Width
	s.crosswise()
}

// crosswise sees the part as a strip that runs front to back, as wide as a person.
func (s *shelf) crosswise() {
	wide := s.job.Standard("load", "seat", "width of a person", check.Length)
	s.width = why(check.Exact(wide.Nominal), "as wide as a person: the seat lies on its front and back")
	if s.part.Length.Nominal < wide.Nominal {
		s.width = s.part.Length
	}
	if s.stuff.known && s.part.Grain.Text != "W" {
		s.stuff.E = across(s.job, s.stuff.material, s.stuff.E)
	}
	if s.load.line.Known {
		share := s.width.Nominal / s.part.Width.Nominal
		s.load.line, s.load.standard = s.load.line.Scale(share), s.load.standard.Scale(share)
	}
	s.stuff.strip = stripOf(s.job, nil)
}

// above is what stands on a part beside its load: uprights that nothing holds up but it.
type above struct {
	total         check.Value
	sag, moment   check.Value // coefficients of the total, over PL^3/EI and PL
	names         []string
	places, loads []float64
}

func nothingAbove() above {
	none := check.Exact(0)
	return above{total: none, sag: none, moment: none}
}

// aboveOf finds the uprights that stand on a part and works out what they do to it.
func aboveOf(s *shelf) above {
	a := nothingAbove()
	for _, u := range s.frame.standersOn(s.part) {
		a.names = append(a.names, u.part.Name())
		a.places = append(a.places, u.at)
		a.loads = append(a.loads, u.load)
	}
	if len(a.places) == 0 {
		return a
	}
	sum := 0.0
	for _, p := range a.loads {
		sum += p
	}
	if sum <= 0 { // it would rather lift: it takes from the shelf, which counts on nothing taken
		return a
	}
	sag, moment, err := s.span.under(a.places, a.loads)
	if err != nil {
		return nothingAbove()
	}
	what := strings.Join(a.names, ", ") + " on " + s.part.Name() + " and over no upright"
	a.total = why(check.Exact(sum), "what comes down through "+strings.Join(a.names, ", "))
	a.sag, a.moment = solved(sag, what), solved(moment, what)
	return a
}
