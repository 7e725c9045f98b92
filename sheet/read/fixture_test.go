package read

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"dryfit/check"

	"github.com/xuri/excelize/v2"
)

// A fixture is a workbook in text, and what a person reads in it:
//
//	anything before the first section says what is odd about the workbook
//	== tab NAME [hidden] [1904]
//	rows of cells parted by |
//	== parts
//	a header of fields, then one row a part; a blank field is one that must be absent
//	== unread
//	cells that must be named as unread, one a line, with a piece of the reason
//	== aside | == kinds | == notes
//
// Cells: a plain number is a number; 'x is text; ^ is merged with the cell above, < with the
// cell to the left; =formula has no saved value, ={value}formula has; {code}5 has a number
// format, {date}2026-03-04 is a date shown as 4-Mar; §text is struck through, @text grey,
// #REF! an error; \n breaks the line. A row that begins with %hidden is hidden.
type fixture struct {
	data   []byte
	parts  [][]string
	unread [][2]string
	aside  [][2]string
	kinds  []string
	notes  []string
}

func loadFixture(t *testing.T, path string) fixture {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return parseFixture(t, string(text))
}

func parseFixture(t *testing.T, text string) fixture {
	t.Helper()
	var fx fixture
	f := excelize.NewFile()
	defer f.Close()
	section, tab, row, tabs := "", "", 0, 0
	for _, line := range strings.Split(text, "\n") {
		if head, ok := strings.CutPrefix(line, "== "); ok {
			section = strings.Fields(head)[0]
			if section == "tab" {
				tab, row = newTab(t, f, strings.TrimSpace(strings.TrimPrefix(head, "tab")), tabs), 0
				tabs++
			}
			continue
		}
		switch section {
		case "tab":
			row++
			writeRow(t, f, tab, row, line)
		case "parts":
			if strings.TrimSpace(line) != "" {
				fx.parts = append(fx.parts, fields(line))
			}
		case "unread", "aside":
			if f := fields(line); f[0] != "" {
				pair := [2]string{f[0], strings.Join(f[1:], " | ")}
				if section == "unread" {
					fx.unread = append(fx.unread, pair)
				} else {
					fx.aside = append(fx.aside, pair)
				}
			}
		case "kinds":
			if strings.TrimSpace(line) != "" {
				fx.kinds = append(fx.kinds, strings.TrimSpace(line))
			}
		case "notes":
			if strings.TrimSpace(line) != "" {
				fx.notes = append(fx.notes, strings.TrimSpace(line))
			}
		}
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	fx.data = out.Bytes()
	return fx
}

func newTab(t *testing.T, f *excelize.File, head string, n int) string {
	name := head
	hidden := strings.HasSuffix(name, "[hidden]")
	name = strings.TrimSpace(strings.TrimSuffix(name, "[hidden]"))
	if s, ok := strings.CutSuffix(name, "[1904]"); ok {
		name = strings.TrimSpace(s)
		yes := true
		f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &yes})
	}
	if n == 0 {
		f.SetSheetName("Sheet1", name)
	} else if _, err := f.NewSheet(name); err != nil {
		t.Fatal(err)
	}
	if hidden {
		f.SetSheetVisible(name, false)
	}
	return name
}

func fields(line string) []string {
	parts := strings.Split(line, "|")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	return parts
}

func writeRow(t *testing.T, f *excelize.File, tab string, row int, line string) {
	if rest, ok := strings.CutPrefix(line, "%hidden"); ok {
		line = rest
		f.SetRowVisible(tab, row, false)
	}
	for i, text := range strings.Split(line, "|") {
		if strings.TrimSpace(text) == "" {
			continue
		}
		addr, _ := excelize.CoordinatesToCellName(i+1, row)
		keep := strings.TrimSuffix(strings.TrimPrefix(text, " "), " ")
		if err := writeCell(f, tab, addr, i+1, row, keep); err != nil {
			t.Fatalf("%s!%s %q: %v", tab, addr, text, err)
		}
	}
}

func writeCell(f *excelize.File, tab, addr string, col, row int, text string) error {
	trimmed := strings.TrimSpace(text)
	style := &excelize.Style{}
	styled := false
	if rest, ok := strings.CutPrefix(trimmed, "§"); ok {
		styled, trimmed, text = true, rest, rest
		style.Font = &excelize.Font{Strike: true}
	}
	if rest, ok := strings.CutPrefix(trimmed, "@"); ok {
		styled, trimmed, text = true, rest, rest
		style.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"BFBFBF"}}
	}
	if code, rest, ok := strings.Cut(strings.TrimPrefix(trimmed, "{"), "}"); ok && trimmed[0] == '{' {
		styled = true
		trimmed = rest
		if code == "date" {
			code = "d-mmm"
			day, err := time.Parse("2006-01-02", rest)
			if err != nil {
				return err
			}
			if err := f.SetCellValue(tab, addr, day); err != nil {
				return err
			}
			style.CustomNumFmt = &code
			id, err := f.NewStyle(style)
			if err != nil {
				return err
			}
			return f.SetCellStyle(tab, addr, addr, id)
		}
		style.CustomNumFmt = &code
	}
	if styled {
		id, err := f.NewStyle(style)
		if err != nil {
			return err
		}
		defer f.SetCellStyle(tab, addr, addr, id)
	}
	switch {
	case trimmed == "^" || trimmed == "<":
		return mergeInto(f, tab, addr, col, row, trimmed)
	case strings.HasPrefix(trimmed, "'"):
		return f.SetCellStr(tab, addr, trimmed[1:])
	case strings.HasPrefix(trimmed, "={"):
		value, formula, _ := strings.Cut(trimmed[2:], "}")
		if x, err := strconv.ParseFloat(value, 64); err == nil {
			f.SetCellValue(tab, addr, x)
		} else {
			f.SetCellStr(tab, addr, value)
		}
		return f.SetCellFormula(tab, addr, formula)
	case strings.HasPrefix(trimmed, "="):
		return f.SetCellFormula(tab, addr, trimmed[1:])
	case trimmed == "#VALUE!":
		return f.SetCellFormula(tab, addr, `VALUE("x")`)
	case trimmed == "#DIV/0!":
		return f.SetCellFormula(tab, addr, "1/0")
	case trimmed == "#REF!":
		return f.SetCellFormula(tab, addr, "#REF!*2")
	}
	if x, err := strconv.ParseFloat(trimmed, 64); err == nil && !strings.ContainsAny(trimmed, "xXpPnN") {
		return f.SetCellValue(tab, addr, x)
	}
	return f.SetCellStr(tab, addr, strings.ReplaceAll(text, `\n`, "\n"))
}

func mergeInto(f *excelize.File, tab, addr string, col, row int, dir string) error {
	if dir == "^" {
		row--
	} else {
		col--
	}
	above, _ := excelize.CoordinatesToCellName(col, row)
	merges, err := f.GetMergeCells(tab)
	if err != nil {
		return err
	}
	for _, m := range merges {
		c1, r1, _ := excelize.CellNameToCoordinates(m.GetStartAxis())
		c2, r2, _ := excelize.CellNameToCoordinates(m.GetEndAxis())
		if c1 <= col && col <= c2 && r1 <= row && row <= r2 {
			above = m.GetStartAxis()
		}
	}
	return f.MergeCell(tab, above, addr)
}

// TestFixtures reads every workbook of testdata/tabs and compares the parts with those a
// person reads in it.
func TestFixtures(t *testing.T) {
	paths, err := filepath.Glob(os.Getenv("FIXTURES"))
	if len(paths) == 0 {
		paths, err = filepath.Glob("testdata/tabs/*.txt")
	}
	if err != nil || len(paths) == 0 {
		t.Fatalf("no fixtures: %v", err)
	}
	for _, path := range paths {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txt"), func(t *testing.T) {
			fx := loadFixture(t, path)
			b, err := Open("book.xlsx", fx.data, nil)
			if err != nil {
				t.Fatal(err)
			}
			fx.compare(t, b)
			if t.Failed() || testing.Verbose() {
				var out bytes.Buffer
				Print(&out, []*Book{b})
				t.Log(out.String())
			}
			everyRowIsNamed(t, b)
		})
	}
}

func (fx *fixture) compare(t *testing.T, b *Book) {
	var parts []*check.Part
	var kinds, unread, aside, notes []string
	for _, tab := range b.Tabs {
		kinds = append(kinds, tab.Name+": "+tab.Kind)
		for p := range tab.Parts() {
			if p.Role != check.NotAPart {
				parts = append(parts, p)
			}
		}
		for _, u := range tab.Unread {
			unread = append(unread, u.Cell.Addr+" "+u.Text+" "+u.Why)
		}
		for _, u := range tab.Aside {
			aside = append(aside, u.Cell.Addr+" "+u.Text+" "+u.Why)
		}
		notes = append(notes, tab.Notes...)
	}
	if len(fx.parts) > 0 {
		head := fx.parts[0]
		if len(parts) != len(fx.parts)-1 {
			t.Errorf("%d parts, want %d", len(parts), len(fx.parts)-1)
		}
		for i, want := range fx.parts[1:] {
			if i < len(parts) {
				comparePart(t, head, want, parts[i])
			}
		}
	}
	wantEach(t, "unread", fx.unread, unread)
	wantEach(t, "aside", fx.aside, aside)
	if fx.unread == nil && len(unread) > 0 && len(fx.parts) > 0 {
		t.Errorf("unread, want none: %q", unread)
	}
	if len(unread) > len(fx.unread) && fx.unread != nil {
		t.Errorf("%d cells unread, want %d: %q", len(unread), len(fx.unread), unread)
	}
	for _, k := range fx.kinds {
		if !contains(kinds, k) {
			t.Errorf("kinds are %q, want %q", kinds, k)
		}
	}
	for _, n := range fx.notes {
		found := false
		for _, m := range notes {
			found = found || strings.Contains(m, n)
		}
		if !found {
			t.Errorf("no note says %q: %q", n, notes)
		}
	}
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

func wantEach(t *testing.T, what string, want [][2]string, got []string) {
	for _, w := range want {
		found := false
		for _, g := range got {
			found = found || strings.HasPrefix(g, w[0]+" ") && strings.Contains(g, w[1])
		}
		if !found {
			t.Errorf("%s: want %s %q among %q", what, w[0], w[1], got)
		}
	}
}

func comparePart(t *testing.T, head, want []string, p *check.Part) {
	t.Helper()
	for len(want) < len(head) {
		want = append(want, "")
	}
	for i, f := range head {
		got := partField(p, f)
		if got == want[i] {
			continue
		}
		a, err1 := strconv.ParseFloat(got, 64)
		b, err2 := strconv.ParseFloat(want[i], 64)
		if err1 == nil && err2 == nil && math.Abs(a-b) < 5e-4 {
			continue
		}
		t.Errorf("%s (%s): %s is %q, want %q", p.Row.Addr, p.Name(), f, got, want[i])
	}
}

func partField(p *check.Part, f string) string {
	val := func(v check.Value) string {
		if !v.Known {
			return ""
		}
		return strconv.FormatFloat(v.Nominal, 'f', -1, 64)
	}
	switch f {
	case "mark":
		return p.Mark.Text
	case "desc":
		return p.Description.Text
	case "role":
		return string(p.Role)
	case "case":
		return p.Case.Text
	case "room":
		return p.Room.Text
	case "qty":
		return val(p.Qty)
	case "L":
		return val(p.Length)
	case "W":
		return val(p.Width)
	case "T":
		return val(p.Thickness)
	case "cutL":
		return val(p.CutLength)
	case "cutW":
		return val(p.CutWidth)
	case "unit":
		return p.Unit.String()
	case "size":
		return string(p.Size)
	case "mat":
		return p.Material.Text
	case "edges":
		return p.Edges.Text
	case "fin":
		return p.Finish.Text
	case "grain":
		return p.Grain.Text
	case "note":
		return p.Note.Text
	case "hand":
		return p.Hand
	case "of":
		return p.Of
	case "layers":
		if n := layerCount(p); n != nil {
			return general(*n)
		}
		return ""
	case "each": // the thickness of one layer
		if len(p.Layers) == 1 {
			return val(p.Layers[0].Thickness)
		}
		return ""
	case "intotal":
		return fmt.Sprint(p.InTotal)
	case "doubt":
		var ds []string
		for _, d := range p.Doubts {
			ds = append(ds, d.Field)
		}
		return strings.Join(ds, ",")
	case "low":
		return val(check.Exact(p.Thickness.Low))
	case "high":
		return val(check.Exact(p.Thickness.High))
	case "cell":
		return p.Row.Addr
	case "bands":
		var bs []string
		for _, e := range p.Banded {
			s := e.On
			if e.Thickness.Known {
				s += fmt.Sprintf(" %.4g", e.Thickness.Nominal)
			}
			bs = append(bs, s)
		}
		return strings.Join(bs, ", ")
	}
	return "no such field " + f
}

// everyRowIsNamed demands that every row that holds anything has a role in the picture.
func everyRowIsNamed(t *testing.T, b *Book) {
	t.Helper()
	for _, tab := range b.Tabs {
		if tab.Kind == "ignored" || tab.grid == nil {
			continue
		}
		for _, r := range tab.grid.Rows {
			if tab.roles[r.N].word == "" {
				t.Errorf("%s row %d (%s ...) is lost in silence", tab.Name, r.N, r.Cells[0].Text())
			}
		}
	}
}
