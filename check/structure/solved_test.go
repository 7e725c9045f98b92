package structure

import (
	"testing"

	"pgregory.net/rapid"
)

// A layout that the job keeps is the one that would be worked out, and no two share one.
func TestKeptLayoutsAreTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := inches()
		defer j.Keep()()
		draw := func(what string) layout {
			x := rapid.Float64Range(10, 90).Draw(t, what)
			return layout{supports: []float64{0, x, 100}, cuts: []cut{newCut(x, 1.5, rapid.Float64Range(1, 6).Draw(t, what+" slot"), 6)}}
		}
		a, b := draw("one"), draw("other")
		for range 2 {
			for _, l := range []layout{a, b} {
				kept, err := l.solve(j, 100)
				fresh, err2 := l.work(100)
				if err != nil || err2 != nil || kept.sag != fresh.sag || kept.slotMoment != fresh.slotMoment || kept.each[1] != fresh.each[1] {
					t.Fatalf("%v: kept %+v, worked out %+v", l, kept, fresh)
				}
			}
		}
	})
}
