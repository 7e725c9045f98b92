package main

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

// benchJobs makes a root of jobs, each with one workbook of so many rows. Every eighth job has
// a row that fails.
func benchJobs(b *testing.B, jobs, rows int) string {
	b.Helper()
	root := b.TempDir()
	var text strings.Builder
	text.WriteString(partsHead)
	for i := range rows {
		fmt.Fprintf(&text, "S%d | Shelf | %d | %d 1/2 | 11 1/4 | 3/4 | 3/4 MDF\n", i+1, 1+i%3, 20+i%24)
	}
	sound := bookOf(b, text.String())
	wrong := bookOf(b, text.String()+"W1 | Bench slab | 1 | 40 | 14 | 2 1/4 | 2 x 3/4 MDF\n")
	for i := range jobs {
		path := filepath.Join(root, fmt.Sprintf("%05d some job", i), "list.xlsx")
		must(b, os.MkdirAll(filepath.Dir(path), 0o755))
		data := sound
		if i%8 == 0 {
			data = wrong
		}
		must(b, os.WriteFile(path, data, 0o644))
	}
	return root
}

// bareWalk is what any program that looks at all jobs must do at the least.
func bareWalk(b *testing.B, root string) {
	files := 0
	must(b, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasPrefix(d.Name(), ".") {
			return fs.SkipDir
		}
		if err == nil && !d.IsDir() {
			_, err = d.Info()
			files++
		}
		return err
	}))
}

// BenchmarkUnchanged holds a night over 10,000 unchanged jobs against a bare walk with a stat
// of each file; the metric "walks" is how many of these it takes, and "best" the same for the
// fastest of each, which other work on the machine disturbs least.
func BenchmarkUnchanged(b *testing.B) {
	root := benchJobs(b, 10_000, 6)
	nightOver(b, root) // writes
	nightOver(b, root) // proves by hash what it wrote
	nightOver(b, root) // nothing is new any more
	var walks, nights []time.Duration
	for b.Loop() {
		start := time.Now()
		bareWalk(b, root)
		walks = append(walks, time.Since(start))
		start = time.Now()
		nightOver(b, root)
		nights = append(nights, time.Since(start))
	}
	b.ReportMetric(float64(sumUp(nights))/float64(sumUp(walks)), "walks")
	b.ReportMetric(float64(slices.Min(nights))/float64(slices.Min(walks)), "best")
	b.ReportMetric(float64(slices.Min(walks).Microseconds())/1000, "walk-ms")
}

func sumUp(list []time.Duration) (sum time.Duration) {
	for _, d := range list {
		sum += d
	}
	return sum
}

// BenchmarkChanged holds a night over 1,000 changed jobs of 300 rows against excelize opening,
// reading, adding the tabs' cells to and saving the same workbooks one after the other, divided
// by the cores; the metric "share" is the part of that time it takes.
func BenchmarkChanged(b *testing.B) {
	const jobs = 1000
	var bare, night time.Duration
	for b.Loop() {
		b.StopTimer()
		root := benchJobs(b, jobs, 300)
		sample := filepath.Join(root, "00001 some job", "list.xlsx")
		start := time.Now()
		for range 20 {
			bareExcelize(b, sample)
		}
		bare += time.Since(start) * jobs / 20 / time.Duration(runtime.NumCPU())
		b.StartTimer()
		start = time.Now()
		nightOver(b, root)
		night += time.Since(start)
	}
	b.ReportMetric(float64(night)/float64(bare), "share")
	b.ReportMetric(bare.Seconds()/float64(b.N), "bare-s")
}

// bareExcelize opens, reads, adds as many cells as the result tabs hold, and saves.
func bareExcelize(b *testing.B, path string) {
	f, err := excelize.OpenFile(path)
	must(b, err)
	defer f.Close()
	rows, err := f.GetRows("Parts")
	must(b, err)
	for _, tab := range []string{"front", "flagged", "rows", "coverage", "working"} {
		_, err := f.NewSheet(tab)
		must(b, err)
		for r, row := range rows {
			for c, text := range row {
				at, _ := excelize.CoordinatesToCellName(c+1, r+1)
				must(b, f.SetCellStr(tab, at, text))
			}
		}
	}
	_, err = f.WriteTo(io.Discard)
	must(b, err)
}

// BenchmarkMemory gives the greatest heap in use during a night over changed jobs; it should be
// the same for ten times the jobs.
func BenchmarkMemory(b *testing.B) {
	for _, jobs := range []int{1000, 10_000} {
		b.Run(fmt.Sprint(jobs), func(b *testing.B) {
			for b.Loop() {
				b.StopTimer()
				root := benchJobs(b, jobs, 6)
				runtime.GC()
				stop, peak := watchHeap()
				b.StartTimer()
				nightOver(b, root)
				stop()
				b.ReportMetric(float64(*peak)/(1<<20), "peak-MB")
			}
		})
	}
}

func watchHeap() (stop func(), peak *uint64) {
	peak = new(uint64)
	done, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		var m runtime.MemStats
		for {
			runtime.ReadMemStats(&m)
			*peak = max(*peak, m.HeapInuse)
			select {
			case <-done:
				return
			case <-time.After(20 * time.Millisecond):
			}
		}
	}()
	return func() { close(done); <-ended }, peak
}
