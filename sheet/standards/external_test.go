package standards

import (
	"bytes"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"dryfit/check/standard"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// soffice finds LibreOffice, or skips the test; with DRYFIT_REQUIRE_EXTERNAL=1 its absence
// is a failure.
func soffice(t *testing.T) string {
	t.Helper()
	program, err := exec.LookPath("soffice")
	if err != nil {
		if os.Getenv("DRYFIT_REQUIRE_EXTERNAL") == "1" {
			t.Fatal("LibreOffice (soffice) is wanted and not installed")
		}
		t.Skip("LibreOffice (soffice) is not installed")
	}
	return program
}

// LibreOffice opens the workbook and saves it with its drop-downs, notes, values and the
// figures of the calibration tab.
func TestLibreOfficeKeepsTheWorkbook(t *testing.T) {
	if testing.Short() {
		t.Skip("starts LibreOffice")
	}
	program := soffice(t)
	draft := measuredPly(readings)
	draft.Words = []standard.Word{{Kind: "material", Text: "GRN", Means: "MDF"}}
	data := workbook(t, standard.BuiltIn(), draft, func(f *excelize.File) {
		tab, cell := place(t, f, "cutting", "saw", "kerf", "our value")
		typeIn(t, f, tab, cell, .11)
	})
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "shop.xlsx"), data, 0o644); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(dir, "out")
	cmd := exec.Command(program, "-env:UserInstallation=file://"+filepath.Join(dir, "profile"), "--headless",
		"--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", out, filepath.Join(dir, "shop.xlsx"))
	if text, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("soffice: %v: %s", err, text)
	}
	kept, err := os.ReadFile(filepath.Join(out, "shop.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	before, after := mustRead(t, data), mustRead(t, kept)
	if d := cmp.Diff(before, after); d != "" {
		t.Error(d)
	}
	a, _ := excelize.OpenReader(bytes.NewReader(data))
	b, err := excelize.OpenReader(bytes.NewReader(kept))
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(a.GetSheetList(), b.GetSheetList()); d != "" {
		t.Fatal(d)
	}
	for _, tab := range a.GetSheetList() {
		if d := cmp.Diff(lists(t, a, tab), lists(t, b, tab)); d != "" {
			t.Errorf("%s, drop-downs: %s", tab, d)
		}
		if d := cmp.Diff(notes(t, a, tab), notes(t, b, tab)); d != "" {
			t.Errorf("%s, notes: %s", tab, d)
		}
	}
	for cell, want := range map[string]string{"B7": "10", "B8": "0.7200", "B9": "0.0018"} {
		if got, err := b.GetCellValue(measureTab, cell); err != nil || got != want {
			t.Errorf("%s!%s is %q, want %q", measureTab, cell, got, want)
		}
	}
}

// lists gives the drop-downs of a tab by their first cell.
func lists(t *testing.T, f *excelize.File, tab string) map[string]string {
	t.Helper()
	validations, err := f.GetDataValidations(tab)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	for _, v := range validations {
		found[v.Sqref] = html.UnescapeString(v.Formula1)
	}
	return found
}

func notes(t *testing.T, f *excelize.File, tab string) map[string]string {
	t.Helper()
	comments, err := f.GetComments(tab)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	for _, c := range comments {
		text := c.Text
		for _, run := range c.Paragraph {
			text += run.Text
		}
		found[c.Cell] = text
	}
	return found
}
