package read

import (
	"bytes"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// What the texts of a tab are, a library reads too that shares no code with this package.
func TestTextsAreThoseOfALibrary(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	check := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	_, err := f.NewSheet("words")
	check(err)
	for at, v := range map[string]any{"A1": "head", "C1": "why", "A3": 0.75, "B3": " kept \n", "D3": "TRUE", "C5": 1234567.125, "E5": "last"} {
		check(f.SetCellValue("words", at, v))
	}
	check(f.SetCellValue("Sheet1", "A1", "another tab"))
	var b bytes.Buffer
	check(f.Write(&b))
	texts, err := OpenTexts(b.Bytes())
	check(err)
	if diff := cmp.Diff([]string{"Sheet1", "words"}, texts.Tabs()); diff != "" {
		t.Error(diff)
	}
	var got [][]string
	check(texts.Rows("words", func(row []string) { got = append(got, slices.Clone(row)) }))
	want, err := f.GetRows("words", excelize.Options{RawCellValue: true})
	check(err)
	want = slices.DeleteFunc(want, func(row []string) bool { return len(row) == 0 })
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if err := texts.Rows("nowhere", func([]string) {}); err == nil {
		t.Error("a tab that is not there: no error")
	}
}
