package fit

import (
	"fmt"
	"testing"

	"dryfit/check"
)

// tall is a job of n uprights, each with its own row of eight slots.
func tall(n int) *check.Job {
	j := grid(8, 1.5145)
	up, jt := j.Parts[1], j.Joints[0]
	j.Parts, j.Joints = j.Parts[:1], nil
	for i := range n {
		p, row := *up, *jt
		p.Mark.Text, p.Finish.Text = fmt.Sprint("U", i), "paint"
		row.Into, row.Mark.Text = p.Mark, fmt.Sprint("J", i)
		row.Width = check.Exact(1.5145 + .001*float64(i%16))
		j.Parts, j.Joints = append(j.Parts, &p), append(j.Joints, &row)
	}
	return j
}

func BenchmarkRoomOf100Joints(b *testing.B) {
	j := tall(100)
	all := []*check.Check{Joint, Lap, Pitch, AllAtOnce, Ease, Movement, Case, Swing, Corner, Use, Screws}
	for b.Loop() {
		check.Examine(all, j, nil)
	}
}

func BenchmarkRows(b *testing.B) {
	j := tall(100)
	for _, c := range []*check.Check{Joint, AllAtOnce, Movement} {
		b.Run(c.ID, func(b *testing.B) {
			for b.Loop() {
				c.Rows(j)
			}
		})
	}
}
