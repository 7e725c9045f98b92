package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"dryfit/check"
	"dryfit/check/catalogue"
	"dryfit/sheet/draft"
	"dryfit/sheet/graft"
	"dryfit/sheet/write"
	"dryfit/watch"
)

// longJob writes a job of 300 rows, sound but for one mark, and returns its workbook.
func longJob(b *testing.B) string {
	b.Helper()
	var text strings.Builder
	text.WriteString("== Parts\nMark | Part | Case | Qty | L | W | T | Material | Finish\n")
	for i := range 300 {
		kinds := []string{"Side | %s | 2 | 74 | 15 | 3/4 | MDF | paint", "Top and bottom | %s | 2 | 55 | 15 | 3/4 | MDF | paint",
			"Divider | %s | 1 | 72 1/2 | 14 1/2 | 3/4 | MDF | paint", "Adj. shelf | %s | 10 | 26 7/8 | 14 | 3/4 | birch ply | clear",
			"Back | %s | 1 | 73 | 47 | 1/4 | birch ply | none"}
		fmt.Fprintf(&text, "K%d | "+kinds[i%5]+"\n", i+1, fmt.Sprintf("Bay %d", i/5+1))
	}
	data, err := draft.Workbook(text.String())
	if err != nil {
		b.Fatal(err)
	}
	path := filepath.Join(b.TempDir(), "job", "list.xlsx")
	if err := create(path, data); err != nil {
		b.Fatal(err)
	}
	return path
}

// BenchmarkJob is one job of 300 rows end to end: open, read, check, write. Its first write
// makes the tabs; the runs after it replace them.
func BenchmarkJob(b *testing.B) {
	path := longJob(b)
	clean, err := os.ReadFile(path)
	if err != nil {
		b.Fatal(err)
	}
	s, places, err := find(path)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	reportPeak(b)
	for b.Loop() {
		if err := os.WriteFile(path, clean, 0o644); err != nil {
			b.Fatal(err)
		}
		if o := work(context.Background(), s, places[0], options{checks: catalogue.All, write: true}); o.err != nil || len(o.written) != 1 {
			b.Fatal(o.err, o.notes)
		}
	}
}

// BenchmarkJobAgain is the same job another time: the tabs stand in its workbook and are read
// too, for what people typed there, and nothing of them changes.
func BenchmarkJobAgain(b *testing.B) {
	s, places, err := find(longJob(b))
	must(b, err)
	b.ReportAllocs()
	for b.Loop() {
		must(b, work(context.Background(), s, places[0], options{checks: catalogue.All, write: true}).err)
	}
}

// BenchmarkStages is BenchmarkJob taken apart: a metric is the least milliseconds that a stage
// took, which other work on the machine blurs less than the mean.
func BenchmarkStages(b *testing.B) {
	path := longJob(b)
	clean, err := os.ReadFile(path)
	must(b, err)
	s, places, err := find(path)
	must(b, err)
	least := map[string]time.Duration{}
	keep := func(name string, since time.Time) {
		took := time.Since(since)
		if before, known := least[name]; !known || took < before {
			least[name] = took
		}
	}
	stage := func(name string, f func()) {
		start := time.Now()
		f()
		keep(name, start)
	}
	for b.Loop() {
		must(b, os.WriteFile(path, clean, 0o644))
		start := time.Now()
		out := outcome{place: places[0]}
		var books []book
		var job *check.Job
		var tabs graft.Tabs
		var made []byte
		stage("read", func() {
			books, job, err = understand(s, places[0], &out)
			must(b, err)
			out.hear(books, nil)
		})
		stage("check", func() { out.report = check.Examine(catalogue.All, job, out.typed.Words()) })
		stage("build", func() {
			tabs, err = write.Tabs(out.report, path, version, out.typed)
			must(b, err)
		})
		stage("graft", func() {
			made, err = graft.Graft(books[0].data, tabs)
			must(b, err)
		})
		stage("verify", func() { must(b, graft.Verify(books[0].data, made)) })
		stage("put", func() {
			_, err = watch.Replace(context.Background(), watch.Change{Root: s.root, Path: path, Was: watch.Sum(books[0].data), New: made})
			must(b, err)
		})
		keep("all", start)
	}
	for name, d := range least {
		b.ReportMetric(float64(d.Microseconds())/1000, name+"-ms")
	}
}

// reportPeak adds the most memory that the process had in use at once during the benchmark,
// where the system tells.
func reportPeak(b *testing.B) {
	const status = "/proc/self/status"
	runtime.GC()
	debug.FreeOSMemory()
	if os.WriteFile("/proc/self/clear_refs", []byte("5"), 0) != nil { // the peak begins anew
		return
	}
	b.Cleanup(func() {
		text, err := os.ReadFile(status)
		if err != nil {
			return
		}
		_, rest, _ := strings.Cut(string(text), "VmHWM:")
		var kilobytes float64
		if _, err := fmt.Sscan(rest, &kilobytes); err == nil {
			b.ReportMetric(kilobytes/1024, "peak-MB")
		}
	})
}

// BenchmarkBareWorkbook is what a library alone takes to open the same workbook, read it, add
// four tabs of 500 styled rows cell by cell and save it.
func BenchmarkBareWorkbook(b *testing.B) {
	path := longJob(b)
	out := filepath.Join(b.TempDir(), "out.xlsx")
	b.ReportAllocs()
	reportPeak(b)
	for b.Loop() {
		f, err := excelize.OpenFile(path)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := f.GetRows("Parts"); err != nil {
			b.Fatal(err)
		}
		style, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
		if err != nil {
			b.Fatal(err)
		}
		for tab := range 4 {
			name := fmt.Sprintf("tab %d", tab)
			if _, err := f.NewSheet(name); err != nil {
				b.Fatal(err)
			}
			for row := range 500 {
				for col := range 8 {
					at, _ := excelize.CoordinatesToCellName(col+1, row+1)
					if err := f.SetCellValue(name, at, fmt.Sprintf("row %d", row)); err != nil {
						b.Fatal(err)
					}
					if err := f.SetCellStyle(name, at, at, style); err != nil {
						b.Fatal(err)
					}
				}
			}
		}
		if err := f.SaveAs(out); err != nil {
			b.Fatal(err)
		}
		f.Close()
	}
}
