package write

import (
	"math"
	"strings"

	"dryfit/check"
	"dryfit/sheet/typeset"
	"dryfit/sheet/write/part"
)

// leastHeight is the height of a row that holds one line, points, where nobody asks for less.
const leastHeight = 18

// air is what a row keeps free above and below its lines, points.
const air = 4

// Tall makes a row at least so many points high, and so high that its wrapped texts are seen
// whole.
func (p *Page) Tall(row int, least float64) {
	p.Heights[row] = high(p.Rows[row-1], least, func(column int) float64 { return p.span(column, row) })
}

// oneLine reports whether a text fits its column in one line. One that leads somewhere must:
// LibreOffice makes a field of it, which does not wrap and is cut.
func (p *Page) oneLine(column int, text string, l Look) bool {
	return !strings.Contains(text, "\n") && l.face().Width(text) <= l.room(p.column(column))
}

// cellOf is a cell that names a cell of the schedule and leads to it, if it is in the workbook at
// hand: with its tab cut short, where that makes it too long.
func (p *Page) cellOf(c check.Cell, host string, column, row int, tip string) Cell {
	to := target(c, host)
	if to == "" {
		return Text(place(c, host), BodyLook)
	}
	p.Links = append(p.Links, Link{At: At(column, row), To: to, Tip: tip + ", " + c.String()})
	if text := place(c, host); p.oneLine(column, text, LinkLook) {
		return Text(text, LinkLook)
	}
	const least = 3 // letters of a tab that still tell it from another
	for tab := []rune(c.Tab); len(tab) > least; {
		tab = tab[:len(tab)-1]
		if text := string(tab) + "\u2026!" + c.Addr; p.oneLine(column, text, LinkLook) {
			return Text(text, LinkLook)
		}
	}
	return Text(c.Addr, LinkLook)
}

// purpose lets the line under the title run over so many columns, and wrap.
func (p *Page) purpose(columns int) {
	const row = 2
	p.Rows[row-1][0].Look.Wrap = true
	p.Merges = append(p.Merges, At(1, row)+":"+At(columns, row))
	p.Tall(row, 15)
}

// needs is the height in points at which a row shows its wrapped texts whole, if none of its
// cells is merged.
func (p *Page) needs(row []Cell, least float64) float64 { return high(row, least, p.column) }

func high(row []Cell, least float64, width func(column int) float64) float64 {
	if least == 0 {
		least = leastHeight
	}
	for i, c := range row {
		s, ok := c.Value.(string)
		w := width(i + 1)
		if !ok || !c.Look.Wrap || w == 0 {
			continue
		}
		least = max(least, c.Look.face().Height(s, c.Look.room(w))+air)
	}
	return min(math.Ceil(least/0.75)*0.75, part.MostHeight) // whole dots
}

// span is the width in points of a cell, with those it is merged with to its right.
func (p *Page) span(column, row int) float64 {
	for ; p.spanned < len(p.Merges); p.spanned++ {
		from, to, _ := strings.Cut(p.Merges[p.spanned], ":")
		c, r, ok := part.ParseCell(from)
		last, _, ok2 := part.ParseCell(to)
		if ok && ok2 {
			if p.spans == nil {
				p.spans = map[[2]int]int{}
			}
			p.spans[[2]int{c, r}] = last
		}
	}
	last, merged := p.spans[[2]int{column, row}]
	if !merged {
		return p.column(column)
	}
	width := 0.0
	for ; column <= last; column++ {
		width += p.column(column)
	}
	return width
}

// column is the width of a column, points; 0 if nobody set it or it is hidden.
func (p *Page) column(n int) float64 {
	if n > len(p.Widths) || n >= p.Hidden[0] && n <= p.Hidden[1] {
		return 0
	}
	return typeset.Column(p.Widths[n-1])
}

func (l Look) face() typeset.Face { return typeset.Face{Size: l.size(), Bold: l.Bold} }

// room is what a cell in columns so many points wide leaves for its text.
func (l Look) room(width float64) float64 { return typeset.Room(width, l.indent()) }
