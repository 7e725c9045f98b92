package picture

import (
	"bytes"
	"fmt"
	"image/color"
	"image/png"
	"math"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
	"dryfit/check/drawing"
	_ "dryfit/check/steady"
)

var (
	ink  = color.RGBA{20, 30, 40, 255}
	red  = color.RGBA{240, 180, 160, 255}
	part = color.RGBA{225, 230, 235, 255}
)

var look = Look{Ink: ink, Faint: color.RGBA{90, 96, 110, 255}, Line: color.RGBA{184, 192, 202, 255}, Part: part,
	Manner: func(v check.Verdict) Manner { return Manner{"■ " + v.String(), red, color.RGBA{74, 13, 0, 255}} }}

// cabinet is a case 80 by 60 with shelves, the lowest of which fails.
func cabinet(shelves int) drawing.Drawing {
	d := drawing.Drawing{Title: "Case", Notes: []string{"Heights not typed: drawn equal."}}
	add := func(mark string, b drawing.Box, v check.Verdict) {
		d.Shapes = append(d.Shapes, drawing.Shape{Form: drawing.Rect, At: b.Corners(), Mark: mark, Verdict: v})
		if v > check.Clear {
			d.Shapes = append(d.Shapes, drawing.Shape{Form: drawing.Hatch, Mark: mark, Verdict: v,
				At: []drawing.Point{{X: b.Left, Y: b.Bottom}, {X: b.Right, Y: b.Bottom}, {X: b.Right, Y: b.Top}, {X: b.Left, Y: b.Top}}})
		}
		d.Shapes = append(d.Shapes, drawing.Shape{Form: drawing.Label, At: b.Corners(), Mark: mark, Text: mark, Verdict: v})
	}
	add("bad", drawing.Box{Left: 2, Bottom: 4, Right: 78, Top: 10}, check.Hold)
	add("A", drawing.Box{Left: 0, Bottom: 0, Right: 2, Top: 60}, check.Clear)
	add("B", drawing.Box{Left: 78, Bottom: 0, Right: 80, Top: 60}, check.Clear)
	for i := range shelves {
		y := 12 + 48*float64(i)/float64(shelves)
		v := check.Clear
		if i%3 == 0 {
			v = check.Verify
		}
		add(fmt.Sprintf("shelf %d", i), drawing.Box{Left: 2, Bottom: y, Right: 78, Top: y + .5}, v)
	}
	d.Shapes = append(d.Shapes,
		drawing.Shape{Form: drawing.Dimension, Side: drawing.Below, At: []drawing.Point{{}, {X: 80}}, Text: "80 in"},
		drawing.Shape{Form: drawing.Dimension, Side: drawing.Left, At: []drawing.Point{{}, {Y: 60}}, Text: "60 in"})
	return d
}

// laid draws one picture and returns its panel.
func laid(d drawing.Drawing, wide, high float64) (*panel, *canvas) {
	p := newPanel(d, look, newPen())
	p.wide = wide * dots
	c := newCanvas(int(wide*dots), int(high*dots))
	p.draw(c, frame{0, 0, wide * dots, high * dots}, p.foot(), p.rows(drawing.Below))
	return p, c
}

// apart demands that no label lies on another text or leaves the picture, and that every label
// of what fails found its place.
func apart(t rapid.TB, p *panel) {
	t.Helper()
	var texts []frame
	for _, m := range p.dimensionTexts() {
		texts = append(texts, m.space)
	}
	for _, l := range p.labels {
		if !l.placed {
			if l.shape.Verdict >= check.Verify {
				t.Errorf("no place for %q, which fails", l.shape.Text)
			}
			continue
		}
		if !p.area.grown(.5).holds(l.at) {
			t.Errorf("%q at %v leaves the picture %v", l.shape.Text, l.at, p.area)
		}
		for _, f := range texts {
			if l.at.grown(-.5).meets(f) {
				t.Errorf("%q at %v lies on another text at %v", l.shape.Text, l.at, f)
			}
		}
		texts = append(texts, l.at)
	}
}

func TestLabelsStandApart(t *testing.T) {
	for _, n := range []int{0, 1, 3, 8, 20} {
		p, _ := laid(cabinet(n), 320, 280)
		apart(t, p)
	}
}

// Whatever is drawn, labels stand apart and the canvas is not left.
func TestAnyDrawing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var d drawing.Drawing
		at := rapid.Float64Range(0, 100)
		for i := range rapid.IntRange(1, 12).Draw(t, "parts") {
			x, y := at.Draw(t, "x"), at.Draw(t, "y")
			b := drawing.Box{Left: x, Bottom: y, Right: x + 1 + at.Draw(t, "w")/2, Top: y + 1 + at.Draw(t, "h")/2}
			v := rapid.SampledFrom([]check.Verdict{check.Clear, check.Verify, check.Hold}).Draw(t, "verdict")
			mark := fmt.Sprint("M", i)
			d.Shapes = append(d.Shapes,
				drawing.Shape{Form: drawing.Rect, Role: drawing.Role(rapid.IntRange(0, 6).Draw(t, "role")), At: b.Corners(), Mark: mark, Verdict: v},
				drawing.Shape{Form: drawing.Arrow, At: []drawing.Point{{X: x, Y: y + 5}, {X: x, Y: y}}})
			if i < 6 {
				d.Shapes = append(d.Shapes, drawing.Shape{Form: drawing.Label, At: b.Corners(), Mark: mark, Text: mark, Verdict: v})
			}
		}
		p, _ := laid(d, 300, 280)
		apart(t, p)
	})
}

// What fails is neither paper nor a plain fill, on its hatch and beside it.
func TestHatchIsSeen(t *testing.T) {
	p, c := laid(cabinet(0), 320, 280)
	f := p.view.frame(drawing.Point{X: 2, Y: 4}, drawing.Point{X: 78, Y: 10})
	colours := map[color.RGBA]bool{}
	for x := f.left + 4; x < f.right-4; x++ {
		colours[c.img.RGBAAt(int(x), int(f.bottom-4))] = true // below the word
	}
	if colours[white] {
		t.Error("paper inside the part that fails")
	}
	if !colours[red] || !colours[look.Manner(check.Hold).Ink] {
		t.Errorf("across the part that fails: its fill %v, its hatch %v", colours[red], colours[look.Manner(check.Hold).Ink])
	}
	if got := c.img.RGBAAt(int(p.view.spot(drawing.Point{X: 1, Y: 30}).x), int(p.view.spot(drawing.Point{X: 1, Y: 30}).y)); got != part {
		t.Errorf("a side that passes is %v, want the plain fill %v", got, part)
	}
}

// A size that is a guess says so.
func TestGuessedDimension(t *testing.T) {
	d := cabinet(0)
	d.Shapes[len(d.Shapes)-1].Guessed = true
	p, _ := laid(d, 320, 280)
	if got := []string{p.dimensionTexts()[0].text, p.dimensionTexts()[1].text}; got[0] != "80 in" || got[1] != "about 60 in" {
		t.Errorf("dimensions %q", got)
	}
}

func TestStrip(t *testing.T) {
	ds := []drawing.Drawing{cabinet(3), cabinet(8), cabinet(1)}
	img, err := Strip(ds, 690, 290, look)
	if err != nil {
		t.Fatal(err)
	}
	if img.Width > 690 || img.Height > 290 {
		t.Errorf("%g by %g points, want 690 by 290 at the most", img.Width, img.Height)
	}
	conf, err := png.DecodeConfig(bytes.NewReader(img.PNG))
	if err != nil || float64(conf.Width) != dots*img.Width || float64(conf.Height) != dots*img.Height {
		t.Errorf("%d by %d dots for %g by %g points: %v", conf.Width, conf.Height, img.Width, img.Height, err)
	}
	if _, palette := conf.ColorModel.(color.Palette); !palette {
		t.Error("more than 256 colours")
	}
	again, err := Strip(ds, 690, 290, look)
	if err != nil || !bytes.Equal(img.PNG, again.PNG) {
		t.Error("the same drawings gave other bytes", err)
	}
	if _, err := Strip(nil, 690, 290, look); err == nil {
		t.Error("no drawing gave a picture")
	}
}

// The drawing is to scale: as many dots to the unit across as up, for every shape.
func TestScale(t *testing.T) {
	p, _ := laid(cabinet(3), 320, 280)
	f := p.view.frame(drawing.Point{}, drawing.Point{X: 80, Y: 60})
	if math.Abs(f.width()/80-f.height()/60) > 1e-9 {
		t.Errorf("80 by 60 is drawn %g by %g", f.width(), f.height())
	}
}

func BenchmarkStrip(b *testing.B) {
	ds := []drawing.Drawing{cabinet(5), cabinet(8), cabinet(3)}
	size := 0
	for b.Loop() {
		img, err := Strip(ds, 690, 290, look)
		if err != nil {
			b.Fatal(err)
		}
		size = len(img.PNG)
	}
	b.ReportMetric(float64(size), "bytes")
}
