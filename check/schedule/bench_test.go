package schedule

import (
	"fmt"
	"testing"

	"dryfit/check"
)

func BenchmarkRowsOf2000Parts(b *testing.B) {
	var ps []*check.Part
	for i := range 2000 {
		p := sized(fmt.Sprint("A", i), check.Shelf, i+2, 30+float64(i%40), 11, .75)
		p.Finish.Text = "paint"
		ps = append(ps, p)
	}
	j := job(ps...)
	for _, c := range []*check.Check{Read, Units, Marks, Layers, Material, Stock, Joints, SizeKind, Revision, OddOne, Formulas, Totals} {
		b.Run(c.ID, func(b *testing.B) {
			for b.Loop() {
				c.Rows(j)
			}
		})
	}
}
