package picture

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"
)

// dots is how many dots of a picture go into a point: enough for the printer at the size at
// which a page is fitted to paper.
const dots = 2

// spot is a place on the canvas in dots, y down.
type spot struct{ x, y float64 }

// frame is an upright rectangle on the canvas in dots, y down.
type frame struct{ left, top, right, bottom float64 }

func (f frame) width() float64  { return f.right - f.left }
func (f frame) height() float64 { return f.bottom - f.top }

func (f frame) grown(by float64) frame {
	return frame{f.left - by, f.top - by, f.right + by, f.bottom + by}
}

// sorted is the frame with its edges in order.
func (f frame) sorted() frame {
	return frame{math.Min(f.left, f.right), math.Min(f.top, f.bottom), math.Max(f.left, f.right), math.Max(f.top, f.bottom)}
}

func (f frame) meets(g frame) bool {
	return f.left < g.right && g.left < f.right && f.top < g.bottom && g.top < f.bottom
}

func (f frame) holds(g frame) bool {
	return g.left >= f.left && g.right <= f.right && g.top >= f.top && g.bottom <= f.bottom
}

func (f frame) middle() spot { return spot{(f.left + f.right) / 2, (f.top + f.bottom) / 2} }

// pixels is the frame on whole dots, at least one wide and high.
func (f frame) pixels() image.Rectangle {
	x, y := int(math.Round(f.left)), int(math.Round(f.top))
	return image.Rect(x, y, max(x+1, int(math.Round(f.right))), max(y+1, int(math.Round(f.bottom))))
}

// canvas is what is drawn on.
type canvas struct {
	img  *image.RGBA
	area *vector.Rasterizer
}

func newCanvas(w, h int) *canvas {
	c := &canvas{img: image.NewRGBA(image.Rect(0, 0, w, h)), area: &vector.Rasterizer{}}
	c.fill(c.img.Rect, white)
	return c
}

func (c *canvas) fill(r image.Rectangle, ink color.RGBA) {
	draw.Draw(c.img, r, &image.Uniform{ink}, image.Point{}, draw.Src)
}

// outline draws along the inside of a frame, dashed or whole.
func (c *canvas) outline(f frame, wide float64, dash []float64, ink color.RGBA) {
	h := wide / 2
	l, t, r, b := f.left+h, f.top+h, f.right-h, f.bottom-h
	for _, e := range [][2]spot{{{l - h, t}, {r + h, t}}, {{r, t - h}, {r, b + h}}, {{r + h, b}, {l - h, b}}, {{l, b + h}, {l, t - h}}} {
		c.line(e[0], e[1], wide, dash, ink)
	}
}

// line draws from a to b. A dash is the lengths that are drawn and left out in turn.
func (c *canvas) line(a, b spot, wide float64, dash []float64, ink color.RGBA) {
	length := math.Hypot(b.x-a.x, b.y-a.y)
	if length == 0 {
		return
	}
	at := func(s float64) spot {
		s = math.Min(s, length) / length
		return spot{a.x + (b.x-a.x)*s, a.y + (b.y-a.y)*s}
	}
	if len(dash) == 0 {
		c.stroke(a, b, wide, ink)
		return
	}
	for s, i := 0.0, 0; s < length; i++ {
		step := dash[i%len(dash)]
		if i%2 == 0 {
			c.stroke(at(s), at(s+step), wide, ink)
		}
		s += step
	}
}

func (c *canvas) stroke(a, b spot, wide float64, ink color.RGBA) {
	h := wide / 2
	if math.Abs(a.x-b.x) < .01 || math.Abs(a.y-b.y) < .01 { // on whole dots, so that it is sharp
		f := frame{math.Min(a.x, b.x), math.Min(a.y, b.y), math.Max(a.x, b.x), math.Max(a.y, b.y)}
		if math.Abs(a.x-b.x) < .01 {
			f.left = math.Round(f.left - h)
			f.right = f.left + math.Max(1, math.Round(wide))
		} else {
			f.top = math.Round(f.top - h)
			f.bottom = f.top + math.Max(1, math.Round(wide))
		}
		c.fill(f.pixels(), ink)
		return
	}
	l := math.Hypot(b.x-a.x, b.y-a.y)
	dx, dy := (b.x-a.x)/l*h, (b.y-a.y)/l*h
	c.polygon(ink, spot{a.x - dy, a.y + dx}, spot{b.x - dy, b.y + dx}, spot{b.x + dy, b.y - dx}, spot{a.x + dy, a.y - dx})
}

// polygon fills an area with smooth edges.
func (c *canvas) polygon(ink color.RGBA, corners ...spot) {
	box, ok := c.box(corners)
	if !ok {
		return
	}
	c.area.Reset(box.Dx(), box.Dy())
	for i, p := range corners {
		x, y := float32(p.x)-float32(box.Min.X), float32(p.y)-float32(box.Min.Y)
		if i == 0 {
			c.area.MoveTo(x, y)
		} else {
			c.area.LineTo(x, y)
		}
	}
	c.area.ClosePath()
	c.area.Draw(c.img, box, &image.Uniform{ink}, image.Point{})
}

// box is the dots that some corners span, false where none of them is on the canvas.
func (c *canvas) box(corners []spot) (image.Rectangle, bool) {
	f := frame{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range corners {
		f = frame{math.Min(f.left, p.x), math.Min(f.top, p.y), math.Max(f.right, p.x), math.Max(f.bottom, p.y)}
	}
	r := image.Rect(int(math.Floor(f.left)), int(math.Floor(f.top)), int(math.Ceil(f.right)), int(math.Ceil(f.bottom)))
	return r, r.Overlaps(c.img.Bounds()) && r.In(c.img.Bounds().Inset(-4096))
}

// hatching is lines at 45 degrees, every so many dots, so wide; down to the right or up.
type hatching struct {
	every int
	wide  float64
	up    bool
	ink   color.RGBA
}

// covers is how much of a dot is covered, by its place between two lines.
func (h hatching) covers() []float64 {
	out := make([]float64, h.every)
	for k := range out {
		off := float64(min(k, h.every-k)) / math.Sqrt2
		out[k] = math.Max(0, math.Min(1, h.wide/2+.5-off))
	}
	return out
}

// hatch draws a hatching inside an area.
func (c *canvas) hatch(h hatching, corners ...spot) {
	box, ok := c.box(corners)
	if !ok {
		return
	}
	box = box.Intersect(c.img.Bounds())
	covers := h.covers()
	for y := box.Min.Y; y < box.Max.Y; y++ {
		left, right, ok := across(corners, float64(y)+.5)
		if !ok {
			continue
		}
		from, to := max(box.Min.X, int(math.Round(left))), min(box.Max.X, int(math.Round(right)))
		k := ((from-y)%h.every + h.every) % h.every
		if h.up {
			k = (from + y) % h.every
		}
		for x := from; x < to; x++ {
			if covers[k] > 0 {
				c.blend(x, y, h.ink, covers[k])
			}
			if k++; k == h.every {
				k = 0
			}
		}
	}
}

// across is where a level line cuts a convex area.
func across(corners []spot, y float64) (left, right float64, ok bool) {
	left, right = math.Inf(1), math.Inf(-1)
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		if a.y == b.y || y < math.Min(a.y, b.y) || y > math.Max(a.y, b.y) {
			continue
		}
		x := a.x + (b.x-a.x)*(y-a.y)/(b.y-a.y)
		left, right = math.Min(left, x), math.Max(right, x)
	}
	return left, right, left < right
}

func (c *canvas) blend(x, y int, ink color.RGBA, share float64) {
	i := c.img.PixOffset(x, y)
	p := c.img.Pix[i : i+3 : i+3]
	for k, v := range [3]uint8{ink.R, ink.G, ink.B} {
		p[k] = uint8(float64(p[k]) + (float64(v)-float64(p[k]))*share + .5)
	}
}

// arrow draws a shaft and a head that ends at b.
func (c *canvas) arrow(a, b spot, wide float64, dash []float64, ink color.RGBA) {
	l := math.Hypot(b.x-a.x, b.y-a.y)
	head := math.Min(l, 4*wide)
	if l == 0 {
		return
	}
	dx, dy := (b.x-a.x)/l, (b.y-a.y)/l
	neck := spot{b.x - dx*head, b.y - dy*head}
	c.line(a, neck, wide, dash, ink)
	w := head * .42
	c.polygon(ink, b, spot{neck.x - dy*w, neck.y + dx*w}, spot{neck.x + dy*w, neck.y - dx*w})
}

// ends draws a short stroke across both ends of a line.
func (c *canvas) ends(a, b spot, ink color.RGBA) {
	l := math.Hypot(b.x-a.x, b.y-a.y)
	if l == 0 {
		return
	}
	dx, dy := (b.x-a.x)/l*2.5*dots, (b.y-a.y)/l*2.5*dots
	for _, p := range []spot{a, b} {
		c.line(spot{p.x - dy, p.y + dx}, spot{p.x + dy, p.y - dx}, .5*dots, nil, ink)
	}
}
