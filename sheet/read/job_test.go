package read

import (
	"bytes"
	"errors"
	"testing"

	"dryfit/check"
	"dryfit/check/length"

	"github.com/xuri/excelize/v2"
)

func openText(t *testing.T, path, text string) *Book {
	t.Helper()
	fx := parseFixture(t, text)
	b, err := Open(path, fx.data, nil)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

const inchTab = `== tab Inches
Mark | Part | Qty | L | W | T
A1 | Side | 2 | 30 1/2 | 12 | .75
A2 | Shelf | 3 | 22.5 | =11+0 | 3/4
A3 | Top | 1 | 24 | 12 | 19 mm
`

const metricTab = `== tab Metric
Mark | Part | Pcs | Length (mm) | Width (mm) | Thickness (mm)
M1 | Rail | 2 | 508 | 100 | 19
`

// The unit of a job is that of most of its parts; what was given in the other is converted,
// and is no plain number any more.
func TestJobHasOneUnit(t *testing.T) {
	j, err := Job("7 Stair", "/jobs/7 Stair", []*Book{openText(t, "a.xlsx", inchTab+metricTab)}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if j.Unit != length.Inch || len(j.Parts) != 4 {
		t.Fatalf("unit %v with %d parts, want inches with 4", j.Unit, len(j.Parts))
	}
	for _, test := range []struct {
		name  string
		v     check.Value
		want  float64
		plain bool
		from  string
	}{
		{"a text is no plain number", j.Parts[0].Length, 30.5, false, "D2"},
		{"a number is", j.Parts[0].Width, 12, true, "E2"},
		{"a formula that gives a number is", j.Parts[1].Width, 11, true, "E3"},
		{"another unit in the cell is not", j.Parts[2].Thickness, 19 / 25.4, false, "F4"},
		{"another unit in the header is not", j.Parts[3].Length, 20, false, "D2"},
		{"a count is", j.Parts[3].Qty, 2, true, "C2"},
	} {
		if !test.v.Known || test.v.Nominal-test.want > 1e-9 || test.want-test.v.Nominal > 1e-9 || test.v.Plain != test.plain || test.v.From.Addr != test.from {
			t.Errorf("%s: %v plain %v from %s, want %v, %v, %s", test.name, test.v.Nominal, test.v.Plain, test.v.From.Addr, test.want, test.plain, test.from)
		}
	}
	if p := j.Part("M1"); p == nil || p.Row.Tab != "Metric" || p.Row.Book != "a.xlsx" {
		t.Errorf("M1 is %+v", p)
	}
}

// A value that can be read in two ways carries both as its range.
func TestDoubtIsARange(t *testing.T) {
	b := openText(t, "a.xlsx", "== tab S\nMark | Part | Qty | L | W | T\nA | Sleeper | 2 | 40 | 2x4 | \nB | Side | 1 | 40 | 10 | 3/4\nC | Back | 1 | 6-8mm | 10 | 1/4\n")
	var parts []*check.Part
	for p := range b.Tabs[0].Parts() {
		parts = append(parts, p)
	}
	last := parts[2]
	if v := last.Length; !v.Ranged() || len(last.Doubts) != 1 || len(last.Doubts[0].Readings) < 2 {
		t.Errorf("6-8mm is %+v with %+v", v, last.Doubts)
	}
}

// What dryfit wrote itself is never read back as the office's.
func TestOwnTabsAndFiles(t *testing.T) {
	f := excelize.NewFile()
	for i, row := range [][]any{{"Mark", "Part", "Qty", "Length", "Width"}, {"A", "Side", 2, 30, 12}} {
		f.SetSheetRow("Sheet1", Address(i+1, 1), &row)
	}
	if _, err := f.NewSheet("dryfit rows"); err != nil {
		t.Fatal(err)
	}
	for i, row := range [][]any{{"Mark", "Part", "Qty", "Length", "Width"}, {"A", "Side", 2, 30, 12}} {
		f.SetSheetRow("dryfit rows", Address(i+1, 1), &row)
	}
	if err := f.SetDefinedName(&excelize.DefinedName{Name: "_dryfit_tab", RefersTo: `"dryfit rows"`, Scope: "dryfit rows"}); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	b, err := Open("a.xlsx", out.Bytes(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if b.Tabs[0].Kind != "parts" || b.Tabs[1].Kind != "ignored" || b.Tabs[1].Why != "written by dryfit" {
		t.Errorf("tabs are %s and %s (%s)", b.Tabs[0].Kind, b.Tabs[1].Kind, b.Tabs[1].Why)
	}
	results, err := Open("/jobs/1/a - dryfit results.xlsx", out.Bytes(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Job("1", "/jobs/1", []*Book{results}, nil); !errors.Is(err, ErrNoParts) {
		t.Errorf("a folder with nothing but our results gives %v, want ErrNoParts", err)
	}
}
