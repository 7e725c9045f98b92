package opening

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// chain is what stands side by side in one direction. It keeps its links, so that the lead can
// follow how the run adds up.
type chain struct {
	total   check.Value
	links   []link
	cells   []check.Cell
	marks   []string
	guesses []string // why the total is a guess, where it is one
	longest float64  // size of a link, the first of the cells
	trimmed bool     // a scribe or filler is in it, which takes up the play
}

// link is a part of a chain, so many times.
type link struct {
	name string
	n    float64
	size check.Value
}

// add puts a part into the chain, n times.
func (c *chain) add(p *check.Part, size check.Value, n float64) {
	if size.Known && size.Nominal > c.longest { // the run is mended where it is longest
		c.cells, c.longest = append([]check.Cell{size.From}, c.cells...), size.Nominal
	} else {
		c.cells = append(c.cells, size.From)
	}
	c.marks = append(c.marks, p.Name())
	if !size.Known {
		size.Ask = check.Ask{Cell: size.Ask.Cell, What: "the size of " + p.Name() + " along the run"}
		if size.Ask.Cell == (check.Cell{}) {
			size.Ask.Cell = p.Row
		}
	}
	c.plus(size, n, p.Name())
}

func (c *chain) plus(v check.Value, n float64, name string) {
	if v.Guessed && v.Why != "" {
		c.guesses = append(c.guesses, v.Why)
	}
	first := len(c.links) == 0
	c.links = append(c.links, link{name, n, v})
	switch {
	case first && n == 1:
		c.total = v
		return
	case first:
		c.total = v.Scale(n)
		return
	case !c.total.Known:
		return
	case !v.Known:
		c.total = v
		return
	}
	sum := check.Between(c.total.Low+n*v.Low, c.total.Nominal+n*v.Nominal, c.total.High+n*v.High).At(c.total.From)
	sum.Guessed = c.total.Guessed || v.Guessed
	c.total = sum
}

// run is the total with the chain as its reason.
func (c *chain) run(j *check.Job) check.Value {
	why := append([]string{c.text(j)}, c.guesses...)
	return because(c.total, strings.Join(why, "; "))
}

// terms are what each part adds to the run.
func (c *chain) terms() []check.Term {
	var out []check.Term
	for _, l := range c.links {
		if l.size.From != (check.Cell{}) && l.size.Known && l.n > 0 {
			out = append(out, check.Term{Symbol: "R", From: []check.Cell{l.size.From}, Share: l.size.Scale(l.n)})
		}
	}
	return out
}

// mostLinks is how many links a sentence shows before it only counts them.
const mostLinks = 3

// short is the chain for a sentence.
func (c *chain) short(j *check.Job) string {
	if len(c.gathered()) > mostLinks {
		return fmt.Sprintf("run of %d pieces = %s", len(c.links), j.Len(c.total.Nominal))
	}
	return c.text(j)
}

// text writes the chain out: "2 x D1 3/4 + D2 40 = 41 1/2 in".
func (c *chain) text(j *check.Job) string {
	links := c.gathered()
	var parts []string
	for _, l := range links {
		name := l.name
		if l.n != 1 {
			name = fmt.Sprintf("%g x %s", l.n, name)
		}
		parts = append(parts, name+" "+length.Figure(l.size.Nominal, j.Unit))
	}
	text := strings.Join(parts, " + ")
	if len(links) == 1 && links[0].n == 1 {
		return text + " " + j.Unit.String()
	}
	return text + " = " + j.Len(c.total.Nominal)
}

// gathered are the links with equal ones put together.
func (c *chain) gathered() []link {
	var out []link
next:
	for _, l := range c.links {
		for i := range out {
			if out[i].name == l.name && out[i].size.Nominal == l.size.Nominal {
				out[i].n += l.n
				continue next
			}
		}
		out = append(out, l)
	}
	return out
}

// longestLink is the part of the chain that takes the most room.
func (c *chain) longestLink() link {
	var most link
	for _, l := range c.gathered() {
		if slices.Contains(c.marks, l.name) && l.size.Nominal > most.size.Nominal {
			most = l
		}
	}
	return most
}

// contacts is how many times one part of the chain meets the next.
func (c *chain) contacts() float64 {
	n := -1.0
	for _, l := range c.links {
		n += l.n
	}
	return math.Max(n, 0)
}

// typedChain is a run that the office typed. A part named by what it is, is that of the case
// that the run names.
func typedChain(j *check.Job, box check.Case, r *check.Run) chain {
	var c chain
	var last *check.Part
	for _, it := range r.Items {
		n := 1.0
		if it.Count.Known {
			n = it.Count.Nominal
		}
		p := called(j, box, it.Mark)
		if saysScribe(it.Text) || p != nil && (p.Role == check.Scribe || p.Role == check.Filler) {
			c.trim(j, it, n)
			last = nil
			continue
		}
		if it.Plain.Known {
			c.plus(it.Plain, n, plainName(it.Text))
			last = nil
			continue
		}
		if p == nil {
			ask := check.Ask{Cell: r.Row, What: "a mark or a role of the schedule in place of " + it.Mark, Says: "no part is called " + it.Mark}
			c.plus(check.Missing(ask), n, it.Mark)
			continue
		}
		c.add(p, along(p, r.Direction), n)
		c.engage(j, last, p)
		last = p
	}
	c.cells = append(c.cells, r.Row)
	return c
}

// plainName is what a length typed in a run is called: its words without the figures.
func plainName(text string) string {
	var kept []string
	for _, w := range strings.Fields(text) {
		if !strings.ContainsAny(w, "0123456789") {
			kept = append(kept, w)
		}
	}
	if len(kept) == 0 {
		return "gap"
	}
	return strings.Join(kept, " ")
}

// trim counts a scribe or filler at the least that may be left of it: it is too big on purpose.
func (c *chain) trim(j *check.Job, it check.RunItem, n float64) {
	least := limit(j.Standard("opening", "scribe", "left after fitting", check.Length))
	if it.Plain.Known && it.Plain.Nominal < least.Nominal {
		least = it.Plain
	}
	least.Guessed = false
	c.trimmed = true
	c.plus(least, n, "scribe cut to")
}

func saysScribe(text string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r < 'a' }) {
		switch w {
		case "scr", "scribe", "scribes", "filler", "fillers", "fill", "closure":
			return true
		}
	}
	return false
}

// called finds the part that a run names: by its mark, else by what it is, in the case first.
func called(j *check.Job, box check.Case, name string) *check.Part {
	if p := j.Part(name); p != nil {
		return p
	}
	all := j.Called(name)
	for _, p := range all {
		for _, own := range box.Parts {
			if own == p {
				return p
			}
		}
	}
	if len(all) == 0 {
		return nil
	}
	return all[0]
}

// engage takes off the depth to which the part just added is let into the one before it, or
// that one into it.
func (c *chain) engage(j *check.Job, before, p *check.Part) {
	if before == nil {
		return
	}
	for _, jt := range j.Joints {
		let := jt.Kind == check.Dado || jt.Kind == check.Groove || jt.Kind == check.Rabbet
		if !let || !jt.DepthIn.Known || jt.DepthIn.Nominal == 0 {
			continue
		}
		if isPart(jt.Into, before) && isPart(jt.Enters, p) || isPart(jt.Into, p) && isPart(jt.Enters, before) {
			d := jt.DepthIn
			d.Low, d.Nominal, d.High = -d.High, -d.Nominal, -d.Low
			d.Plain = false
			c.plus(d, 1, "let into "+jt.Into.Text)
			return
		}
	}
}

func isPart(t check.Text, p *check.Part) bool {
	name := strings.ToLower(t.Text)
	return name != "" && (t.Text == p.Mark.Text || name == string(p.Role))
}

// along is the size of a part that counts in a run: a side in a width run counts its
// thickness, a shelf its length.
func along(p *check.Part, direction string) check.Value {
	switch p.Role {
	case check.Side, check.Upright, check.Divider:
		return pick(direction, p.Thickness, p.Length, p.Width)
	case check.Shelf, check.Adjustable, check.Deck, check.Head, check.Sill, check.Seat:
		return pick(direction, p.Length, p.Thickness, p.Width)
	case check.Filler, check.Scribe, check.Door:
		return pick(direction, p.Width, p.Length, p.Thickness)
	}
	return pick(direction, p.Length, p.Width, p.Thickness)
}

func pick(direction string, width, height, depth check.Value) check.Value {
	switch direction {
	case "width":
		return width
	case "height":
		return height
	}
	return depth
}

// inferred is the chain of a case from the roles of its parts.
func inferred(j *check.Job, box check.Case, direction string) (chain, bool) {
	switch direction {
	case "width":
		return inferredWidth(j, box)
	case "height":
		return inferredHeight(box)
	}
	return inferredDepth(box)
}

// inferredWidth is side, what stands between the sides, side. Top and bottom that lie over the
// sides are the width by themselves.
func inferredWidth(j *check.Job, box check.Case) (chain, bool) {
	var c chain
	side := largest(box.Role(check.Side), thicknessOf)
	deck := largest(decks(box), lengthOf)
	if side == nil {
		return c, false
	}
	if deck == nil {
		return bays(j, box, side)
	}
	how := layOf(box, side, deck)
	if how == over {
		c.add(deck, deck.Length, 1)
		return c, true
	}
	c.add(side, side.Thickness, 1)
	c.add(deck, deck.Length, 1)
	c.engage(j, side, deck)
	c.add(side, side.Thickness, 1)
	c.engage(j, deck, side)
	if how == nobodySaid && c.total.Known {
		why := "top and bottom between the sides or over them, nobody said"
		c.total = check.Guess(deck.Length.Low, c.total.Nominal, c.total.High, why).At(deck.Length.From)
		c.guesses = append(c.guesses, why)
	}
	return c, true
}

func decks(box check.Case) []*check.Part { return box.Role(check.Deck, check.Head, check.Sill) }

// bays is side, shelf, divider, shelf, ..., side: a case without top and bottom, its fixed
// shelves between the uprights.
func bays(j *check.Job, box check.Case, side *check.Part) (chain, bool) {
	var c chain
	shelf := largest(box.Role(check.Shelf), lengthOf)
	if shelf == nil || count(box.Role(check.Upright)) > 0 {
		return c, false
	}
	c.add(side, side.Thickness, 1)
	last := side
	for _, d := range box.Role(check.Divider) {
		for range int(math.Round(d.Qty.Nominal)) {
			c.add(shelf, shelf.Length, 1)
			c.engage(j, last, shelf)
			c.add(d, d.Thickness, 1)
			c.engage(j, shelf, d)
			last = d
		}
	}
	c.add(shelf, shelf.Length, 1)
	c.engage(j, last, shelf)
	c.add(side, side.Thickness, 1)
	c.engage(j, shelf, side)
	return c, true
}

// lay is how top and bottom lie to the sides.
type lay int

const (
	nobodySaid lay = iota
	between
	over
)

// layOf tells how top and bottom lie to the sides: by a note, else by the shelves (as long as
// the bottom, or shorter by two sides) or by a back that is wider than the bottom.
func layOf(box check.Case, side, deck *check.Part) lay {
	if says(decks(box), "btw", "between", "zwischen", "entre", "fra i fianchi", "między", "miedzy", "tussen", "mellan") {
		return between
	}
	if says(decks(box), "over sides", "over the sides", "on top of", "caps the sides") {
		return over
	}
	t := side.Thickness.Nominal
	hair := t / 1000 // inches and millimetres must fall on one side
	if shelf := largest(box.Role(check.Shelf, check.Adjustable), lengthOf); shelf != nil && len(box.Role(check.Divider)) == 0 {
		switch less := deck.Length.Nominal - shelf.Length.Nominal; {
		case less >= -hair && less < t-hair:
			return between
		case less > 1.5*t+hair && less < 3*t-hair:
			return over
		}
	}
	for _, b := range box.Role(check.Back) {
		for _, w := range []check.Value{b.Length, b.Width} {
			if more := w.Nominal - deck.Length.Nominal; w.Known && more > t/8+hair && more <= 2.1*t {
				return between
			}
		}
	}
	return nobodySaid
}

// inferredHeight is the side, with top and bottom that lie over it, a seat on it, and a base
// under it.
func inferredHeight(box check.Case) (chain, bool) {
	var c chain
	side := largest(box.Role(check.Side), lengthOf)
	if side == nil {
		return c, false
	}
	c.add(side, side.Length, 1)
	if deck := largest(decks(box), lengthOf); deck != nil && side.Thickness.Known && layOf(box, side, deck) == over {
		c.add(deck, deck.Thickness, math.Min(2, count(decks(box))))
	}
	if seat := largest(box.Role(check.Seat), lengthOf); seat != nil && seat.Thickness.Known {
		c.add(seat, seat.Thickness, 1)
	}
	if b, how := baseOf(box); b != nil {
		c.add(b, baseHeight(b, how), 1)
	}
	return c, true
}

// baseOf is a base that raises the case, and whether the schedule says so. A kick board in
// front of the sides raises nothing.
func baseOf(box check.Case) (base *check.Part, said bool) {
	for _, p := range box.Role(check.Base) {
		one := []*check.Part{p}
		if says(one, "kick") || !p.Width.Known {
			continue
		}
		return p, says(one, "under", "ladder", "sleeper", "platform", "loose", "separate", "levell", "unter")
	}
	return nil, false
}

func baseHeight(b *check.Part, said bool) check.Value {
	if said {
		return b.Width
	}
	return check.Guess(0, b.Width.Nominal, b.Width.High, "the base stands under the sides or in front of them, nobody said").At(b.Width.From)
}

// inferredDepth is the side, and a back that is planted on behind it.
func inferredDepth(box check.Case) (chain, bool) {
	var c chain
	side := largest(box.Role(check.Side), widthOf)
	if side == nil {
		return c, false
	}
	c.add(side, side.Width, 1)
	if back := largest(box.Role(check.Back), widthOf); back != nil && back.Thickness.Known && says([]*check.Part{back}, "planted", "applied", "nailed on", "over back") {
		c.add(back, back.Thickness, 1)
	}
	return c, true
}
