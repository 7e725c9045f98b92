package graft

import (
	"bytes"
	"errors"
	"fmt"
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

// TestCorpus grafts result tabs into every workbook under DRYFIT_CORPUS or, without it, into
// those made here.
func TestCorpus(t *testing.T) {
	list := hosts(t)
	if dir := os.Getenv("DRYFIT_CORPUS"); dir != "" {
		list = nil
		for _, path := range corpusFiles(t, dir) {
			data, err := os.ReadFile(path)
			must(t, err)
			list = append(list, namedHost{path, data, "?"})
		}
	}
	tabs := sampleTabs(t)
	written, refused := 0, 0
	for _, h := range list {
		out, err := Graft(h.data, tabs)
		var no *Refusal
		switch {
		case errors.As(err, &no):
			t.Logf("refused %s: %s", filepath.Base(h.name), no.Reason)
			refused++
			if h.reason == "" || h.reason != "?" && !strings.Contains(no.Reason, h.reason) {
				t.Errorf("%s: refused (%s), want %q", h.name, no.Reason, h.reason)
			}
		case err != nil:
			t.Errorf("%s: %v", h.name, err)
		default:
			written++
			if h.reason != "" && h.reason != "?" {
				t.Errorf("%s: written, want a refusal: %s", h.name, h.reason)
			}
			if err := graftedWell(h.data, out, tabs); err != nil {
				t.Errorf("%s: %v", h.name, err)
			}
		}
	}
	t.Logf("%d written, %d refused", written, refused)
	if written == 0 {
		t.Fatal("nothing was written")
	}
}

// graftedWell demands that nothing of the user's changed, that a second run changes nothing
// at all, and that our tabs can be read back.
func graftedWell(host, out []byte, tabs Tabs) error {
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
	h, err := openHost(data)
	if err != nil {
		return err
	}
	for cell, text := range map[string]string{"A1": "verdict <&>", "A12": "row 12"} {
		got, err := f.GetCellValue("dryfit", cell)
		want(cell, got, text, err)
	}
	formula, err := f.GetCellFormula("dryfit", "C12")
	want("C12", formula, "B12*2", err)
	text, err := f.GetCellValue("dryfit rows", "A2")
	want("A2", text, "rich text", err)
	if h.base() != "xl" { // the library looks for everything else in xl/ only
		return errors.Join(bad...)
	}
	for cell, text := range map[string]string{"B12": "1.500 in", "C12": "3.00"} {
		got, err := f.GetCellValue("dryfit", cell)
		want(cell, got, text, err)
	}
	notes, err := f.GetComments("dryfit")
	if err != nil || len(notes) != 1 || notes[0].Cell != "B2" {
		bad = append(bad, errors.New("the note is lost"))
	}
	pictures, err := f.GetPictures("dryfit", "E2")
	if !h.strict && (err != nil || len(pictures) != 1) { // the library does not read strict drawings
		bad = append(bad, errors.New("the picture is lost"))
	}
	link, target, err := f.GetCellHyperLink("dryfit", "A3")
	if err != nil || !link || target != "https://example.org/page?a=1&b=2" {
		bad = append(bad, errors.New("the link is lost"))
	}
	rules, err := f.GetConditionalFormats("dryfit")
	if err != nil || len(rules["B2:B12"]) != 1 || rules["B2:B12"][0].Format == nil || len(rules["C2:C12"]) != 1 {
		bad = append(bad, fmt.Errorf("the rules are lost: %v %v", rules, err))
	}
	id, err := f.GetCellStyle("dryfit", "A1")
	if err != nil {
		bad = append(bad, err)
	} else if fill := *f.Styles.CellXfs.Xf[id].FillID; f.Styles.Fills.Fill[fill].PatternFill.FgColor.RGB != "FFD8E2DC" {
		bad = append(bad, errors.New("the fill is lost"))
	}
	names := 0
	for _, n := range f.GetDefinedName() {
		if n.Scope == "dryfit" && (n.Name == "_xlnm.Print_Titles" || n.Name == "_xlnm.Print_Area" || n.Name == "_xlnm._FilterDatabase" || n.Name == Mark) {
			names++
		}
	}
	if names != 4 {
		bad = append(bad, fmt.Errorf("%d names of our tab, not 4", names))
	}
	panes, err := f.GetPanes("dryfit")
	if err != nil || !panes.Freeze || panes.YSplit != 1 {
		bad = append(bad, errors.New("the frozen pane is lost"))
	}
	return errors.Join(bad...)
}
