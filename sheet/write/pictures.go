package write

import (
	"image/color"
	"strconv"
	"strings"

	"dryfit/check"
	"dryfit/check/drawing"
	"dryfit/sheet/picture"
)

// pictureLook is the ink of the cells for pictures.
var pictureLook = picture.Look{Ink: rgb(Ink), Faint: rgb(Faint), Line: rgb(rule), Part: rgb(headFill),
	Manner: func(v check.Verdict) picture.Manner {
		m := Shown(v)
		return picture.Manner{Word: m.Word(), Fill: rgb(m.fill), Ink: rgb(m.ink)}
	}}

// rgb reads a colour such as 1C2430.
func rgb(hex string) color.RGBA {
	x, err := strconv.ParseUint(hex, 16, 24)
	if err != nil {
		panic(err) // only a colour of ours mistyped
	}
	return color.RGBA{uint8(x >> 16), uint8(x >> 8), uint8(x), 255}
}

// Room for the pictures of a front page, in points.
const (
	picturesWide = 690
	picturesHigh = 290
)

// pictures puts the drawings of a job side by side, with rows kept free under them.
func (p *Page) pictures(rep *check.Report) error {
	ds, note := drawing.Front(rep)
	if len(ds) == 0 {
		return nil
	}
	img, err := picture.Strip(ds, picturesWide, picturesHigh, pictureLook)
	if err != nil {
		return err
	}
	p.Add()
	p.Add(Text("What it looks like, to scale", Look{Ink: Ink, Bold: true, Size: 12}))
	var says []string
	for _, d := range ds {
		says = append(says, d.Says)
	}
	const rowHigh = 15
	at := len(p.Rows) + 1
	p.Pictures = append(p.Pictures, Picture{At: At(1, at), PNG: img.PNG, Width: img.Width, Height: img.Height, Alt: strings.Join(says, " ")})
	for left := img.Height + 4; left > 0; left -= rowHigh {
		p.Heights[p.Add()] = rowHigh
	}
	if note != "" {
		p.Add(Text(note, SmallLook.plain()))
	}
	return nil
}

func (l Look) plain() Look { l.Wrap = false; return l }
