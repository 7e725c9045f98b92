package read

import (
	"fmt"
	"math"

	"dryfit/check"
	"dryfit/check/length"
)

// fTwin is a column that gives again, in the other system of units, a size of another column.
const fTwin Field = "the same size in the other unit"

// findTwins finds columns under the same word, one in inches and one in millimetres.
func (t *table) findTwins() {
	for i, a := range t.cols {
		for _, b := range t.cols[i+1:] {
			if a.field == fTwin || b.field == fTwin || a.twin != nil || !sameWord(a, b) {
				continue
			}
			if a.unit.Metric() && b.unit.Imperial() || a.unit.Imperial() && b.unit.Metric() {
				a.twin, b.field = b, fTwin
			}
		}
	}
}

// sameWord reports whether two headers name the same size.
func sameWord(a, b *column) bool {
	if !a.head.known() || !b.head.known() || a.kind != b.kind || a.head.fields[0] != b.head.fields[0] {
		return false
	}
	switch a.head.fields[0] {
	case fLength, fWidth, fThick, fHeight, fDepth:
		return true
	}
	return false
}

// twinSlack is how far two figures of one size may be apart, in millimetres: half a millimetre
// of rounding on one side and half a sixteenth of an inch on the other.
const twinSlack = .5 + 25.4/32

// boardSlack is the same for thicknesses, as a share: 3/4 in stands beside 19 mm, 1/4 beside 6.
const boardSlack = .06

// besideTwin compares a size with what its twin says. Where they disagree the size is
// doubtful, with both readings; where only the twin says something, that counts.
func (rr *rowReader) besideTwin(p *check.Part, b *body, col *column, m measure, ok bool) (measure, bool) {
	if col.twin == nil || m.cell != nil && !ok && !m.absent {
		return m, ok
	}
	c := b.typed(col.twin)
	if c == nil {
		return m, ok
	}
	other, read, why := rr.measureOf(c, col.twin, "a "+string(col.field))
	switch {
	case !read && !other.absent:
		rr.cannot(c, string(col.field), p.Mark.Text, why)
	case read && !ok:
		return other, true
	case read:
		slack := twinSlack
		if col.field == fThick {
			slack = max(slack, boardSlack*mm(m))
		}
		if math.Abs(mm(m)-mm(other)) > slack && m.Doubt == "" {
			m.Doubt = fmt.Sprintf("%s says %s", Address(int(c.Row), int(c.Col)), length.Format(other.Nominal, other.Unit))
			m.Other = append(m.Other, other.Length)
		}
	}
	return m, ok
}
