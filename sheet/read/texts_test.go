package read

import (
	"bytes"
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
	for at, v := range map[string]any{"A1": "head", "C1": "why", "A3": 0.75, "B3": " kept \n", "D3": true, "C5": 1234567.125, "E5": "last"} {
		check(f.SetCellValue("words", at, v))
	}
	check(f.SetCellValue("Sheet1", "A1", "another tab"))
	var b bytes.Buffer
	check(f.Write(&b))
	got, err := Texts(b.Bytes(), "words", "nowhere")
	check(err)
	want, err := f.GetRows("words", excelize.Options{RawCellValue: true})
	check(err)
	for i := range want {
		if len(want[i]) == 0 {
			want[i] = nil
		}
		for j := range want[i] {
			if want[i][j] == "1" && i == 2 && j == 3 {
				want[i][j] = "TRUE" // as the cell shows it
			}
		}
	}
	if diff := cmp.Diff(map[string][][]string{"words": want}, got); diff != "" {
		t.Error(diff)
	}
}
