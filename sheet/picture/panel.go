package picture

import (
	"image/color"
	"math"
	"strings"

	"dryfit/check"
	"dryfit/check/drawing"
)

// panel is one picture of a strip, in dots.
type panel struct {
	d    drawing.Drawing
	look Look
	pen  *pen
	wide float64

	area   frame   // all of it
	body   frame   // what is left for the shapes, dimensions and labels
	tight  bool    // tags stand on one line, because there are too many for two
	below  float64 // rows of dimensions kept free below
	bounds drawing.Box
	view   view
	labels []label
}

// view turns places of a drawing into dots.
type view struct {
	scale float64
	x, y  float64 // where the left lower corner of the bounds lands
	from  drawing.Box
}

func (v view) spot(p drawing.Point) spot {
	return spot{v.x + (p.X-v.from.Left)*v.scale, v.y - (p.Y-v.from.Bottom)*v.scale}
}

func (v view) spots(ps []drawing.Point) []spot {
	var out []spot
	for _, p := range ps {
		out = append(out, v.spot(p))
	}
	return out
}

// frame is the box of two corners.
func (v view) frame(a, b drawing.Point) frame {
	p, q := v.spot(a), v.spot(b)
	return frame{math.Min(p.x, q.x), math.Min(p.y, q.y), math.Max(p.x, q.x), math.Max(p.y, q.y)}
}

func newPanel(d drawing.Drawing, look Look, pen *pen) *panel {
	return &panel{d: d, look: look, pen: pen, bounds: d.Bounds()}
}

// rows is how many rows of dimensions stand on a side; a chain is one.
func (p *panel) rows(side drawing.Side) float64 {
	n, chain := 0.0, 0.0
	for _, s := range p.d.Shapes {
		switch {
		case s.Form != drawing.Dimension || s.Side != side:
		case s.Chain:
			chain = 1
		default:
			n++
		}
	}
	return n + chain
}

// beside is the width, over the height, that dimensions and edges take round the shapes.
func (p *panel) beside() (w, h float64) {
	w = (p.rows(drawing.Left)+p.rows(drawing.Right))*dimRow*dots + 2*edge*dots
	h = (math.Max(p.below, p.rows(drawing.Below))+p.rows(drawing.Above))*dimRow*dots + 2*edge*dots
	return w, h
}

var (
	titleHand = hand{titleSize, true}
	labelHand = hand{labelSize, false}
	tagHand   = hand{labelSize, true}
	noteHand  = hand{noteSize, false}
)

// head is the height of the title and what stands beside it.
func (p *panel) head() float64 { return titleHand.high() + 4*dots }

// notes are the lines under the picture in a width.
func (p *panel) notes(width float64) []string {
	if len(p.d.Notes) == 0 {
		return nil
	}
	return p.pen.lines(noteHand, strings.Join(p.d.Notes, " "), width)
}

// mostWide is how many times as wide as high a picture may be before the others stand lower
// for its sake.
const mostWide = 1.3

// naturalWidth is how wide the picture is when it is as high as given.
func (p *panel) naturalWidth(height float64) float64 {
	w, h := p.beside()
	b := p.bounds
	tall := math.Max(dots, height-p.head()-h-2*noteHand.high())
	wide := tall*math.Min(mostWide, (b.Right-b.Left)/(b.Top-b.Bottom)) + w
	p.body = frame{0, 0, wide, tall + h}
	p.area = p.body
	p.fit(0)
	p.place(0)
	return wide + p.column()
}

// try lays the picture out in its width and a height, to see how large it comes out.
func (p *panel) try(height float64) {
	p.body = frame{0, 0, p.wide, math.Max(dots, height-p.head())}
	p.area = p.body
	p.arrange()
}

// column is how wide a column must be for the labels that found no place in the picture.
func (p *panel) column() float64 {
	most := 0.0
	for _, i := range p.waiting() {
		most = math.Max(most, p.labels[i].wide+16*dots)
	}
	return most
}

// needs is how high the picture must be in its width, without the foot.
func (p *panel) needs() float64 {
	w, h := p.beside()
	b := p.bounds
	return math.Max(dots, p.wide-p.column()-w)*(b.Top-b.Bottom)/(b.Right-b.Left) + h + p.head()
}

// foot is the height of the notes and of the dimensions below: it is the same for all pictures of
// a strip, so that their floors stand on one line.
func (p *panel) foot() float64 {
	return float64(len(p.notes(p.wide)))*noteHand.high() + 3*dots
}

// draw puts the picture into a frame of the canvas, its notes into the foot of it.
func (p *panel) draw(c *canvas, area frame, foot, below float64) {
	p.area, p.body, p.below = area, area, below
	p.title(c)
	p.body.top += p.head()
	p.body.bottom -= foot
	for i, n := range p.notes(area.width()) {
		p.pen.write(c, noteHand, n, spot{area.left, p.body.bottom + 2*dots + float64(i)*noteHand.high()}, p.look.Faint)
	}
	p.arrange()
	for _, s := range p.d.Shapes {
		p.shape(c, s)
	}
	p.dimensions(c)
	for _, l := range p.labels { // under all texts
		p.leader(c, l)
	}
	for _, l := range p.labels {
		p.writeLabel(c, l)
	}
}

func (p *panel) title(c *canvas) {
	at := spot{p.area.left, p.area.top}
	room := p.area.width()
	if p.d.Whole >= check.Verify {
		room -= p.pen.wide(tagHand, p.look.Manner(p.d.Whole).Word) + 10*dots
	}
	text := p.fitted(titleHand, p.d.Title, room)
	p.pen.write(c, titleHand, text, at, p.look.Ink)
	if p.d.Whole >= check.Verify {
		m := p.look.Manner(p.d.Whole)
		f := frame{left: at.x + p.pen.wide(titleHand, text) + 6*dots, top: at.y}
		f.right, f.bottom = f.left+p.pen.wide(tagHand, m.Word)+2*pad, f.top+tagHand.high()+2*dots
		p.tag(c, f, []string{m.Word}, m)
	}
}

// fitted shortens a text to a width.
func (p *panel) fitted(h hand, text string, width float64) string {
	r := []rune(text)
	for len(r) > 1 && p.pen.wide(h, text) > width {
		r = r[:len(r)-1]
		text = string(r) + "…"
	}
	return text
}

// arrange fits the shapes into the body and finds a place for each label; those that find none
// in the picture stand in a column at its right.
func (p *panel) arrange() {
	column := 0.0
	p.tight = false
	for range 5 { // a narrower picture leaves more labels without a place
		p.fit(column)
		p.place(column)
		if !p.tight && p.asideHigh() > p.body.height() {
			p.tight = true
			continue
		}
		most := p.column()
		if most <= column {
			return
		}
		column = most
	}
	p.fit(column)
	p.place(column)
}

// fit finds the scale at which the shapes fill the body beside a column.
func (p *panel) fit(column float64) {
	w, h := p.beside()
	b := p.bounds
	room := frame{p.body.left, p.body.top, p.body.right - column, p.body.bottom}
	scale := math.Min((room.width()-w)/(b.Right-b.Left), (room.height()-h)/(b.Top-b.Bottom))
	scale = math.Max(scale, 1e-9)
	wide := (b.Right - b.Left) * scale
	left := room.left + edge*dots + p.rows(drawing.Left)*dimRow*dots
	above := room.top + edge*dots + p.rows(drawing.Above)*dimRow*dots // floors stand on one line
	p.view = view{scale: scale, from: b,
		x: left + (room.width()-w-wide)/4,
		y: above + room.height() - h}
}

// shape draws what has no text.
func (p *panel) shape(c *canvas, s drawing.Shape) {
	at := p.view.spots(s.At)
	switch s.Form {
	case drawing.Rect:
		p.rect(c, s)
	case drawing.Hatch:
		c.hatch(p.hatching(s), at...)
	case drawing.Line:
		wide, dash, ink := p.line(s)
		for i := 1; i < len(at); i++ {
			c.line(at[i-1], at[i], wide, dash, ink)
			if s.Role == drawing.Gap {
				c.ends(at[i-1], at[i], ink)
			}
		}
	case drawing.Arrow:
		ink := p.look.Ink
		if s.Verdict >= check.Verify {
			ink = p.look.Manner(s.Verdict).Ink
		}
		var dash []float64
		if s.Guessed {
			dash = guessedDash
		}
		c.arrow(at[0], at[1], 1.5*dots, dash, ink)
	case drawing.Break:
		p.broken(c, at[0], s.Verdict)
	}
}

var (
	guessedDash = []float64{3 * dots, 2 * dots}
	sureDash    = []float64{7 * dots, 2 * dots, 1.5 * dots, 2 * dots}
	behindDash  = []float64{1 * dots, 2 * dots}
)

func (p *panel) rect(c *canvas, s drawing.Shape) {
	f := p.view.frame(s.At[0], s.At[1])
	thin := math.Min(f.width(), f.height()) < 4*dots
	light := s.Role == drawing.Behind || s.Role == drawing.Cover
	if s.Verdict >= check.Verify && !light {
		c.fill(f.pixels(), p.look.Manner(s.Verdict).Fill)
	} else if s.Role == drawing.Part || s.Role == drawing.Ghost {
		c.fill(f.pixels(), p.look.Part)
	}
	wide, dash, ink := p.line(s)
	if thin {
		wide = .5 * dots
	}
	c.outline(f, wide, dash, ink)
}

// line is how the edge of a shape is drawn.
func (p *panel) line(s drawing.Shape) (wide float64, dash []float64, ink color.RGBA) {
	wide, ink = .75*dots, p.look.Ink
	switch s.Role {
	case drawing.Ghost:
		wide, ink = .5*dots, p.look.Line
	case drawing.Cover:
		wide, ink = .5*dots, p.look.Faint
	case drawing.Behind:
		wide, dash, ink = .5*dots, behindDash, p.look.Faint
	case drawing.Wall:
		wide, ink = .5*dots, p.look.Faint
	case drawing.Sure:
		wide, dash = 1*dots, sureDash
	case drawing.Gap:
		wide = .5 * dots
	}
	if s.Verdict >= check.Verify {
		wide, ink = 1*dots, p.look.Manner(s.Verdict).Ink
	}
	if s.Guessed {
		dash = guessedDash
	}
	return wide, dash, ink
}

func (p *panel) hatching(s drawing.Shape) hatching {
	if s.Verdict >= check.Verify && (s.Role == drawing.Behind || s.Role == drawing.Cover) {
		return hatching{every: 14 * dots, wide: .5 * dots, up: s.Verdict == check.Hold, ink: p.look.Manner(s.Verdict).Ink}
	}
	switch s.Verdict {
	case check.Hold:
		return hatching{every: 7 * dots / 2, wide: .8 * dots, up: true, ink: p.look.Manner(s.Verdict).Ink}
	case check.Verify:
		return hatching{every: 6 * dots, wide: .6 * dots, ink: p.look.Manner(s.Verdict).Ink}
	}
	return hatching{every: 5 * dots, wide: .4 * dots, up: true, ink: p.look.Line}
}

// broken is a zigzag across the way.
func (p *panel) broken(c *canvas, at spot, v check.Verdict) {
	const w, h = 5 * dots, 3 * dots
	ink := p.look.Manner(v).Ink
	zig := []spot{{at.x - w, at.y + h}, {at.x - w/3, at.y - h}, {at.x + w/3, at.y + h}, {at.x + w, at.y - h}}
	for i := 1; i < len(zig); i++ {
		c.line(zig[i-1], zig[i], 1.5*dots, nil, ink)
	}
}
