package picture

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"dryfit/check/drawing"
)

// measure is a dimension where it is drawn: its line, the text and the space of the text.
type measure struct {
	shape    drawing.Shape
	from, to spot
	ends     [2]spot // of what is measured
	text     string
	space    frame
	upright  bool
}

// dimensionTexts lays the dimensions out in rows round the shapes, the first of a side nearest.
func (p *panel) dimensionTexts() []measure {
	b := p.view.frame(drawing.Point{X: p.bounds.Left, Y: p.bounds.Bottom}, drawing.Point{X: p.bounds.Right, Y: p.bounds.Top})
	row, chain := map[drawing.Side]float64{}, map[drawing.Side]float64{}
	var out []measure
	short := map[drawing.Side]bool{} // a chain of which one text has no room
	for _, s := range p.d.Shapes {
		if s.Form != drawing.Dimension {
			continue
		}
		if !s.Chain || chain[s.Side] == 0 {
			row[s.Side]++
		}
		if s.Chain {
			chain[s.Side] = cmp.Or(chain[s.Side], row[s.Side])
		}
		r := row[s.Side]
		if s.Chain {
			r = chain[s.Side]
		}
		m := p.measure(s, b, r*dimRow*dots-2*dots)
		short[s.Side] = short[s.Side] || s.Chain && m.cramped()
		out = append(out, m)
	}
	return slices.DeleteFunc(out, func(m measure) bool { return m.shape.Chain && short[m.shape.Side] })
}

// cramped reports whether the text is too long for what it measures.
func (m measure) cramped() bool {
	long := math.Max(m.space.width(), m.space.height())
	return long > math.Hypot(m.to.x-m.from.x, m.to.y-m.from.y)-2*tickSize
}

func (p *panel) measure(s drawing.Shape, b frame, off float64) measure {
	m := measure{shape: s, text: s.Text, ends: [2]spot(p.view.spots(s.At[:2]))}
	if s.Guessed {
		m.text = "about " + m.text
	}
	m.from, m.to = m.ends[0], m.ends[1]
	switch s.Side {
	case drawing.Below:
		m.from.y, m.to.y = b.bottom+off, b.bottom+off
	case drawing.Above:
		m.from.y, m.to.y = b.top-off+labelHand.high()-2*dots, b.top-off+labelHand.high()-2*dots
	case drawing.Left:
		m.from.x, m.to.x = b.left-off+labelHand.high()-2*dots, b.left-off+labelHand.high()-2*dots
		m.upright = true
	case drawing.Right:
		m.from.x, m.to.x = b.right+off, b.right+off
		m.upright = true
	}
	w, h := p.pen.wide(labelHand, m.text), labelHand.high()
	middle := spot{(m.from.x + m.to.x) / 2, (m.from.y + m.to.y) / 2}
	if w > math.Hypot(m.to.x-m.from.x, m.to.y-m.from.y)-2*tickSize && !s.Chain { // clear of the strokes at its ends
		if m.upright {
			middle.x -= tickSize
		} else {
			middle.y -= tickSize
		}
	}
	if m.upright {
		top := math.Max(p.body.top, math.Min(middle.y-w/2, p.body.bottom-w))
		m.space = frame{middle.x - h, top, middle.x, top + w}
	} else {
		left := math.Max(p.area.left, math.Min(middle.x-w/2, p.area.right-w))
		m.space = frame{left, middle.y - h, left + w, middle.y}
	}
	return m
}

// dimensions draws them: a thin line with a stroke across each end, and lines to what is
// measured.
func (p *panel) dimensions(c *canvas) {
	for _, m := range p.dimensionTexts() {
		ink := p.look.Ink
		if m.shape.Role == drawing.Wall {
			ink = p.look.Faint
		}
		var dash []float64
		if m.shape.Guessed {
			dash = guessedDash
		}
		for i, end := range []spot{m.from, m.to} {
			p.reach(c, m.ends[i], end)
			p.tick(c, end, ink)
		}
		c.line(m.from, m.to, .5*dots, dash, ink)
		if m.upright {
			p.pen.upward(c, labelHand, m.text, spot{m.space.left, m.space.top}, ink)
		} else {
			p.pen.write(c, labelHand, m.text, spot{m.space.left, m.space.top}, ink)
		}
	}
}

// reach is the thin line from what is measured to the dimension, a little off both.
func (p *panel) reach(c *canvas, from, to spot) {
	const off = 2 * dots
	l := math.Hypot(to.x-from.x, to.y-from.y)
	if l < 2*off {
		return
	}
	dx, dy := (to.x-from.x)/l*off, (to.y-from.y)/l*off
	c.line(spot{from.x + dx, from.y + dy}, spot{to.x + dx, to.y + dy}, .5*dots, nil, p.look.Line)
}

// tickSize is half of the stroke across the end of a dimension.
const tickSize = 2.5 * dots

func (p *panel) tick(c *canvas, at spot, ink color.RGBA) {
	c.line(spot{at.x - tickSize, at.y + tickSize}, spot{at.x + tickSize, at.y - tickSize}, 1*dots, nil, ink)
}
