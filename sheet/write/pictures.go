package write

import (
	"fmt"
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

// drawn are the pictures of a job. A fault of ours in one of them must not cost the verdict: it is
// said in the note.
func drawn(rep *check.Report) (ds []drawing.Drawing, note string) {
	defer func() {
		if fault := recover(); fault != nil {
			ds, note = nil, fmt.Sprintf("No picture: drawing it stopped (%v); please report it with the workbook.", fault)
		}
	}()
	return drawing.Front(rep)
}

// Sizes in points. Below the least a picture cannot be read, above the most nothing is gained;
// beyond the room that a page leaves, all of it would be printed smaller.
const (
	picturesLow  = 260
	picturesHigh = 400
	pictureRow   = 15
	underHeading = 2 * 15 // the heading and the row before it
)

// pictures puts drawings side by side, as high as the page has room, with rows kept free under
// them.
func (p *Page) pictures(ds []drawing.Drawing, note string, room float64) error {
	wide := -4.0 // off the edge of the last column
	for i := range frontColumns {
		wide += p.column(i + 1)
	}
	high := min(max(room-underHeading-2*pictureRow, picturesLow), picturesHigh)
	img, err := picture.Strip(ds, wide, high, pictureLook)
	if err != nil {
		return err
	}
	p.Add()
	p.Add(Text("What it looks like", Look{Ink: Ink, Bold: true, Size: 12}))
	var says []string
	for _, d := range ds {
		says = append(says, d.Says)
	}
	at := len(p.Rows) + 1
	p.Pictures = append(p.Pictures, Picture{At: At(1, at), PNG: img.PNG, Width: img.Width, Height: img.Height, Alt: strings.Join(says, " ")})
	for left := img.Height; left > -pictureRow/2; left -= pictureRow { // half a row more, should another program draw rows lower
		p.Heights[p.Add()] = pictureRow
	}
	if note != "" {
		p.Add(Text(note, Look{Ink: Faint, Size: 9}))
	}
	return nil
}
