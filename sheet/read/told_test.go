package read

import (
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/schedule"
	"dryfit/check/standard"
)

// What an office typed beside its parts reaches the checks that ask for it.
func TestJobTellsTheChecks(t *testing.T) {
	const head = "== tab Parts\nMark | Part | Qty | L | W | T\n"
	for _, test := range []struct {
		name, text string
		check      *check.Check
		verdict    check.Verdict
		cell, says string
	}{
		{"a total that disagrees", head + "A1 | Side | 2 | 40 | 12 | 3/4\nA2 | Shelf | 3 | 30 | 11 | 3/4\n | Total | 6\n",
			schedule.Totals, check.Verify, "C4", "says 6 pieces, the rows above make 5"},
		{"a total typed in words", head + "A1 | Side | 2 | 40 | 12 | 3/4\nA2 | Shelf | 3 | 30 | 11 | 3/4\nTotal pcs: 4\n",
			schedule.Totals, check.Verify, "A4", "says 4 pieces, the rows above make 5"},
		{"one mark with other sizes in a tab REV", head + "A1 | Side | 2 | 40 | 12 | 3/4\nA2 | Shelf | 3 | 30 | 11 | 3/4\nA3 | Top | 1 | 30 | 12 | 3/4\n" +
			strings.Replace(head, "Parts", "REV", 1) + "A1 | Side | 2 | 40 | 12 | 3/4\nA2 | Shelf | 3 | 31 | 11 | 3/4\nA3 | Top | 1 | 30 | 12 | 3/4\n",
			schedule.Revision, check.Hold, "A3", "1 of 3 marks have other sizes than in Parts"},
		{"one mark with other sizes in a copy", head + "A1 | Side | 2 | 40 | 12 | 3/4\nA2 | Shelf | 3 | 30 | 11 | 3/4\nA3 | Top | 1 | 30 | 12 | 3/4\n" +
			strings.Replace(head, "Parts", "Parts (2)", 1) + "A1 | Side | 2 | 40 | 12 | 3/4\nA2 | Shelf | 3 | 31 | 11 | 3/4\nA3 | Top | 1 | 30 | 12 | 3/4\n",
			schedule.Revision, check.Verify, "A3", "set aside as a copy"},
		{"a quantity that lost its cell", head + "A1 | Side | #REF! | 40 | 12 | 3/4\nA2 | Shelf | 3 | 30 | 11 | 3/4\n",
			schedule.Formulas, check.Hold, "C2", "quantity shows #REF!"},
		{"a hidden row that holds a part", head + "A1 | Side | 2 | 40 | 12 | 3/4\n%hiddenA2 | Shelf | 3 | 30 | 11 | 3/4\n",
			schedule.Formulas, check.Verify, "A3", "1 part on hidden rows"},
	} {
		t.Run(test.name, func(t *testing.T) {
			j, err := Job("7 Stair", "/jobs/7 Stair", []*Book{openText(t, "a.xlsx", test.text)}, standard.BuiltIn())
			if err != nil {
				t.Fatal(err)
			}
			rep := check.Examine([]*check.Check{test.check}, j, nil)
			if len(rep.Findings) != 1 {
				t.Fatalf("%d findings, want 1", len(rep.Findings))
			}
			f := rep.Findings[0]
			if f.Verdict != test.verdict || f.Cells[0].Addr != test.cell || !strings.Contains(f.Text, test.says) {
				t.Errorf("%v at %s: %s; want %v at %s: %s", f.Verdict, f.Cells[0].Addr, f.Text, test.verdict, test.cell, test.says)
			}
		})
	}
}

// A job worked in another unit than it was typed in holds the same things.
func TestJobInAnotherUnit(t *testing.T) {
	const text = inchTab + "A4 | Shelf | 2 | 24 | 12 | 2 x 3/4\n" + metricTab + `== tab Joints
Jt | In | Rcvs | Type | No. | Slot W | Dp in A | Dp in B
J1 | A1 | A2 | lap | 4 | 25/32 | 6 | 6
== tab Site
Opng | W1 | W2 | W3 | H1 | H2 | H3 | D
A | 94 1/4 | 94 1/8 | 94 3/16 | 96 1/8 | 96 | 96 1/16 | 12 1/2
== tab Way
Stop | Width | Height
Hall door | 35 1/2 | 79 1/2
`
	in, err := JobIn(length.Inch, "7", "/7", []*Book{openText(t, "a.xlsx", text)}, nil)
	if err != nil {
		t.Fatal(err)
	}
	mm, err := JobIn(length.Millimetre, "7", "/7", []*Book{openText(t, "a.xlsx", text)}, nil)
	if err != nil {
		t.Fatal(err)
	}
	var pairs [][2]check.Value
	for i, p := range in.Parts {
		q := mm.Parts[i]
		pairs = append(pairs, [2]check.Value{p.Length, q.Length}, [2]check.Value{p.Width, q.Width}, [2]check.Value{p.Thickness, q.Thickness})
		for k, l := range p.Layers {
			pairs = append(pairs, [2]check.Value{l.Thickness, q.Layers[k].Thickness})
		}
	}
	pairs = append(pairs, [2]check.Value{in.Joints[0].Width, mm.Joints[0].Width}, [2]check.Value{in.Joints[0].DepthIn, mm.Joints[0].DepthIn})
	for i, r := range in.Openings[0].Widths {
		pairs = append(pairs, [2]check.Value{r.Value, mm.Openings[0].Widths[i].Value})
	}
	pairs = append(pairs, [2]check.Value{in.Carry.Stops[0].Width, mm.Carry.Stops[0].Width})
	for i, p := range pairs {
		if !p[0].Known || !p[1].Known || p[0].Nominal*25.4-p[1].Nominal > 1e-6 || p[1].Nominal-p[0].Nominal*25.4 > 1e-6 {
			t.Errorf("pair %d: %v in is %v mm", i, p[0].Nominal, p[1].Nominal)
		}
		if p[0].From != p[1].From {
			t.Errorf("pair %d comes from %v and from %v", i, p[0].From, p[1].From)
		}
	}
}
