package structure

import (
	"errors"
	"testing"

	"pgregory.net/rapid"
)

// A result that was kept is the one that would be worked out, and no two layouts share one.
func TestWhatIsRememberedIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(what string) layout {
			x := rapid.Float64Range(10, 90).Draw(t, what)
			return layout{supports: []float64{0, x, 100}, cuts: []cut{newCut(x, 1.5, rapid.Float64Range(1, 6).Draw(t, what+" slot"), 6)}}
		}
		a, b := draw("one"), draw("other")
		for range 2 {
			for _, l := range []layout{a, b} {
				kept, err := l.solve(100)
				fresh, err2 := l.work(100)
				if errors.Join(err, err2) != nil || kept.sag != fresh.sag || kept.slotMoment != fresh.slotMoment || kept.each[1] != fresh.each[1] {
					t.Fatalf("%v: kept %+v, worked out %+v", l, kept, fresh)
				}
			}
		}
	})
}

func TestOnlySoMuchIsRemembered(t *testing.T) {
	m := &remembered{at: map[string]result{}}
	for i := range 3 * mostRemembered {
		m.of(string(rune('a'+i)), func() (result, error) { return result{}, nil })
	}
	if len(m.at) > mostRemembered {
		t.Errorf("%d results are kept, want %d at most", len(m.at), mostRemembered)
	}
}
