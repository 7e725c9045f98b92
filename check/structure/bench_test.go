package structure

import (
	"fmt"
	"testing"

	"dryfit/check"
)

// A room of twenty lapped grids: each ten shelves over five uprights.
func BenchmarkRoom(b *testing.B) {
	var parts []*check.Part
	for i := range 20 {
		parts = append(parts, in(fmt.Sprintf("Grid %d", i),
			of(part(fmt.Sprintf("E%d", i), check.Side, 90, 12, .75, "MDF"), 2),
			of(part(fmt.Sprintf("S%d", i), check.Shelf, 140, 12, 1.5, "MDF"), 10),
			of(part(fmt.Sprintf("U%d", i), check.Upright, 88, 12, 1.5, "MDF"), 5))...)
	}
	j := inches(parts...)
	for i := range 20 {
		jt := depths(joint(fmt.Sprintf("J%d", i), fmt.Sprintf("U%d", i), fmt.Sprintf("S%d", i), check.CrossLap), 6, 6)
		jt.Count, jt.Width = check.Exact(50), check.Exact(1.5625)
		joined(j, jt)
	}
	for b.Loop() {
		reported(j)
	}
}

// The ways down of one lapped grid among sixty cases that say nothing of theirs.
func BenchmarkPaths(b *testing.B) {
	parts := in("Grid", of(part("E", check.Side, 90, 12, .75, "MDF"), 2), of(part("S", check.Shelf, 140, 12, 1.5, "MDF"), 10), of(part("U", check.Upright, 88, 12, 1.5, "MDF"), 5))
	for i := range 60 {
		parts = append(parts, in(fmt.Sprintf("Case %d", i), of(part(fmt.Sprintf("E%d", i), check.Side, 90, 12, .75, "MDF"), 2),
			of(part(fmt.Sprintf("S%d", i), check.Shelf, 30, 12, .75, "MDF"), 5))...)
	}
	j := inches(parts...)
	jt := depths(joint("J", "U", "S", check.CrossLap), 6, 6)
	jt.Count = check.Exact(50)
	joined(j, jt)
	for b.Loop() {
		forget := j.Keep()
		Paths(j)
		forget()
	}
}
