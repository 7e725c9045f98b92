package typeset

import "math"

// Widths of columns, by the rules of ECMA-376 part 1, 18.3.1.13 (read, second hand): one unit is
// the widest digit of the workbook's face, 7 dots for 11 points at 96 dots an inch.
const (
	digitDots = 7
	dot       = 0.75 // points
)

// padding is what a cell keeps free at its two sides together, points: 2 dots each, and one for
// the line between the cells.
const padding = 5 * dot

// indent is what one step of indent takes, points: three blanks of the workbook's face.
const indent = 3 * 463. / perEm * 11

// Column is the width of a column of so many units, points.
func Column(units float64) float64 {
	return math.Trunc((256*units+math.Trunc(128./digitDots))/256*digitDots) * dot
}

// Room is what a cell in columns so many points wide leaves for its text, with so many steps of
// indent.
func Room(width float64, indents int) float64 {
	return width - padding - float64(indents)*indent
}
