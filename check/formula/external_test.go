package formula

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

// TestSpreadsheetYieldsValueOfFile has LibreOffice load the printed formulas, work them out
// and save. The formulas are written without values, so nothing can be handed through.
func TestSpreadsheetYieldsValueOfFile(t *testing.T) {
	soffice, err := exec.LookPath("soffice")
	if err != nil {
		if os.Getenv("DRYFIT_REQUIRE_EXTERNAL") == "1" {
			t.Fatal("soffice (LibreOffice) is not installed, and DRYFIT_REQUIRE_EXTERNAL=1 demands it")
		}
		t.Skip("soffice (LibreOffice) is not installed")
	}
	lines := readLines(t)
	book, cells := sheetWith(t, lines)
	defer book.Close()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "formulas.xlsx"), filepath.Join(dir, "out")
	if err := book.SaveAs(in); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 3*time.Minute)
	defer cancel()
	convert := exec.CommandContext(ctx, soffice, "-env:UserInstallation=file://"+filepath.ToSlash(filepath.Join(dir, "profile")),
		"--headless", "--convert-to", "xlsx", "--outdir", out, in)
	if said, err := convert.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	worked, err := excelize.OpenFile(filepath.Join(out, "formulas.xlsx"), excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	defer worked.Close()
	for i, l := range lines {
		kind, err := worked.GetCellType("working", cells[i])
		if err != nil {
			t.Fatal(err)
		}
		text, err := worked.GetCellValue("working", cells[i])
		if kind == excelize.CellTypeBool && err == nil {
			text = map[string]string{"0": "FALSE", "1": "TRUE"}[text]
		}
		compareEngine(t, "LibreOffice", l, asWritten(text, err))
	}
}
