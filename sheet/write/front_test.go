package write

import (
	"bytes"
	"image/png"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// frontReport is a case whose top and bottom fail, and a finding that the lead took out.
func frontReport() *check.Report {
	part := func(mark string, role check.Role, l, w, t float64) *check.Part {
		return &check.Part{Mark: check.Text{Text: mark}, Role: role, Qty: check.Exact(2), Length: check.Exact(l), Width: check.Exact(w), Thickness: check.Exact(t), Unit: length.Inch}
	}
	j := &check.Job{Name: "Porch press", Unit: length.Inch, Shop: standard.BuiltIn(),
		Parts: []*check.Part{part("A", check.Side, 70, 12, .75), part("B", check.Deck, 34, 12, .75)}}
	cell := check.Cell{Book: "b.xlsx", Tab: "Parts", Addr: "D3"}
	return &check.Report{Job: j, Verdict: check.Hold, Counts: check.Counts{Hold: 5, Clear: 30, Accepted: 1}, Findings: []*check.Finding{
		{ID: "fit.case", Verdict: check.Hold, Marks: []string{"B"}, Cells: []check.Cell{cell}, Text: "B: too long", Fix: "make it 33 7/8"},
		{ID: "fit.joint", Verdict: check.Hold, Marks: []string{"A"}, Cells: []check.Cell{cell}, Text: "A: seen", Accept: &check.Acceptance{By: "K.", Why: "seen"}},
	}}
}

// Nothing hides under the picture: the rows kept free are as high as it is, and it is no wider
// than the columns that are printed.
func TestPictureHasRoom(t *testing.T) {
	p, err := front(frontReport(), "b.xlsx", "test")
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Pictures) != 1 || !p.OnePage {
		t.Fatalf("%d pictures, one page: %v", len(p.Pictures), p.OnePage)
	}
	pic := p.Pictures[0]
	if _, err := png.Decode(bytes.NewReader(pic.PNG)); err != nil {
		t.Error(err)
	}
	if !strings.Contains(pic.Alt, "HOLD: B") || !strings.Contains(pic.Alt, "35 1/2 in wide") { // 34 and two sides of 3/4
		t.Errorf("alt text %q", pic.Alt)
	}
	wide, free := 0.0, 0.0
	for i := range p.Widths {
		wide += p.column(i + 1)
	}
	var row int
	for i := range p.Rows {
		if At(1, i+1) == pic.At {
			row = i + 1
		}
	}
	for ; row > 0 && row <= len(p.Rows) && len(p.Rows[row-1]) == 0; row++ {
		free += p.Heights[row]
	}
	if pic.Width > wide || pic.Height > free {
		t.Errorf("picture of %g by %g points in columns of %g and free rows of %g", pic.Width, pic.Height, wide, free)
	}
}

// The counts say what they count: findings, and the marks times checks behind them.
func TestCounts(t *testing.T) {
	p, err := front(frontReport(), "b.xlsx", "test")
	if err != nil {
		t.Fatal(err)
	}
	hold, verdictLine := []Cell(nil), -1
	for i, row := range p.Rows {
		if len(row) > 4 && row[0].Value == "■ HOLD" && row[2].Value == "fails as typed: do not cut or ship" {
			hold = row
		}
		if len(row) > 0 && row[0].Value == "Do this first" {
			verdictLine = i
		}
	}
	if hold == nil || hold[1].Value != 1. || hold[4].Value != 5. {
		t.Errorf("row of HOLD: %v, want 1 finding out of 5 answers", hold)
	}
	if verdictLine < 0 || verdictLine > 5 {
		t.Errorf("what to do first begins in row %d", verdictLine+1)
	}
}

// A case whose parts make no picture has none, and the page does not speak of one.
func TestFrontWithoutPicture(t *testing.T) {
	rep := frontReport()
	rep.Job.Parts = rep.Job.Parts[1:]
	p, err := front(rep, "b.xlsx", "test")
	if err != nil || len(p.Pictures) != 0 {
		t.Fatalf("%d pictures, %v", len(p.Pictures), err)
	}
	for _, row := range p.Rows {
		if len(row) > 0 && row[0].Value == "What it looks like" {
			t.Error("a heading without a picture")
		}
	}
}

// A fault in a picture costs the picture, and nothing else. Without standards nothing can be
// said of an opening.
func TestFaultInAPicture(t *testing.T) {
	rep := frontReport()
	rep.Job.Shop = nil
	rep.Job.Openings = []*check.Opening{{Widths: []check.Reading{{At: "floor", Value: check.Exact(36)}, {At: "top", Value: check.Exact(36)}}}}
	p, err := front(rep, "b.xlsx", "test")
	if err != nil || len(p.Pictures) != 0 {
		t.Fatalf("%d pictures, %v", len(p.Pictures), err)
	}
	said := false
	for _, row := range p.Rows {
		if len(row) > 0 {
			s, _ := row[0].Value.(string)
			said = said || strings.HasPrefix(s, "No picture: drawing it stopped")
		}
	}
	if !said {
		t.Error("nobody says that the picture is missing")
	}
}

// What is cut is not to be held from the saw.
func TestTheBannerKnowsTheStage(t *testing.T) {
	for stage, want := range map[check.Stage][2]string{
		check.Measured: {"Do not cut or ship as scheduled.", "Nothing fails as typed; confirm the values below before cutting."},
		check.Finished: {"Do not ship as it stands.", "Nothing fails as typed; confirm the values below before it is shipped."},
	} {
		rep := &check.Report{Job: &check.Job{Stage: stage}, Verdict: check.Hold}
		hold := meaning(rep)
		rep.Verdict = check.Verify
		if got := [2]string{hold, meaning(rep)}; got != want {
			t.Errorf("stage %v: %q, want %q", stage, got, want)
		}
	}
}
