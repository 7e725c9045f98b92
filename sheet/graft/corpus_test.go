package graft

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// corpusFiles are the workbooks under DRYFIT_CORPUS.
func corpusFiles(t testing.TB, dir string) []string {
	t.Helper()
	var files []string
	must(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		ext := strings.ToLower(filepath.Ext(path))
		if err == nil && d.Type().IsRegular() && (ext == ".xlsx" || ext == ".xlsm") {
			files = append(files, path)
		}
		return err
	}))
	slices.Sort(files)
	return files
}

// TestCorpus grafts result tabs into every workbook under DRYFIT_CORPUS.
func TestCorpus(t *testing.T) {
	dir := os.Getenv("DRYFIT_CORPUS")
	if dir == "" {
		t.Skip("DRYFIT_CORPUS names no folder of workbooks")
	}
	tabs := sampleTabs(t)
	written, refused := 0, 0
	for _, path := range corpusFiles(t, dir) {
		host, err := os.ReadFile(path)
		must(t, err)
		out, err := Graft(host, tabs)
		var no *Refusal
		if errors.As(err, &no) {
			t.Logf("refused %s: %s", filepath.Base(path), no.Reason)
			refused++
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", path, err)
			continue
		}
		if err := graftedWell(t, host, out, tabs); err != nil {
			t.Errorf("%s: %v", path, err)
		}
		written++
	}
	t.Logf("%d written, %d refused", written, refused)
	if written == 0 {
		t.Fatalf("nothing under %s was written", dir)
	}
}

// graftedWell demands that nothing of the user's changed, that a second run changes nothing
// at all, and that our tabs can be read back.
func graftedWell(t testing.TB, host, out []byte, tabs Tabs) error {
	if err := Verify(host, out); err != nil {
		return err
	}
	again, err := Graft(out, tabs)
	if err != nil {
		return err
	}
	if !bytes.Equal(again, out) {
		return errors.New("a second run gives other bytes")
	}
	if err := Verify(out, again); err != nil {
		return err
	}
	return readBack(out)
}

func readBack(data []byte) error {
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		return err
	}
	defer f.Close()
	var bad []error
	want := func(what, got, want string, err error) {
		if err != nil {
			bad = append(bad, err)
		} else if got != want {
			bad = append(bad, errors.New(what+" reads "+got+", not "+want))
		}
	}
	for cell, text := range map[string]string{"A1": "verdict <&>", "B12": "1.500 in", "C12": "3.00"} {
		got, err := f.GetCellValue("dryfit", cell)
		want(cell, got, text, err)
	}
	formula, err := f.GetCellFormula("dryfit", "C12")
	want("C12", formula, "B12*2", err)
	text, err := f.GetCellValue("dryfit rows", "A2")
	want("A2", text, "rich text", err)
	notes, err := f.GetComments("dryfit")
	if err != nil || len(notes) != 1 || notes[0].Cell != "B2" {
		bad = append(bad, errors.New("the note is lost"))
	}
	panes, err := f.GetPanes("dryfit")
	if err != nil || !panes.Freeze || panes.YSplit != 1 {
		bad = append(bad, errors.New("the frozen pane is lost"))
	}
	return errors.Join(bad...)
}
