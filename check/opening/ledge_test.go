package opening

import (
	"testing"

	"dryfit/check"
)

// By hand: the least width is 36 3/8, a tape is good for 1/16; finish up to a film on each end.
func TestShelvesOnCleats(t *testing.T) {
	closet := func(shelf float64, note string) *check.Job {
		j := nook(alcove(36.375, 90, 14))
		c, cleat := *j.Parts[1], *j.Parts[1]
		c.Role, c.Length, c.Note.Text = check.Shelf, check.Exact(shelf).At(c.Length.From), note
		cleat.Role, cleat.Mark.Text, cleat.Length = check.Cleat, "D3", check.Exact(11)
		j.Parts = []*check.Part{&c, &cleat}
		return j
	}
	unmeasured := closet(36.5, "")
	unmeasured.Openings = nil
	alone := closet(36.5, "")
	alone.Parts = alone.Parts[:1]
	for _, c := range []struct {
		name, hand string
		job        *check.Job
		want       string
	}{
		{"goes in", "36.375 - 36", closet(36, ""), ""},
		{"wider than the opening", "36.5 - 36.375 = 1/8", closet(36.5, ""), "HOLD Case Nook: D2 36 1/2 in, 1/8 in over the width 36 3/8"},
		{"just as wide", "the tape may be 1/16 off", closet(36.375, ""), "VERIFY Case Nook: D2 36 3/8 in only just goes into 36 3/8"},
		{"left long to scribe", "too long on purpose", closet(36.5, "scribe to walls"), ""},
		{"nobody measured", "the wall is where the shelf is", unmeasured, ""},
		{"no cleats", "may stand elsewhere", alone, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := ""
			for _, f := range check.Examine(of("opening.width"), c.job, nil).Findings {
				got += f.Verdict.String() + " " + f.Text
			}
			if got != c.want {
				t.Errorf("%q, want %q (%s)", got, c.want, c.hand)
			}
		})
	}
}
