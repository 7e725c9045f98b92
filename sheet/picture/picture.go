// Package picture turns drawings into PNG files: it knows ink, letters and where a label finds
// room, and nothing of what is drawn. The same drawings always give the same bytes.
package picture

import (
	"fmt"
	"image/color"
	"math"

	"dryfit/check"
	"dryfit/check/drawing"
)

// Look is the ink of a picture.
type Look struct {
	Ink, Faint, Line, Part color.RGBA
	Manner                 func(check.Verdict) Manner
}

// Manner is how a verdict is told.
type Manner struct {
	Word      string // with its sign
	Fill, Ink color.RGBA
}

// Image is a PNG that is meant to be shown Width by Height points.
type Image struct {
	PNG           []byte
	Width, Height float64
}

// Sizes in points.
const (
	titleSize = 10
	labelSize = 8.5
	noteSize  = 8
	dimRow    = 15 // a row of dimensions
	edge      = 5
	between   = 14 // two pictures
	leastWide = 165
)

var white = color.RGBA{255, 255, 255, 255}

// Strip draws some pictures side by side, no wider and no higher than given in points: as high
// as they need.
func Strip(ds []drawing.Drawing, width, height float64, look Look) (Image, error) {
	if len(ds) == 0 {
		return Image{}, fmt.Errorf("no drawing")
	}
	pen := newPen()
	var panels []*panel
	for _, d := range ds {
		panels = append(panels, newPanel(d, look, pen))
	}
	high, foot, below := share(panels, width*dots, height*dots)
	wide := -float64(between * dots)
	for _, p := range panels {
		wide += p.wide + between*dots
	}
	c := newCanvas(int(math.Ceil(wide)), int(math.Ceil(high)))
	x := 0.0
	for _, p := range panels {
		p.draw(c, frame{x, 0, x + p.wide, high}, foot, below)
		x += p.wide + between*dots
	}
	png, err := encode(c.img, look.inks())
	return Image{png, float64(c.img.Rect.Dx()) / dots, float64(c.img.Rect.Dy()) / dots}, err
}

func (l Look) inks() []color.RGBA {
	out := []color.RGBA{white, l.Ink, l.Faint, l.Line, l.Part}
	for _, v := range []check.Verdict{check.Hold, check.Verify} {
		out = append(out, l.Manner(v).Fill, l.Manner(v).Ink)
	}
	return out
}

// steps is how many heights are tried for a strip.
const steps = 8

// share gives each panel its width: of some heights at which they could stand side by side, the
// one that draws them largest. It returns how high the strip must be, how much of that is for
// notes, and how many rows of dimensions stand below a picture at the most.
func share(panels []*panel, width, height float64) (high, foot, below float64) {
	for _, p := range panels {
		below = math.Max(below, p.rows(drawing.Below))
	}
	for _, p := range panels {
		p.below = below
	}
	room := width - between*dots*float64(len(panels)-1)
	best := math.Inf(-1)
	var widths []float64
	for i := range steps {
		tried, size := side(panels, room, height*float64(steps-i)/steps)
		if size > best+1e-9 {
			best, widths = size, tried
		}
	}
	for i, p := range panels {
		p.wide = widths[i]
		foot = math.Max(foot, p.foot())
	}
	for _, p := range panels {
		p.try(height - foot)
		high = math.Max(high, p.needs())
	}
	return math.Min(high+foot, height), foot, below
}

// side is how wide the panels are at a height, made narrower where they need more than the room,
// and how large that draws them: the sum of the logarithms of their scales.
func side(panels []*panel, room, height float64) (widths []float64, size float64) {
	sum := 0.0
	for _, p := range panels {
		p.wide = math.Max(leastWide*dots, p.naturalWidth(height))
		sum += p.wide
	}
	for _, p := range panels {
		p.wide *= math.Min(1, room/sum)
		p.try(height)
		size += math.Log(p.view.scale)
		widths = append(widths, p.wide)
	}
	return widths, size
}
