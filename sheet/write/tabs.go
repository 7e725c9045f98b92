package write

import (
	"fmt"

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
	TabInstall  = "dryfit install"
)

// Tabs makes the result tabs of a report for one workbook of the job. host is the path by
// which the cells of that workbook are named: only they can be linked to. typed is what
// people wrote in the columns meant for typing the last time.
func Tabs(rep *check.Report, host, version string, typed Typed) (graft.Tabs, error) {
	defer rep.Job.Keep()()
	at := newPlaces(rep)
	w := working(rep, host, at)
	first, err := front(rep, host, version)
	if err != nil {
		return nil, err
	}
	pages := []*Page{
		first,
		flagged(rep, host, w, at, typed),
		rows(rep, host, at),
		coverage(rep, at),
		w.Page,
	}
	if p := install(rep, typed); p != nil {
		pages = append(pages, p)
	}
	return Assemble(pages...)
}

// Alone makes a workbook that holds nothing but the result tabs, to stand beside one that
// must be left alone. Nothing in it can be linked to the schedule.
func Alone(rep *check.Report, version string, typed Typed) ([]byte, error) {
	tabs, err := Tabs(rep, "", version, typed)
	if err != nil {
		return nil, err
	}
	return graft.New(tabs)
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
	return Quote(c.Tab) + "!" + c.Addr
}
