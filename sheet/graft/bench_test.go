package graft

import (
	"bytes"
	"compress/flate"
	"fmt"
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

func benchCells(styles []int, r int) []any {
	return []any{excelize.Cell{StyleID: styles[0], Value: fmt.Sprintf("A-SH%d", r)}, excelize.Cell{Value: "slot as cut"},
		excelize.Cell{StyleID: styles[1], Value: float64(r) / 64}, excelize.Cell{StyleID: styles[1], Value: float64(r) / 32},
		excelize.Cell{StyleID: styles[2], Formula: fmt.Sprintf("C%d-D%d", r, r), Value: -float64(r) / 64},
		excelize.Cell{StyleID: styles[0], Value: "CLEAR"}}
}

// benchTabs builds four tabs of 500 styled rows with the StreamWriter.
func benchTabs(b *testing.B) Tabs {
	f := excelize.NewFile()
	defer f.Close()
	styles := sampleStyles(b, f)
	must(b, f.SetSheetName("Sheet1", benchNames[0]))
	for _, name := range benchNames[1:] {
		_, err := f.NewSheet(name)
		must(b, err)
	}
	for _, name := range benchNames {
		sw, err := f.NewStreamWriter(name)
		must(b, err)
		for r := 1; r <= 500; r++ {
			must(b, sw.SetRow(fmt.Sprintf("A%d", r), benchCells(styles, r)))
		}
		must(b, sw.Flush())
	}
	tabs, err := Take(f, benchNames...)
	must(b, err)
	return tabs
}

// BenchmarkGraft compares with the library doing the same on the host itself.
func BenchmarkGraft(b *testing.B) {
	host := benchHost(b)
	tabs := benchTabs(b)
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
	run("open and read", func() {
		f, err := excelize.OpenReader(bytes.NewReader(host))
		must(b, err)
		rows, err := f.Rows("Sheet1")
		must(b, err)
		for rows.Next() {
			_, err := rows.Columns(excelize.Options{RawCellValue: true})
			must(b, err)
		}
		must(b, f.Close())
	})
	run("build tabs", func() { benchTabs(b) })
	run("graft first", func() {
		_, err := Graft(host, tabs)
		must(b, err)
	})
	run("graft unchanged", func() {
		_, err := Graft(written, tabs)
		must(b, err)
	})
	run("verify", func() { must(b, Verify(host, written)) })
	run("library cell by cell", func() { libraryAdds(b, host) })
}

// libraryAdds opens the host, adds the four tabs cell by cell and saves.
func libraryAdds(b *testing.B, host []byte) {
	f, err := excelize.OpenReader(bytes.NewReader(host))
	must(b, err)
	defer f.Close()
	styles := sampleStyles(b, f)
	for _, name := range benchNames {
		_, err := f.NewSheet(name)
		must(b, err)
		for r := 1; r <= 500; r++ {
			for c, v := range benchCells(styles, r) {
				cell, err := excelize.CoordinatesToCellName(c+1, r)
				must(b, err)
				v := v.(excelize.Cell)
				if v.Formula != "" {
					must(b, f.SetCellFormula(name, cell, v.Formula))
				} else {
					must(b, f.SetCellValue(name, cell, v.Value))
				}
				must(b, f.SetCellStyle(name, cell, cell, v.StyleID))
			}
		}
	}
	must(b, f.Write(new(bytes.Buffer)))
}

// BenchmarkLevels deflates the four tabs at each level and reports the size.
func BenchmarkLevels(b *testing.B) {
	tabs := benchTabs(b)
	for l := 1; l <= 9; l++ {
		b.Run(fmt.Sprint(l), func(b *testing.B) {
			size := 0
			for b.Loop() {
				size = 0
				for _, name := range benchNames {
					var out bytes.Buffer
					w, err := flate.NewWriter(&out, l)
					must(b, err)
					_, err = w.Write(tabs.parts[tabs.sheets[name]])
					must(b, err)
					must(b, w.Close())
					size += out.Len()
				}
			}
			b.ReportMetric(float64(size), "bytes")
		})
	}
}
