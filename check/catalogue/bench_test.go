package catalogue_test

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/catalogue"
	"dryfit/check/infer"
	"dryfit/check/standard"
	"dryfit/sheet/draft"
	"dryfit/sheet/read"
)

// schedule is a job of n rows, five to a case, sound but for one mark.
func schedule(b *testing.B, n int) *check.Job {
	b.Helper()
	kinds := []string{"Side | %s | 2 | 74 | 15 | 3/4 | MDF | paint", "Top and bottom | %s | 2 | 55 | 15 | 3/4 | MDF | paint",
		"Divider | %s | 1 | 72 1/2 | 14 1/2 | 3/4 | MDF | paint", "Adj. shelf | %s | 10 | 26 7/8 | 14 | 3/4 | birch ply | clear",
		"Back | %s | 1 | 73 | 47 | 1/4 | birch ply | none"}
	var text strings.Builder
	text.WriteString("== Parts\nMark | Part | Case | Qty | L | W | T | Material | Finish\n")
	for i := range n {
		fmt.Fprintf(&text, "K%d | "+kinds[i%5]+"\n", i+1, fmt.Sprintf("Bay %d", i/5+1))
	}
	return understood(b, text.String())
}

// grids is a job of n lapped grids with their joints, loads and openings.
func grids(b *testing.B, n int) *check.Job {
	b.Helper()
	var parts, joints, loads, site strings.Builder
	parts.WriteString("== Parts\nMark | Part | Case | Qty | L | W | T | Material | Finish\n")
	joints.WriteString("\n== Joints\nMark | Into | Enters | Kind | Count | Slot width | Depth into | Depth enters\n")
	loads.WriteString("\n== Loads\nCase | Load\n")
	site.WriteString("\n== Site\nOpening | Width floor | Width middle | Width top | Height left | Height right | Depth\n")
	for i := range n {
		c := fmt.Sprintf("Bay %d", i+1)
		fmt.Fprintf(&parts, "S%d | Side | %s | 2 | 90 | 12 | 3/4 | MDF | paint\n", i, c)
		fmt.Fprintf(&parts, "H%d | Shelf | %s | 10 | %d | 12 | 1 1/2 | MDF | paint\n", i, c, 90+i%40)
		fmt.Fprintf(&parts, "U%d | Upright | %s | 3 | 88 | 12 | 1 1/2 | MDF | paint\n", i, c)
		fmt.Fprintf(&joints, "J%d | U%d | H%d | cross lap | 30 | 1 %d/64 | 6 | 6\n", i, i, i, 32+i%8)
		fmt.Fprintf(&loads, "%s | books\n", c)
		fmt.Fprintf(&site, "%s | %d | %d 1/8 | %d | 95 | 95 1/4 | 14\n", c, 93+i%40, 93+i%40, 93+i%40)
	}
	return understood(b, parts.String()+joints.String()+loads.String()+site.String())
}

func understood(b *testing.B, text string) *check.Job {
	b.Helper()
	data, err := draft.Workbook(text)
	if err != nil {
		b.Fatal(err)
	}
	book, err := read.Open("list.xlsx", data, standard.BuiltIn())
	if err != nil {
		b.Fatal(err)
	}
	j, err := read.Job("job", "job", []*read.Book{book}, standard.BuiltIn())
	if err != nil {
		b.Fatal(err)
	}
	infer.Complete(j)
	return j
}

// BenchmarkExamine is what the checks alone take. Ten times the rows should take ten times as
// long.
func BenchmarkExamine(b *testing.B) {
	for _, n := range []int{300, 3000} {
		b.Run(fmt.Sprintf("%d-rows", n), func(b *testing.B) { examine(b, schedule(b, n)) })
	}
	for _, n := range []int{40, 400} {
		b.Run(fmt.Sprintf("%d-grids", n), func(b *testing.B) { examine(b, grids(b, n)) })
	}
}

// examine takes a fresh copy of the job each time, since a job remembers what was worked out
// for it.
func examine(b *testing.B, j *check.Job) {
	b.ReportAllocs()
	for b.Loop() {
		fresh := *j
		check.Examine(catalogue.All, &fresh, nil)
	}
}
