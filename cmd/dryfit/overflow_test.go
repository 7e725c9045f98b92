package main

import (
	"archive/zip"
	"html"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"dryfit/sheet/typeset"
)

// No text of ours is cut: on every tab that we write for the demo shop each text fits its cell,
// its merged cells or the empty ones right of it within the print area, and each note its box.
func noTextOverflows(t *testing.T, dir string) {
	books := 0
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() && d.Name() == ".dryfit" {
			if err == nil {
				err = fs.SkipDir
			}
			return err
		}
		if strings.HasSuffix(path, ".xlsx") {
			books++
			overflowsOf(t, path)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if want := 2*len(jobsIn(t, dir)) + 1; books < want { // with the standards, the roll-up, and inputs for all but the sound job
		t.Errorf("%d workbooks, want at least %d", books, want)
	}
}

// jobsIn are the folders of the shop.
func jobsIn(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		if e.IsDir() && !strings.HasPrefix(e.Name(), ".") {
			out = append(out, filepath.Join(dir, e.Name()))
		}
	}
	return out
}

// overflowsOf measures our tabs of a workbook: all tabs where it is ours as a whole, else those
// named after us.
func overflowsOf(t *testing.T, path string) {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	parts := partsOf(t, path)
	for _, tab := range oursIn(f, path) {
		s := &sheetFace{t: t, f: f, tab: tab, name: filepath.Base(path) + ", " + tab}
		s.read()
		s.measure()
		s.notes(parts)
	}
}

// oursIn are the tabs of a workbook that we wrote.
func oursIn(f *excelize.File, path string) []string {
	whole := slices.ContainsFunc([]string{" inputs.xlsx", "shop standards.xlsx", "dryfit roll-up.xlsx", "dryfit results.xlsx"},
		func(end string) bool { return strings.HasSuffix(path, end) })
	var out []string
	for _, tab := range f.GetSheetList() {
		if whole || strings.HasPrefix(tab, "dryfit") {
			out = append(out, tab)
		}
	}
	return out
}

// sheetFace is a tab as it is seen: what each cell shows, and how wide and high it is.
type sheetFace struct {
	t         *testing.T
	f         *excelize.File
	tab, name string
	rows      [][]string
	last      int // the last column that is printed
	widths    []float64
	merged    map[[2]int]bool   // cells that another one covers
	spans     map[[2]int][2]int // right and lower end of a merged cell
}

func (s *sheetFace) must(err error) {
	s.t.Helper()
	if err != nil {
		s.t.Fatalf("%s: %v", s.name, err)
	}
}

func (s *sheetFace) read() {
	var err error
	s.rows, err = s.f.GetRows(s.tab)
	s.must(err)
	for _, row := range s.rows {
		s.last = max(s.last, len(row))
	}
	for _, d := range s.f.GetDefinedName() {
		if d.Name == "_xlnm.Print_Area" && d.Scope == s.tab {
			area := strings.ReplaceAll(d.RefersTo[strings.LastIndex(d.RefersTo, "!")+1:], "$", "")
			_, to, _ := strings.Cut(area, ":")
			s.last, _, err = excelize.CellNameToCoordinates(to)
			s.must(err)
		}
	}
	for c := 1; c <= s.last+1; c++ {
		letters, _ := excelize.ColumnNumberToName(c)
		units, err := s.f.GetColWidth(s.tab, letters)
		s.must(err)
		if seen, _ := s.f.GetColVisible(s.tab, letters); !seen {
			units = 0
		}
		s.widths = append(s.widths, typeset.Column(units))
	}
	s.readMerges()
}

func (s *sheetFace) readMerges() {
	s.merged, s.spans = map[[2]int]bool{}, map[[2]int][2]int{}
	merges, err := s.f.GetMergeCells(s.tab)
	s.must(err)
	for _, m := range merges {
		c1, r1, err := excelize.CellNameToCoordinates(m.GetStartAxis())
		s.must(err)
		c2, r2, err := excelize.CellNameToCoordinates(m.GetEndAxis())
		s.must(err)
		for c := c1; c <= c2; c++ {
			for r := r1; r <= r2; r++ {
				s.merged[[2]int{c, r}] = true
			}
		}
		delete(s.merged, [2]int{c1, r1})
		s.spans[[2]int{c1, r1}] = [2]int{c2, r2}
	}
}

func (s *sheetFace) shown(c, r int) string {
	if r > len(s.rows) || c > len(s.rows[r-1]) {
		return ""
	}
	return s.rows[r-1][c-1]
}

func (s *sheetFace) measure() {
	for r := range s.rows {
		for c := range s.rows[r] {
			at := [2]int{c + 1, r + 1}
			if text := s.rows[r][c]; text != "" && !s.merged[at] && c < len(s.widths) && s.widths[c] > 0 {
				s.cell(at, text)
			}
		}
	}
}

// box is the width and height of a cell with those it is merged with, points.
func (s *sheetFace) box(at [2]int) (width, height float64) {
	to, ok := s.spans[at]
	if !ok {
		to = at
	}
	for c := at[0]; c <= to[0]; c++ {
		width += s.widths[c-1]
	}
	for r := at[1]; r <= to[1]; r++ {
		h, err := s.f.GetRowHeight(s.tab, r)
		s.must(err)
		height += h
	}
	return width, height
}

func (s *sheetFace) cell(at [2]int, text string) {
	name, _ := excelize.CoordinatesToCellName(at[0], at[1])
	id, err := s.f.GetCellStyle(s.tab, name)
	s.must(err)
	st, err := s.f.GetStyle(id)
	s.must(err)
	if st.Alignment == nil {
		st.Alignment = &excelize.Alignment{}
	}
	face := typeset.Face{Size: st.Font.Size, Bold: st.Font.Bold}
	if st.Font.Family != "Calibri" {
		s.t.Errorf("%s!%s is set in %s", s.name, name, st.Font.Family)
	}
	width, height := s.box(at)
	room := typeset.Room(width, st.Alignment.Indent)
	linked, _, err := s.f.GetCellHyperLink(s.tab, name)
	s.must(err)
	switch {
	case linked: // LibreOffice makes a field of the text, which does not wrap
		s.fits(name, text, "width for a link", face.Width(text), room)
	case st.Alignment.TextRotation == 90:
		s.fits(name, text, "height", face.Width(text), height)
	case st.Alignment.WrapText:
		if need := face.Height(text, room); need < excelize.MaxRowHeight {
			s.fits(name, text, "height", need, height)
		}
	default:
		s.fits(name, text, "width", face.Width(text), s.runs(at, room, st))
		s.fits(name, text, "height", face.LineHeight(), height)
	}
}

// runs is how far a text that does not wrap may run: a text set from the left over the empty
// cells right of it, to the edge of what is printed.
func (s *sheetFace) runs(at [2]int, room float64, st *excelize.Style) float64 {
	kind, err := s.f.GetCellType(s.tab, cellName(at[0], at[1]))
	s.must(err)
	number := kind != excelize.CellTypeInlineString && kind != excelize.CellTypeSharedString
	if number || st.Alignment.Horizontal == "center" || st.Alignment.Horizontal == "right" {
		return room
	}
	to := at[0]
	if span, ok := s.spans[at]; ok {
		to = span[0]
	}
	for c := to + 1; c <= s.last && c <= len(s.widths) && s.shown(c, at[1]) == "" && !s.merged[[2]int{c, at[1]}]; c++ {
		room += s.widths[c-1]
	}
	return room
}

func cellName(c, r int) string {
	name, err := excelize.CoordinatesToCellName(c, r)
	if err != nil {
		panic(err) // only a cell left of A or above 1
	}
	return name
}

func (s *sheetFace) fits(name, text, what string, need, have float64) {
	if need > have+1e-6 {
		s.t.Errorf("%s!%s: %q needs %.1f points of %s and has %.1f", s.name, name, text, need, what, have)
	}
}

// notes holds the notes against their boxes: 9 points in a box with a margin all round. A box
// hangs between cells, by the drawing that the tab points to.
func (s *sheetFace) notes(parts map[string][]byte) {
	const dot, margin = 0.75, 10 // points
	texts := map[[2]int]string{}
	notes, err := s.f.GetComments(s.tab)
	s.must(err)
	for _, n := range notes {
		c, r, err := excelize.CellNameToCoordinates(n.Cell)
		s.must(err)
		for _, p := range n.Paragraph {
			texts[[2]int{c, r}] += p.Text
		}
		if len(n.Paragraph) == 0 {
			texts[[2]int{c, r}] = n.Text
		}
	}
	boxes := s.boxes(parts)
	for at, text := range texts {
		name := cellName(at[0], at[1])
		box, ok := boxes[at]
		if !ok {
			s.t.Errorf("%s!%s: the note has no box", s.name, name)
			continue
		}
		need := typeset.Face{Size: 9}.Height(text, box[0]-margin)
		s.fits(name, "note "+text, "height", need, box[1]-margin)
	}
}

var (
	noteShape  = regexp.MustCompile(`(?s)<x:Anchor>([^<]*)</x:Anchor>.*?<x:Row>(\d+)</x:Row>.*?<x:Column>(\d+)</x:Column>`)
	vmlTarget  = regexp.MustCompile(`Target="[^"]*?(drawings/vmlDrawing[^"]*|vmlDrawing[^"]*\.vml)"`)
	sheetEntry = regexp.MustCompile(`<sheet [^>]*name="([^"]*)"[^>]*r:id="([^"]*)"`)
	relation   = regexp.MustCompile(`<Relationship [^>]*>`)
	attribute  = regexp.MustCompile(`(\w+)="([^"]*)"`)
)

// boxes are width and height in points of the notes of the tab, by their cell.
func (s *sheetFace) boxes(parts map[string][]byte) map[[2]int][2]float64 {
	out := map[[2]int][2]float64{}
	found := vmlTarget.FindSubmatch(parts["xl/worksheets/_rels/"+filepath.Base(s.part(parts))+".rels"])
	if found == nil {
		return out
	}
	for _, m := range noteShape.FindAllStringSubmatch(string(parts["xl/drawings/"+filepath.Base(string(found[1]))]), -1) {
		var a [8]int // column and dots, row and dots, of two corners
		for i, text := range strings.Split(m[1], ",") {
			n, err := strconv.Atoi(strings.TrimSpace(text))
			s.must(err)
			a[i] = n
		}
		row, err := strconv.Atoi(m[2])
		s.must(err)
		column, err := strconv.Atoi(m[3])
		s.must(err)
		width, height := s.between(a)
		out[[2]int{column + 1, row + 1}] = [2]float64{width, height}
	}
	return out
}

// between is the width and height of a box from one corner to another.
func (s *sheetFace) between(a [8]int) (width, height float64) {
	const dot = 0.75
	for c := a[0]; c < a[4]; c++ {
		letters, _ := excelize.ColumnNumberToName(c + 1)
		units, err := s.f.GetColWidth(s.tab, letters)
		s.must(err)
		if seen, _ := s.f.GetColVisible(s.tab, letters); seen {
			width += typeset.Column(units)
		}
	}
	for r := a[2]; r < a[6]; r++ {
		h, err := s.f.GetRowHeight(s.tab, r+1)
		s.must(err)
		height += h
	}
	return width + dot*float64(a[5]-a[1]), height + dot*float64(a[7]-a[3])
}

// part is the name of the part that holds the tab.
func (s *sheetFace) part(parts map[string][]byte) string {
	id := ""
	for _, m := range sheetEntry.FindAllStringSubmatch(string(parts["xl/workbook.xml"]), -1) {
		if html.UnescapeString(m[1]) == s.tab {
			id = m[2]
		}
	}
	for _, rel := range relation.FindAllString(string(parts["xl/_rels/workbook.xml.rels"]), -1) {
		has := map[string]string{}
		for _, m := range attribute.FindAllStringSubmatch(rel, -1) {
			has[m[1]] = m[2]
		}
		if has["Id"] == id {
			return has["Target"]
		}
	}
	s.t.Fatalf("%s: no part holds the tab", s.name)
	return ""
}

// partsOf are the parts of a workbook by name.
func partsOf(t *testing.T, path string) map[string][]byte {
	t.Helper()
	z, err := zip.OpenReader(path)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	out := map[string][]byte{}
	for _, entry := range z.File {
		r, err := entry.Open()
		if err != nil {
			t.Fatal(err)
		}
		out[entry.Name], err = io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		r.Close()
	}
	return out
}
