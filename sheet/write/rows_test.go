package write

import (
	"strings"
	"testing"

	"dryfit/check"
)

// A finding on the joint of a part, or on where its load goes, names no cell of its row; the
// row still bears the word, and in its own case alone. A part that its result clears stays CLEAR.
func TestARowBearsTheWordOfItsJoint(t *testing.T) {
	rep := frontReport()
	for i, name := range []string{"Left", "Right", "Right"} {
		var p *check.Part
		if i < len(rep.Job.Parts) {
			p = rep.Job.Parts[i]
		} else {
			twin := *rep.Job.Parts[0]
			p = &twin
			rep.Job.Parts = append(rep.Job.Parts, p)
		}
		p.Case, p.Row = check.Text{Text: name}, check.Cell{Book: "b.xlsx", Tab: "Parts", Addr: At(1, i+2)}
	}
	on := func(mark, box string, v check.Verdict) *check.Result {
		return &check.Result{Verdict: v, Check: &check.Check{ID: "structure.path"}, Row: check.Row{Marks: []string{mark}, Case: box}}
	}
	rep.Findings = []*check.Finding{{ID: "structure.path", Verdict: check.Hold, Marks: []string{"A"}, Text: "A: never reaches the floor",
		Cells:   []check.Cell{{Book: "b.xlsx", Tab: "Joints", Addr: "M4"}},
		Results: []*check.Result{on("A", "Left", check.Hold), on("B", "Right", check.Clear)}}}
	p := rows(rep, "b.xlsx", newPlaces(rep))
	for i, want := range []check.Verdict{check.Hold, check.Clear, check.Clear} {
		if got := p.Rows[rowsFirst-1+i][0].Value; got != Shown(want).Word() {
			t.Errorf("row %d says %q, want %v", i+1, got, want)
		}
	}
	if len(p.notes) != 1 || p.notes[0].at != "A5" {
		t.Errorf("notes %+v, want one at A5", p.notes)
	}
	if got := newPlaces(rep).toPart(rep.Findings[0]); got != Quote(TabRows)+"!A5" {
		t.Errorf("the finding leads to %q", got)
	}
}

// A cell is named with its tab; a long name of a tab is cut, never left out: A4 alone could
// stand on any.
func TestACellIsNamedWithItsTab(t *testing.T) {
	p := NewPage("x", "", "")
	p.Widths = []float64{12}
	name := func(tab string) string {
		return p.cellOf(check.Cell{Book: "b.xlsx", Tab: tab, Addr: "A4"}, "b.xlsx", 1, 1, "").Value.(string)
	}
	if got := name("Albums"); got != "Albums!A4" {
		t.Errorf("a short name: %q", got)
	}
	if got := name("Albums of the second revision"); !strings.HasPrefix(got, "Albu") || !strings.HasSuffix(got, "…!A4") {
		t.Errorf("a long name: %q", got)
	}
}
