package main

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"dryfit/check/catalogue"
	"dryfit/sheet/office"
)

// The cached values of the working are Go's. LibreOffice is given the same workbook without
// them, works every formula out and must come to the same numbers and words.
func TestLibreOfficeRecalculatesTheWorking(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long")
	}
	office.Find(t, "soffice", "LibreOffice")
	dir := t.TempDir()
	if err := makeShop(dir); err != nil {
		t.Fatal(err)
	}
	var files []string
	ours := map[string]map[string]string{}
	for _, path := range checkedBooks(t, dir) {
		name := fmt.Sprintf("book%d.xlsx", len(files))
		bare := filepath.Join(t.TempDir(), name)
		data := fileOf(t, path)
		ours[name] = working(t, data)
		save(t, bare, withoutValues(t, data))
		files = append(files, bare)
	}
	if len(files) < 6 {
		t.Fatalf("%d workbooks were written, want at least 6", len(files))
	}
	out := office.Convert(t, "xlsx", files...)
	n := 0
	for name, cells := range ours {
		theirs := working(t, fileOf(t, filepath.Join(out, name)))
		for at, want := range cells {
			n++
			if !agree(theirs[at], want) {
				t.Errorf("%s %s: LibreOffice %q, ours %q", name, at, theirs[at], want)
			}
		}
	}
	if n < 200 {
		t.Fatalf("only %d cells of workings were compared", n)
	}
	t.Logf("%d cells of workings agree", n)
}

// A slot widened in the schedule, inside the spreadsheet, turns the word on the working tab.
func TestTheWorkingMovesWithTheSchedule(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long")
	}
	office.Find(t, "soffice", "LibreOffice")
	dir := t.TempDir()
	if err := makeShop(dir); err != nil {
		t.Fatal(err)
	}
	checkedBooks(t, dir)
	data := fileOf(t, filepath.Join(dir, "2611 Chart room alcove", "chart room parts.xlsx"))
	before := wordOf(t, data, "fit.joint")
	if !strings.Contains(before, "HOLD") {
		t.Fatalf("fit.joint says %q, want HOLD", before)
	}
	wider := setNumber(t, withoutValues(t, data), "Joints", "F2", 1.5, 1.5+3.0/64)
	file := filepath.Join(t.TempDir(), "wider.xlsx")
	save(t, file, wider)
	out := office.Convert(t, "xlsx", file)
	after := wordOf(t, fileOf(t, filepath.Join(out, "wider.xlsx")), "fit.joint")
	if strings.Contains(after, "HOLD") || after == "" {
		t.Errorf("with a slot of 1 35/64 the working says %q, want no HOLD", after)
	}
}

// checkedBooks checks the shop in dir and returns the workbooks written.
func checkedBooks(t *testing.T, dir string) []string {
	t.Helper()
	s, places, err := find(dir)
	if err != nil {
		t.Fatal(err)
	}
	all, err := workAll(context.Background(), &s, places, options{checks: catalogue.All, write: true})
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, o := range all {
		out = append(out, o.written...)
	}
	return out
}

// working are the cells of the working tab that hold formulas, as stored.
func working(t *testing.T, data []byte) map[string]string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows("dryfit working", excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for r, row := range rows {
		for c := range row {
			at, _ := excelize.CoordinatesToCellName(c+1, r+1)
			if formula, _ := f.GetCellFormula("dryfit working", at); formula != "" {
				out[at] = row[c]
			}
		}
	}
	return out
}

// wordOf is the verdict word of the first working of a check.
func wordOf(t *testing.T, data []byte, id string) string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows("dryfit working", excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		if len(row) > 1 && strings.HasPrefix(row[1], id) && strings.Contains(row[1], ": ") {
			return row[0]
		}
	}
	return ""
}

var cached = regexp.MustCompile(`(</f>)<v>[^<]*</v>`)

// withoutValues takes the cached values of all formulas out of a workbook.
func withoutValues(t *testing.T, data []byte) []byte {
	return rewrite(t, data, func(name string, part []byte) []byte {
		if !strings.Contains(name, "worksheets/") {
			return part
		}
		return cached.ReplaceAll(part, []byte("$1"))
	})
}

// setNumber changes a plain number in a tab as a person would type it.
func setNumber(t *testing.T, data []byte, tab, cell string, from, to float64) []byte {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	was, err := f.GetCellValue(tab, cell, excelize.Options{RawCellValue: true})
	if x, numberErr := strconv.ParseFloat(was, 64); err != nil || numberErr != nil || x != from {
		t.Fatalf("%s!%s holds %q (%v), want %v", tab, cell, was, err, from)
	}
	old := fmt.Sprintf(`(<c r="%s"[^>]*><v>)[^<]*(</v>)`, cell)
	changed := 0
	out := rewrite(t, data, func(name string, part []byte) []byte {
		if !strings.Contains(name, "worksheets/") || !bytes.Contains(part, []byte(fmt.Sprintf("<v>%v</v>", from))) {
			return part
		}
		re := regexp.MustCompile(old)
		if re.Match(part) {
			changed++
		}
		return re.ReplaceAll(part, []byte(fmt.Sprintf("${1}%v${2}", to)))
	})
	if changed == 0 {
		t.Fatalf("%s!%s was not found in the parts", tab, cell)
	}
	return out
}

func rewrite(t *testing.T, data []byte, change func(string, []byte) []byte) []byte {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var buf bytes.Buffer
	out := zip.NewWriter(&buf)
	for _, entry := range in.File {
		r, err := entry.Open()
		if err != nil {
			t.Fatal(err)
		}
		part, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		w, err := out.Create(entry.Name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write(change(entry.Name, part)); err != nil {
			t.Fatal(err)
		}
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

// agree compares as numbers to 1e-9 of the larger, else as words.
func agree(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	if errX != nil || errY != nil {
		return a == b
	}
	return math.Abs(x-y) <= 1e-9*math.Max(1e-3, math.Max(math.Abs(x), math.Abs(y)))
}

func fileOf(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func save(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}
