// Package typeset knows how much room a text takes: its width, the lines it wraps into and
// their height, in points. It knows one face, Calibri, in which all our tabs are set, by the
// widths of its twin Carlito, and no workbook.
package typeset

import (
	_ "embed"
	"fmt"
	"math"
	"strings"
)

// Face is the type that a text is set in.
type Face struct {
	Size float64 // points
	Bold bool
}

// perEm is how many units of the font make its size.
const perEm = 2048

// lineUnits is how far two lines are apart: ascent, descent and gap of the font, as its table
// hhea gives them.
const lineUnits = 1536 + 512 + 452

// hinted is how much wider a text may come out on a screen, where letters are set to whole
// dots. House rule: a hair over what was seen at 9 to 12 points on 96 dots an inch.
const hinted = 1.04

// Width is how wide a line is, points. A letter that the font lacks counts as a square: some
// other font will draw it.
func (f Face) Width(line string) float64 {
	units := 0
	for _, r := range line {
		units += f.advance(r)
	}
	return float64(units) * f.Size / perEm * hinted
}

// LineHeight is how far two lines are apart, points: whole dots at 96 an inch, as a screen
// shows them.
func (f Face) LineHeight() float64 {
	const dot = 0.75
	return math.Ceil(f.Size*lineUnits/perEm/dot) * dot
}

// Lines is how many lines a text takes that wraps at its blanks in a column so many points
// wide. A word wider than the column breaks anywhere.
func (f Face) Lines(text string, width float64) int {
	lines := 0
	for _, paragraph := range strings.Split(text, "\n") {
		lines += f.wrap(paragraph, width)
	}
	return lines
}

// wrap is how many lines one paragraph takes.
func (f Face) wrap(paragraph string, width float64) int {
	lines, at := 1, 0.0
	blank := f.Width(" ")
	for _, word := range strings.Fields(paragraph) {
		w := f.Width(word)
		if at > 0 && at+blank+w > width {
			lines++
			at = 0
		}
		if at > 0 {
			at += blank
		}
		at += w
		for at > width && width > 0 {
			lines++
			at -= width
		}
	}
	return lines
}

// Height is how high a text is that wraps in a column so many points wide.
func (f Face) Height(text string, width float64) float64 {
	return float64(f.Lines(text, width)) * f.LineHeight()
}

func (f Face) advance(r rune) int {
	if r < 0 || int(r) >= len(widths) || widths[r] == [2]uint16{} {
		return perEm
	}
	if f.Bold {
		return int(widths[r][1])
	}
	return int(widths[r][0])
}

//go:embed widths.csv
var widthTable string

// widths are the widths of each letter, regular and bold, in 1/2048 of the size; zero where the
// font lacks it.
var widths = readWidths(widthTable)

func readWidths(table string) (out [0x2600][2]uint16) {
	for line := range strings.Lines(table) {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		var letter, regular, bold uint16
		if _, err := fmt.Sscanf(line, "%X,%d,%d", &letter, &regular, &bold); err != nil {
			panic(fmt.Sprintf("widths.csv: %q is no letter with two widths: %v", line, err))
		}
		out[letter] = [2]uint16{regular, bold}
	}
	return out
}
