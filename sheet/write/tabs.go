package write

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"dryfit/check"
	"dryfit/sheet/graft"
)

// Names of the result tabs, in their order.
const (
	TabFront    = "dryfit"
	TabFlagged  = "dryfit flagged"
	TabRows     = "dryfit rows"
	TabCoverage = "dryfit coverage"
	TabWorking  = "dryfit working"
)

// Tabs makes the result tabs of a report for one workbook of the job. host is the path by
// which the cells of that workbook are named: only they can be linked to. typed is what
// people wrote in the columns meant for typing the last time.
func Tabs(rep *check.Report, host, version string, typed Typed) (graft.Tabs, error) {
	w := working(rep, host)
	pages := []*page{
		front(rep, host, version, w),
		flagged(rep, host, w, typed),
		rows(rep, host),
		coverage(rep),
		w.page,
	}
	f := excelize.NewFile()
	defer f.Close()
	st := &styles{f: f, at: map[look]int{}}
	var names []string
	for _, p := range pages {
		if err := p.build(f, st); err != nil {
			return graft.Tabs{}, fmt.Errorf("result tabs: %w", err)
		}
		names = append(names, p.name)
	}
	if err := f.DeleteSheet("Sheet1"); err != nil {
		return graft.Tabs{}, err
	}
	return graft.Take(f, names...)
}

// place writes a cell for a reader: with the file only if it is not the one at hand.
func place(c check.Cell, host string) string {
	if c.Book != host && c.Book != "" {
		return fmt.Sprintf("%s, %s", base(c.Book), c)
	}
	return c.String()
}

// target is the link to a cell of the workbook at hand, empty for any other.
func target(c check.Cell, host string) string {
	if c.Book != host || c.Addr == "" {
		return ""
	}
	return quote(c.Tab) + "!" + c.Addr
}
