package rollup

import (
	"fmt"
	"runtime"
	"testing"
	"time"
)

// BenchmarkMake makes a roll-up of so many open rows that come one at a time; held-MB is the most
// that was in use at once beyond what was before, less the workbook itself. It should hardly
// grow with the rows.
func BenchmarkMake(b *testing.B) {
	for _, lines := range []int{10_000, 100_000} {
		b.Run(fmt.Sprint(lines), func(b *testing.B) {
			book := sample()
			book.Lines = lines
			book.Rows = func(yield func(Line) bool) {
				for n := range lines {
					if !yield(line(fmt.Sprintf("%04d some job", n/10), n, monday)) {
						return
					}
				}
			}
			for b.Loop() {
				runtime.GC()
				before := inUse()
				peak, stop := before, make(chan struct{})
				ended := make(chan struct{})
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
				data, err := Make(book)
				must(b, err)
				close(stop)
				<-ended
				b.ReportMetric(float64(peak-before-uint64(len(data)))/(1<<20), "held-MB")
				b.ReportMetric(float64(len(data))/(1<<20), "made-MB")
			}
		})
	}
}

func inUse() uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapInuse
}
