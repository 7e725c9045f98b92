package part

import (
	"fmt"
	"strconv"
)

// Note is a text that shows while the pointer rests on a cell.
type Note struct {
	At            string
	Text          string
	Width, Height float64 // of its box, points
}

// NoteFont is in what notes are set.
type NoteFont struct {
	Name string
	Size float64 // points
}

// Grid is how wide and high the cells of a tab are, points: where boxes end is said in cells.
type Grid struct{ Column, Row func(n int) float64 }

// Notes writes the texts of notes (ECMA-376 Part 1, 18.7).
func Notes(author string, font NoteFont, notes []Note) []byte {
	b := make([]byte, 0, 256+len(notes)*400)
	b = append(b, declaration+`<comments xmlns="`+Main+`"><authors><author>`...)
	b = append(AppendText(b, author), `</author></authors><commentList>`...)
	for _, n := range notes {
		b = append(append(append(b, `<comment ref="`...), n.At...), `" authorId="0"><text><r><rPr><sz val="`...)
		b = strconv.AppendFloat(b, font.Size, 'g', -1, 64)
		b = append(b, `"/><color indexed="81"/><rFont val="`...)
		b = append(AppendValue(b, font.Name), `"/><family val="2"/></rPr>`...)
		b = append(appendT(b, n.Text), `</r></text></comment>`...)
	}
	return append(b, `</commentList></comments>`...)
}

// idsPerBlock is how many shapes share one number of an id map; a shape's number is that
// times this and some more (ECMA-376 Part 4, 19.2.2.12).
const idsPerBlock = 1024

const noteShapes = `<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel">` +
	`<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="%s"/></o:shapelayout>` +
	`<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe"><v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>`

// NoteShapes writes the boxes of notes, hidden until they are asked for (ECMA-376 Part 4,
// 19.2 and 19.4). It fails on a note that is at no cell.
func NoteShapes(notes []Note, g Grid) ([]byte, error) {
	blocks := "1"
	for n := 2; n <= (len(notes)+1)/idsPerBlock+1; n++ {
		blocks += "," + strconv.Itoa(n)
	}
	b := make([]byte, 0, 1024+len(notes)*640)
	b = fmt.Appendf(b, noteShapes, blocks)
	for i, n := range notes {
		column, row, ok := ParseCell(n.At)
		if !ok {
			return nil, fmt.Errorf("a note at %q, which is no cell", n.At)
		}
		b = append(b, `<v:shape id="_x0000_s`...)
		b = strconv.AppendInt(b, int64(idsPerBlock+1+i), 10)
		b = append(b, `" type="#_x0000_t202" style="position:absolute;width:`...)
		b = strconv.AppendFloat(b, n.Width, 'g', -1, 64)
		b = append(b, `pt;height:`...)
		b = strconv.AppendFloat(b, n.Height, 'g', -1, 64)
		b = append(b, `pt;visibility:hidden" fillcolor="#fbf6d6" strokecolor="#edeaa1" o:insetmode="auto"><v:fill color2="#fbf6d6"/>`+
			`<v:shadow on="t" color="black" obscured="t"/><v:path o:connecttype="none"/><v:textbox style="mso-direction-alt:auto"><div style="text-align:left"/></v:textbox>`+
			`<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>`...)
		b = g.appendAnchor(b, column, row, n.Width, n.Height)
		b = append(b, `</x:Anchor><x:AutoFill>False</x:AutoFill><x:Row>`...)
		b = strconv.AppendInt(b, int64(row-1), 10)
		b = append(b, `</x:Row><x:Column>`...)
		b = strconv.AppendInt(b, int64(column-1), 10)
		b = append(b, `</x:Column></x:ClientData></v:shape>`...)
	}
	return append(b, `</xml>`...), nil
}

// appendAnchor appends where the box of a note stands: right of its cell, from there so wide
// and high. Each corner is a column and row from 0, each with the pixels into it.
func (g Grid) appendAnchor(b []byte, column, row int, width, height float64) []byte {
	const aside = 15 * pointsPerPixel
	endColumn, x := span(column+1, aside+width, g.Column)
	endRow, y := span(row, height, g.Row)
	for i, n := range [8]int{column, int(aside / pointsPerPixel), row - 1, 0, endColumn - 1, x, endRow - 1, y} {
		if i > 0 {
			b = append(b, ", "...)
		}
		b = strconv.AppendInt(b, int64(n), 10)
	}
	return b
}

// span is where a length ends that begins with column or row n: in which, and how many pixels
// into it.
func span(n int, length float64, size func(int) float64) (end, pixels int) {
	for size(n) <= length && n < MostColumns {
		length -= size(n)
		n++
	}
	return n, int(length / pointsPerPixel)
}
