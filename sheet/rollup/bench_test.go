package rollup

import (
	"fmt"
	"runtime"
	"testing"
	"time"
)

// BenchmarkMake makes a roll-up of so many open rows that come one at a time, and BenchmarkRead
// reads it back; held-MB is the most that was in use at once beyond what was before.
func BenchmarkMake(b *testing.B) {
	for _, lines := range []int{10_000, 100_000} {
		b.Run(fmt.Sprint(lines), func(b *testing.B) {
			book := long(lines)
			for b.Loop() {
				reportHeld(b, func() {
					_, err := Make(book)
					must(b, err)
				})
			}
		})
	}
}

func BenchmarkRead(b *testing.B) {
	for _, lines := range []int{10_000, 100_000} {
		b.Run(fmt.Sprint(lines), func(b *testing.B) {
			data, err := Make(long(lines))
			must(b, err)
			b.ReportMetric(float64(len(data))/(1<<20), "size-MB")
			for b.Loop() {
				reportHeld(b, func() {
					_, err := Read(data, friday)
					must(b, err)
				})
			}
		})
	}
}

// long is a roll-up of so many open rows, ten a job.
func long(lines int) Book {
	book := sample()
	book.Lines = lines
	book.Rows = func(yield func(Line) bool) {
		for n := range lines {
			if !yield(line(fmt.Sprintf("%04d some job", n/10), n, monday)) {
				return
			}
		}
	}
	return book
}

func reportHeld(b *testing.B, f func()) {
	runtime.GC()
	before := inUse()
	peak, stop, ended := before, make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		for {
			peak = max(peak, inUse())
			select {
			case <-stop:
				return
			case <-time.After(10 * time.Millisecond):
			}
		}
	}()
	f()
	close(stop)
	<-ended
	b.ReportMetric(float64(peak-before)/(1<<20), "held-MB")
}

func inUse() uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapInuse
}
