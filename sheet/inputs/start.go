package inputs

import "fmt"

const startName = "start"

// start writes the first tab: how to use the others, and what each is for.
func (b *book) start(s *survey, tabs []*tab, withForm bool) {
	t := startName
	b.put(t, "A1", s.Name+": what is still missing", b.look.title)
	b.try(b.f.SetRowHeight(t, 1, 24))
	b.put(t, "A2", "dryfit reads what is typed here together with the schedule, on every run.", b.look.tells)
	n := 3
	for _, l := range []struct {
		part  part
		label string
		tells string
	}{
		{wanted, "type here", "A box to fill. Until then a check waits for it, or goes by a guess."},
		{maybe, "if it applies", "A box to fill where it applies; empty says nothing."},
		{found, "a guess", "Filled in by dryfit, from the schedule. It counts as a guess until you write yes beside it under \"confirmed\", or type over it. Clear the row if it is wrong."},
		{call, "call if ...", "A turning value: the reading at which the verdict turns. On the wrong side of it, call before you leave."},
	} {
		n++
		b.put(t, at(1, n), l.label, b.look.parts[l.part])
		b.put(t, at(2, n), l.tells, b.look.parts[told])
		b.try(b.f.SetRowHeight(t, n, rowHeight(wraps(l.tells, startWidth))))
	}
	n += 2
	b.put(t, at(1, n), "Tabs", b.look.head)
	b.put(t, at(2, n), "", b.look.head)
	if withForm {
		n++
		b.tabLine(n, formName, "To print and to write on: the way in, the room, and what to measure in the shop.")
	}
	for _, each := range tabs {
		n++
		b.tabLine(n, each.name, each.tells[0])
	}
	n += 2
	for _, line := range []string{
		"Print the measure form and take it along. Delete that tab and run dryfit inputs again for a fresh one.",
		"Tabs may be moved, renamed or copied into the schedule; they are known by their header words.",
		"dryfit inputs, run again, adds what is newly missing and leaves alone what you typed.",
	} {
		b.put(t, at(1, n), line, b.look.tells)
		n++
	}
	b.try(b.f.SetColWidth(t, "A", "A", 16))
	b.try(b.f.SetColWidth(t, "B", "B", startWidth))
	b.page(&tab{name: t, columns: make([]column, 2)}, 0, n)
	b.passOver(t)
}

// tabLine names a tab, with a link to it.
func (b *book) tabLine(n int, name, tells string) {
	b.put(startName, at(1, n), name, b.look.label)
	b.put(startName, at(2, n), tells, b.look.parts[told])
	b.try(b.f.SetRowHeight(startName, n, max(18, rowHeight(wraps(tells, startWidth)))))
	b.try(b.f.SetCellHyperLink(startName, at(1, n), fmt.Sprintf("'%s'!A1", name), "Location"))
}

const startWidth = 78
