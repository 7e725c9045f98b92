package picture

import (
	"image"
	"image/color"
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// hand is how a text is written: its size in points, plain or bold.
type hand struct {
	size float64
	bold bool
}

var (
	plainFont = sync.OnceValue(func() *sfnt.Font { return parsed(goregular.TTF) })
	boldFont  = sync.OnceValue(func() *sfnt.Font { return parsed(gobold.TTF) })
)

func parsed(ttf []byte) *sfnt.Font {
	f, err := opentype.Parse(ttf)
	if err != nil {
		panic(err) // only a library without its own font
	}
	return f
}

// pen writes with a few hands. Faces are not safe for use by several at once: a pen is one
// picture's own.
type pen struct {
	faces  map[hand]font.Face
	glyphs map[sign]glyph
}

type sign struct {
	hand hand
	r    rune
}

// glyph is a letter as a mask, kept because a picture writes the same few again and again.
type glyph struct {
	mask    *image.Alpha
	dot     image.Point // of its corner, from the place on the line
	advance float64
}

func newPen() *pen { return &pen{map[hand]font.Face{}, map[sign]glyph{}} }

func (p *pen) face(h hand) font.Face {
	if f := p.faces[h]; f != nil {
		return f
	}
	ttf := plainFont()
	if h.bold {
		ttf = boldFont()
	}
	f, err := opentype.NewFace(ttf, &opentype.FaceOptions{Size: h.size, DPI: 72 * dots, Hinting: font.HintingFull})
	if err != nil {
		panic(err) // only a size of ours below zero
	}
	p.faces[h] = f
	return f
}

func (p *pen) glyph(h hand, r rune) glyph {
	if g, ok := p.glyphs[sign{h, r}]; ok {
		return g
	}
	f := p.face(h)
	g := glyph{}
	if box, mask, at, advance, ok := f.Glyph(fixed.Point26_6{}, r); ok {
		g = glyph{image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy())), box.Min, float64(advance) / 64}
		for y := range box.Dy() {
			for x := range box.Dx() {
				_, _, _, a := mask.At(at.X+x, at.Y+y).RGBA()
				g.mask.Pix[y*g.mask.Stride+x] = uint8(a >> 8)
			}
		}
	}
	p.glyphs[sign{h, r}] = g
	return g
}

// wide is the width of a text in dots.
func (p *pen) wide(h hand, text string) float64 {
	w := 0.0
	for _, r := range text {
		w += p.glyph(h, r).advance
	}
	return w
}

// high is the height of a line in dots; up is how much of it stands above the line.
func (h hand) high() float64 { return h.size * dots * 1.2 }
func (h hand) up() float64   { return h.size * dots * .93 }

// write puts a text with its upper left corner at a spot.
func (p *pen) write(c *canvas, h hand, text string, at spot, ink color.RGBA) {
	x, y := at.x, int(at.y+h.up()+.5)
	for _, r := range text {
		g := p.glyph(h, r)
		if g.mask != nil {
			left, top := int(x+.5)+g.dot.X, y+g.dot.Y
			g.stamp(func(gx, gy int, share float64) { c.put(left+gx, top+gy, ink, share) })
		}
		x += g.advance
	}
}

// upward writes a text from bottom to top, the first letter at the lower end; at is the upper
// left corner of the space it takes.
func (p *pen) upward(c *canvas, h hand, text string, at spot, ink color.RGBA) {
	x, y := int(at.x+h.up()+.5), at.y+p.wide(h, text)
	for _, r := range text {
		g := p.glyph(h, r)
		if g.mask != nil {
			base := int(y+.5) - g.dot.X
			g.stamp(func(gx, gy int, share float64) { c.put(x+g.dot.Y+gy, base-gx, ink, share) })
		}
		y -= g.advance
	}
}

func (g glyph) stamp(put func(x, y int, share float64)) {
	for y := range g.mask.Rect.Dy() {
		for x := range g.mask.Rect.Dx() {
			if a := g.mask.Pix[y*g.mask.Stride+x]; a > 0 {
				put(x, y, float64(a)/255)
			}
		}
	}
}

func (c *canvas) put(x, y int, ink color.RGBA, share float64) {
	if (image.Point{x, y}).In(c.img.Rect) {
		c.blend(x, y, ink, share)
	}
}

// lines breaks a text at its spaces into lines of a width in dots.
func (p *pen) lines(h hand, text string, width float64) []string {
	var out []string
	line := ""
	for _, w := range strings.Fields(text) {
		switch {
		case line == "":
			line = w
		case p.wide(h, line+" "+w) <= width:
			line += " " + w
		default:
			out = append(out, line)
			line = w
		}
	}
	return append(out, line)
}
