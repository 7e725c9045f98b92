package graft

import (
	"bytes"
	"compress/flate"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// benchHost is a schedule of 300 rows.
func benchHost(b *testing.B) []byte {
	f := excelize.NewFile()
	defer f.Close()
	for r := 1; r <= 300; r++ {
		row := []any{fmt.Sprintf("A-SH%d", r), "adjustable shelf", r % 7, 30.5, 11.25, 0.75, "birch ply", "front edge", "two coats"}
		must(b, f.SetSheetRow("Sheet1", fmt.Sprintf("A%d", r), &row))
	}
	var out bytes.Buffer
	must(b, f.Write(&out))
	return out.Bytes()
}

var benchNames = []string{"dryfit", "dryfit flagged", "dryfit rows", "dryfit working"}

// benchSheet is a tab of 500 rows in three formats.
func benchSheet() string {
	const head, length, typed = 1, 2, 3
	var b strings.Builder
	fmt.Fprintf(&b, `<worksheet xmlns="%s"><sheetData>`, nsMain)
	for r := 1; r <= 500; r++ {
		fmt.Fprintf(&b, `<row r="%[1]d"><c r="A%[1]d" s="%[2]d" t="inlineStr"><is><t>A-SH%[1]d</t></is></c><c r="B%[1]d" t="inlineStr"><is><t>slot as cut</t></is></c><c r="C%[1]d" s="%[3]d"><v>%[5]g</v></c><c r="D%[1]d" s="%[3]d"><v>%[6]g</v></c>`+
			`<c r="E%[1]d" s="%[4]d"><f>C%[1]d-D%[1]d</f><v>%[7]g</v></c><c r="F%[1]d" s="%[2]d" t="inlineStr"><is><t>CLEAR</t></is></c></row>`, r, head, length, typed, float64(r)/64, float64(r)/32, -float64(r)/64)
	}
	b.WriteString(`</sheetData></worksheet>`)
	return b.String()
}

func BenchmarkGraft(b *testing.B) {
	host := benchHost(b)
	text := benchSheet()
	tabs := plainTabs(benchNames...)
	for i := range tabs {
		tabs[i].Write = func(w io.Writer, _ *Place) error {
			_, err := io.WriteString(w, text)
			return err
		}
	}
	written, err := Graft(host, tabs)
	must(b, err)
	run := func(name string, f func()) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				f()
			}
		})
	}
	run("first", func() {
		_, err := Graft(host, tabs)
		must(b, err)
	})
	run("unchanged", func() {
		_, err := Graft(written, tabs)
		must(b, err)
	})
	run("verify", func() { must(b, Verify(host, written)) })
}

// BenchmarkLevels deflates a tab at each level and reports the size.
func BenchmarkLevels(b *testing.B) {
	text := []byte(benchSheet())
	for l := 1; l <= 9; l++ {
		b.Run(fmt.Sprint(l), func(b *testing.B) {
			size := 0
			b.SetBytes(int64(len(text)))
			w, err := flate.NewWriter(nil, l)
			must(b, err)
			for b.Loop() {
				var out bytes.Buffer
				w.Reset(&out)
				_, err = w.Write(text)
				must(b, err)
				must(b, w.Close())
				size = out.Len()
			}
			b.ReportMetric(float64(size), "bytes")
		})
	}
}
