package picture

import (
	"math"
	"strings"

	"dryfit/check"
	"dryfit/check/drawing"
)

// label is a text and the place it found.
type label struct {
	shape      drawing.Shape
	lines      []string
	hand       hand
	tagged     bool // in a box of its own, with the word of its verdict
	wide, high float64

	at     frame
	placed bool
	aside  bool // in the column at the right, with a leader to its part
	foot   spot // where the leader ends
}

// pad is the space between a tag and its text, in dots.
const pad = 2.5 * dots

func (p *panel) label(s drawing.Shape) label {
	l := label{shape: s, hand: labelHand, lines: []string{s.Text}}
	if s.Verdict >= check.Verify {
		l.tagged, l.hand = true, tagHand
		l.lines = []string{strings.TrimSpace(s.Text + "  " + p.look.Manner(s.Verdict).Word)}
	}
	p.size(&l)
	return l
}

// narrow is a tag with the word of its verdict under the name.
func (p *panel) narrow(l label) label {
	if l.tagged && l.shape.Text != "" && !p.tight {
		l.lines = append(strings.SplitAfter(l.shape.Text, ", "), p.look.Manner(l.shape.Verdict).Word)
		p.size(&l)
	}
	return l
}

func (p *panel) size(l *label) {
	l.wide, l.high = 0, l.hand.high()*float64(len(l.lines))
	for _, t := range l.lines {
		l.wide = math.Max(l.wide, p.pen.wide(l.hand, t))
	}
	if l.tagged {
		l.wide, l.high = l.wide+2*pad, l.high+1*dots
	}
}

// obstacles are what a label must not lie on, and what it had better not.
type obstacles struct{ hard, soft []frame }

func (p *panel) obstacles() obstacles {
	var o obstacles
	for _, s := range p.d.Shapes {
		switch {
		case s.Form == drawing.Rect && (s.Role == drawing.Part || s.Role == drawing.Wall):
			o.hard = append(o.hard, p.view.frame(s.At[0], s.At[1]))
		case s.Form == drawing.Hatch && s.Role == drawing.Wall && len(s.At) == 4:
			o.hard = append(o.hard, bands(p.view.spots(s.At))...)
		case s.Form == drawing.Rect && s.Role == drawing.Ghost:
			o.soft = append(o.soft, p.view.frame(s.At[0], s.At[1]))
		case s.Form == drawing.Rect:
			f := p.view.frame(s.At[0], s.At[1])
			for _, e := range []frame{{f.left, f.top, f.right, f.top}, {f.left, f.bottom, f.right, f.bottom}, {f.left, f.top, f.left, f.bottom}, {f.right, f.top, f.right, f.bottom}} {
				o.soft = append(o.soft, e.grown(dots/2))
			}
		case s.Form == drawing.Arrow:
			o.hard = append(o.hard, p.view.frame(s.At[0], s.At[1]).grown(3*dots))
		case s.Form == drawing.Break:
			at := p.view.spot(s.At[0])
			o.hard = append(o.hard, frame{at.x, at.y, at.x, at.y}.grown(6*dots))
		case s.Form == drawing.Line:
			for i := 1; i < len(s.At); i++ {
				o.soft = append(o.soft, p.view.frame(s.At[i-1], s.At[i]).grown(dots))
			}
		}
	}
	for _, t := range p.dimensionTexts() {
		o.hard = append(o.hard, t.space, frame{t.from.x, t.from.y, t.to.x, t.to.y}.sorted().grown(3*dots))
	}
	return o
}

// bands are frames that together cover an area of four corners, close to its slanting edges.
func bands(at []spot) []frame {
	const n = 8
	along := func(a, b spot, i int) spot {
		return spot{a.x + (b.x-a.x)*float64(i)/n, a.y + (b.y-a.y)*float64(i)/n}
	}
	var out []frame
	for i := range n {
		f := frame{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
		for _, p := range []spot{along(at[0], at[1], i), along(at[0], at[1], i+1), along(at[3], at[2], i), along(at[3], at[2], i+1)} {
			f = frame{math.Min(f.left, p.x), math.Min(f.top, p.y), math.Max(f.right, p.x), math.Max(f.bottom, p.y)}
		}
		out = append(out, f)
	}
	return out
}

// place finds room for the labels in their order: beside their part or in it, without lying on
// another text or on a part; else in the column, if there is one.
func (p *panel) place(column float64) {
	p.labels = p.labels[:0]
	o := p.obstacles()
	room := frame{p.body.left, p.body.top, p.body.right - column, p.body.bottom}
	for _, s := range p.d.Shapes {
		if s.Form != drawing.Label {
			continue
		}
		l := p.label(s)
		for _, l = range []label{l, p.narrow(l)} {
			if at, ok := p.free(l, room, o); ok {
				l.at, l.placed = at, true
				o.hard = append(o.hard, frame{at.left - 3*dots, at.top, at.right + 3*dots, at.bottom})
				break
			}
		}
		p.labels = append(p.labels, l)
	}
	if column > 0 {
		p.asides(column)
	}
}

// free is the first place of a label where it lies on nothing; failing that, on light lines only.
func (p *panel) free(l label, room frame, o obstacles) (frame, bool) {
	var second frame
	found := false
	for i := 0; i+1 < len(l.shape.At); i += 2 {
		own := p.view.frame(l.shape.At[i], l.shape.At[i+1])
		for _, f := range l.places(own) {
			if !room.holds(f) || meets(f, o.hard, own) {
				continue
			}
			if !meets(f, o.soft, frame{}) {
				return f, true
			}
			if !found {
				second, found = f, true
			}
		}
	}
	return second, found
}

// meets reports whether a place lies on any of some frames. The own frame does not count where
// it holds the place whole.
func meets(f frame, all []frame, own frame) bool {
	for _, o := range all {
		if o == own && own.holds(f) {
			continue
		}
		if f.grown(dots / 2).meets(o) {
			return true
		}
	}
	return false
}

// along are the shares of a part beside which a label is tried.
var along = []float64{.5, .3, .7, .15, .85, .4, .6, .22, .78, .06, .94}

// places are where a label may stand by a frame, the best first.
func (l label) places(f frame) []frame {
	at := func(x, y float64) frame { return frame{x, y, x + l.wide, y + l.high} }
	in, out := make([]frame, 0, 3*len(along)+2), make([]frame, 0, 2*len(along)+2)
	gap := 1.5 * dots
	if l.shape.Role == drawing.Force {
		gap = 4 * dots // past the head of the arrow
	}
	for _, s := range along {
		x := within(f.left, f.right, l.wide, s)
		y := within(f.top, f.bottom, l.high, s)
		if f.width() >= l.wide+2*gap && f.height() >= l.high+gap {
			if f.width() >= f.height() {
				in = append(in, at(x, f.middle().y-l.high/2))
			} else {
				in = append(in, at(f.middle().x-l.wide/2, y))
			}
		}
		switch {
		case l.shape.Role == drawing.Behind || l.shape.Role == drawing.Cover: // beside it stands something else
		case f.width() >= f.height():
			out = append(out, at(x, f.top-l.high-gap), at(x, f.bottom+gap))
		default:
			out = append(out, at(f.right+gap, y), at(f.left-gap-l.wide, y))
		}
	}
	if l.shape.Role == drawing.Gap {
		y := f.middle().y - l.high/2
		out = append(out, at(f.right+gap, y), at(f.left-gap-l.wide, y))
	}
	return append(in, out...)
}

// within is where a length begins that lies at a share of another and, where it can, inside it.
func within(from, to, length, share float64) float64 {
	if to-from < length {
		return from + share*(to-from-length)
	}
	return math.Max(from, math.Min(from+share*(to-from)-length/2, to-length))
}

func (p *panel) writeLabel(c *canvas, l label) {
	if !l.placed {
		return
	}
	if l.tagged {
		p.tag(c, l.at, l.lines, p.look.Manner(l.shape.Verdict))
		return
	}
	if p.hatchedAt(l.at) {
		c.fill(l.at.pixels(), white)
	}
	p.pen.write(c, l.hand, l.lines[0], spot{l.at.left, l.at.top}, p.look.Ink)
}

// hatchedAt reports whether a place lies on what is hatched behind or in front of the case.
func (p *panel) hatchedAt(f frame) bool {
	for _, s := range p.d.Shapes {
		if s.Form == drawing.Rect && s.Verdict >= check.Verify && (s.Role == drawing.Behind || s.Role == drawing.Cover) && p.view.frame(s.At[0], s.At[1]).meets(f) {
			return true
		}
	}
	return false
}

// tag is a text in a box with the colours of a verdict.
func (p *panel) tag(c *canvas, f frame, lines []string, m Manner) {
	c.fill(f.pixels(), m.Fill)
	c.outline(f, 1*dots, nil, m.Ink)
	high := tagHand.high()
	top := f.top + (f.height()-high*float64(len(lines)))/2
	for i, t := range lines {
		p.pen.write(c, tagHand, t, spot{f.left + pad, top + float64(i)*high}, m.Ink)
	}
}
