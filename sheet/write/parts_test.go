package write

import (
	"archive/zip"
	"bytes"
	"io"
	"regexp"
	"strconv"
	"testing"

	"github.com/xuri/excelize/v2"
)

var brk = regexp.MustCompile(`<brk id="(\d+)"`)

// breaksOf are the rows below which a tab breaks its pages, by its part.
func breaksOf(t *testing.T, f *excelize.File, part string) []int {
	t.Helper()
	var out []int
	for _, m := range brk.FindAllSubmatch(partOf(t, f, part), -1) {
		n, err := strconv.Atoi(string(m[1]))
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, n)
	}
	return out
}

// partOf is one part of a workbook as it is saved.
func partOf(t *testing.T, f *excelize.File, name string) []byte {
	t.Helper()
	var buf bytes.Buffer
	if err := f.Write(&buf); err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(buf.Bytes()), int64(buf.Len()))
	if err != nil {
		t.Fatal(err)
	}
	r, err := z.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	data, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
