package drawing

import (
	"fmt"
	"testing"

	"dryfit/check"
)

// A job of a thousand cases, each with a shelf that fails.
func BenchmarkFront(b *testing.B) {
	var parts []*check.Part
	var fs []*check.Finding
	for i := range 1000 {
		for k, r := range []check.Role{check.Side, check.Deck, check.Shelf, check.Upright} {
			p := part(fmt.Sprintf("K%d-%d", i, k), r, 2, 40, 12, .75)
			p.Case.Text = fmt.Sprint("Case ", i)
			parts = append(parts, p)
		}
		f := found(check.Hold, "structure.sag", fmt.Sprintf("K%d-2", i))
		f.Case = fmt.Sprint("Case ", i)
		fs = append(fs, f)
	}
	rep := report(job(parts...), fs...)
	for b.Loop() {
		Front(rep)
	}
}
