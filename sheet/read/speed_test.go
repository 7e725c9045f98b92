package read

import (
	"bytes"
	"fmt"
	"runtime"
	"strconv"
	"testing"

	"github.com/xuri/excelize/v2"
)

// bigBook makes a schedule of n rows in twelve columns, numbers and texts mixed as offices
// mix them.
func bigBook(tb testing.TB, n int) []byte {
	tb.Helper()
	f := excelize.NewFile()
	defer f.Close()
	w, err := f.NewStreamWriter("Sheet1")
	if err != nil {
		tb.Fatal(err)
	}
	row := func(i int, cells ...any) {
		if err := w.SetRow("A"+strconv.Itoa(i), cells); err != nil {
			tb.Fatal(err)
		}
	}
	row(1, "Mark", "Description", "Case", "Qty", "Length", "Width", "Thickness", "Material", "Edges", "Finish", "Grain", "Remarks")
	names := []string{"Side", "Shelf", "Top", "Bottom", "Back", "Door"}
	for i := 2; i <= n+1; i++ {
		row(i, fmt.Sprintf("P%d", i), names[i%6], fmt.Sprintf("C%d", i/20), i%5+1, 30+float64(i%500)/8, "11 1/4", .75, "birch ply", "F", "clear", "L", fmt.Sprintf("note %d", i%100))
	}
	if err := w.Flush(); err != nil {
		tb.Fatal(err)
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		tb.Fatal(err)
	}
	return out.Bytes()
}

// BenchmarkOpen compares three things on one file of 50,000 rows: excelize opening it and
// reading its rows, our grid of it, and the whole reading into parts. MiB is what stays and
// what was in use at the most, by samples at each step.
func BenchmarkOpen(b *testing.B) {
	data := bigBook(b, 50_000)
	b.Run("excelize", func(b *testing.B) {
		for b.Loop() {
			f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true})
			if err != nil {
				b.Fatal(err)
			}
			rows, err := f.Rows("Sheet1")
			if err != nil {
				b.Fatal(err)
			}
			n := 0
			for rows.Next() {
				if _, err := rows.Columns(excelize.Options{RawCellValue: true}); err != nil {
					b.Fatal(err)
				}
				n++
			}
			rows.Close()
			f.Close()
			if n != 50_001 {
				b.Fatal(n)
			}
		}
	})
	b.Run("grid", func(b *testing.B) {
		for b.Loop() {
			s, err := openSource("big.xlsx", data)
			if err != nil {
				b.Fatal(err)
			}
			g, err := s.grid(s.tabs[0])
			if err != nil || len(g.Rows) != 50_001 {
				b.Fatal(err)
			}
			b.StopTimer()
			b.ReportMetric(inUse(), "MiB")
			runtime.KeepAlive(g)
			b.StartTimer()
		}
	})
	b.Run("parts", func(b *testing.B) {
		for b.Loop() {
			book, err := Open("big.xlsx", data, nil)
			if err != nil || book.Tabs[0].parts.Len() != 50_000 {
				b.Fatal(err)
			}
			b.StopTimer()
			b.ReportMetric(inUse(), "MiB")
			runtime.KeepAlive(book)
			b.StartTimer()
		}
	})
}

// inUse is the heap that is alive, in MiB.
func inUse() float64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc) / (1 << 20)
}
