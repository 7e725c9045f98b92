package opening

import (
	"strings"
	"testing"

	"dryfit/check"
)

// By hand: 38 3/4 + 2 x 3/4 = 40 1/4 in an opening of 40; a side needs 1/8 at each side, 1/16 of
// tape and some film, so that 39 1/2 at the most go in: top and bottom 38.
func TestARunIsMendedWhereItIsLongest(t *testing.T) {
	j := in(niche([]float64{40, 40}, []float64{81, 81}), job(piece{"S1", check.Side, 2, 80, 12, .75, ""},
		piece{"S2", check.Head, 1, 38.75, 12, .75, "between sides"}, piece{"S3", check.Sill, 1, 38.75, 12, .75, "between sides"}))
	rep := check.Examine([]*check.Check{Width}, j, nil)
	if len(rep.Findings) != 1 {
		t.Fatalf("%d findings, want 1", len(rep.Findings))
	}
	f := rep.Findings[0]
	if want := j.Part("S2").Length.From; f.Cells[0] != want {
		t.Errorf("speaks of %s, want the length of the top, %s", f.Cells[0], want)
	}
	if !strings.HasPrefix(f.Fix, "make the run ") || !strings.Contains(f.Fix, ": S2, S3 3") {
		t.Errorf("offers %q, want the run and the top and bottom that make it", f.Fix)
	}
}

// One lift that is too low is one line, whatever stands in it.
func TestOneTightPlaceIsOneLine(t *testing.T) {
	j := job(piece{"S1", check.Side, 2, 90, 12, .75, ""}, piece{"S2", check.Shelf, 1, 96, 11, .75, ""}, piece{"S3", check.Shelf, 1, 30, 11, .75, ""})
	j.Carry = &check.Carry{Stops: []check.Stop{{Row: cell("Carry", "A2"), Kind: "lift", Name: check.Text{Text: "lift"},
		Width: check.Exact(36), Length: check.Exact(48), Height: check.Exact(78)}}}
	rep := check.Examine([]*check.Check{Carry}, j, nil)
	if len(rep.Findings) != 1 || rep.Findings[0].Verdict != check.Hold || strings.Join(rep.Findings[0].Marks, " ") != "S2 S1" {
		t.Errorf("findings %+v, want one HOLD of S1 and S2", rep.Findings)
	}
}
