package rollup

import (
	"fmt"
	"strings"
	"time"

	"dryfit/check"
	"dryfit/sheet/write"
)

var sectionLook = write.Look{Ink: write.Ink, Bold: true, Size: 12}

// frontHeads are the headers of the lines on the front, before the columns for typing.
var frontHeads = []string{headVerdict, headJob, headWhere, "What is wrong, and what clears it", headCell}

// page is the one that is printed: what ran, what could not be read, the jobs that come first,
// what is new, and what is older.
func (f Front) page() *write.Page {
	r := f.Run
	p := write.NewPage(TabFront, "Roll-up of "+f.Root, f.ran())
	p.Wide, p.OnePage = true, true
	p.Widths = []float64{16, 25, 23, 66, 18, 9, 20, 10, 20, 8}
	p.Hidden = [2]int{len(p.Widths), len(p.Widths)}
	f.tally(p)
	f.faults(p)
	f.jobs(p)
	f.lines(p, f.new(), f.New, r.New)
	f.lines(p, plural(r.Old, "older row")+" still open", f.Old, r.Old)
	f.folded(p)
	p.Area = "A1:" + write.At(len(p.Widths)-1, len(p.Rows))
	return p
}

// ran says when the results were made, and by what.
func (f Front) ran() string {
	r := f.Run
	when := r.At.Format("Monday 2 January 2006, 15:04")
	if r.Kind == "watch" {
		return fmt.Sprintf("Kept true by the watch, last on %s. Written at least once a day. dryfit %s.", when, r.Version)
	}
	return fmt.Sprintf("Ran %s, took %s. dryfit %s.", when, took(r.Took), r.Version)
}

func (f Front) new() string {
	since := "the last run"
	if f.Run.Kind == "watch" {
		since = f.Run.Since.Format("Monday 2 January, 15:04")
	}
	says := "Nothing new since " + since
	if f.Run.New > 0 {
		says = plural(f.Run.New, "new row") + " since " + since
	}
	if f.Run.Ended > 0 {
		says += ", " + plural(f.Run.Ended, "row") + " gone"
	}
	return says
}

// tally is the strip under the title. It tells a run that found nothing from none.
func (f Front) tally(p *write.Page) {
	r := f.Run
	read := fmt.Sprintf("%s read", plural(r.Jobs-f.notRead(), "job"))
	if r.Unchanged > 0 {
		read += fmt.Sprintf(" (%d unchanged since the last run)", r.Unchanged)
	}
	read += "."
	if r.Resting > 0 {
		read += fmt.Sprintf(" %d not active or shipped, not looked at.", r.Resting)
	}
	switch {
	case r.Jobs == 0:
		read += " NO JOB WAS FOUND: is this the right folder, and is its disk connected?"
	case r.Faults == 0:
		read += " Every workbook would open."
	default:
		read += fmt.Sprintf(" %s with a workbook that would not open.", strings.ToUpper(plural(r.Faults, "job")))
	}
	row := p.Add(write.Text(read, write.Look{Ink: write.Ink, Bold: true, Size: 11, Wrap: true}))
	p.Merges = append(p.Merges, fmt.Sprintf("A%d:%s", row, write.At(9, row)))
	p.Tall(row, 20)
	var words []string
	for _, v := range []check.Verdict{check.Hold, check.Verify, check.NotChecked, check.Clear} {
		words = append(words, fmt.Sprintf("%s %d", write.Shown(v).Word(), r.Verdicts[v]))
	}
	row = p.Add(write.Text("Jobs:   "+strings.Join(words, "     "), write.Look{Ink: write.Ink, Size: 11}))
	p.Heights[row] = 18
}

func (f Front) notRead() int {
	n := f.Run.Jobs
	for _, k := range f.Run.Verdicts {
		n -= k
	}
	return n
}

func (f Front) faults(p *write.Page) {
	if f.Run.Faults == 0 {
		return
	}
	section(p, "Would not open", f.Run.Faults, len(f.Faults), TabJobs)
	for _, j := range f.Faults {
		row := wide(p, 3, 9, j.verdict(), write.Text(j.Name, write.BodyLook), write.Text(j.Fault, write.BodyLook))
		p.Tall(row, 18)
	}
}

// wide adds a row whose last cell runs from one column to another, and returns its number.
func wide(p *write.Page, from, to int, cells ...write.Cell) int {
	for range to - from {
		cells = append(cells, write.Cell{Look: write.BodyLook})
	}
	row := p.Add(cells...)
	p.Merges = append(p.Merges, write.At(from, row)+":"+write.At(to, row))
	return row
}

// section is a heading; it says where the rest is if not all is shown.
func section(p *write.Page, text string, all, shown int, tab string) {
	p.Heights[p.Add()] = 8
	row := p.Add(write.Text(text, sectionLook))
	p.Heights[row] = 18
	if all > shown {
		more := fmt.Sprintf("the first %d of %d; all on the tab %q", shown, all, tab)
		p.Rows[row-1] = append(p.Rows[row-1], write.Cell{}, write.Cell{}, write.Text(more, write.Look{Ink: write.Faint, Size: 9, Link: true}))
		p.Links = append(p.Links, write.Link{At: write.At(4, row), To: write.Quote(tab) + "!A1", Tip: "all of them"})
	}
}

func (f Front) jobs(p *write.Page) {
	if len(f.Jobs) == 0 {
		return
	}
	head := "Jobs, soonest first"
	if f.Jobs[0].Due().IsZero() {
		head = "Jobs by name: no dates given"
	}
	section(p, head, f.Run.Jobs, len(f.Jobs), TabJobs)
	for _, j := range f.Jobs {
		row := wide(p, 4, 5, j.verdict(), write.Text(j.Name, write.BodyLook), write.Text(j.dates(), write.BodyLook), write.Text(j.says(f.Run.At), write.BodyLook))
		p.Tall(row, 18)
	}
}

// dates says when the job is due.
func (j Job) dates() string {
	var words []string
	for _, d := range []struct {
		what string
		day  time.Time
	}{{"cut", j.Cut}, {"ship", j.Ship}} {
		if !d.day.IsZero() {
			words = append(words, d.what+" "+d.day.Format("2 Jan"))
		}
	}
	return strings.Join(words, ", ")
}

// says tells in one line how the job stands; a date that has passed comes first.
func (j Job) says(now time.Time) string {
	var words []string
	if due := j.Due(); !due.IsZero() && due.AddDate(0, 0, 1).Before(now) {
		words = append(words, "date has passed")
	}
	for _, n := range []struct {
		n    int
		what string
	}{{j.Hold, "to stop"}, {j.Verify, "to verify"}, {j.NotChecked, "not checked"}, {j.Accepted, "accepted"}, {j.Asked, "asked"}, {j.New, "new"}} {
		if n.n > 0 {
			words = append(words, fmt.Sprintf("%d %s", n.n, n.what))
		}
	}
	if j.Fault != "" {
		words = append(words, "a workbook would not open")
	}
	if j.Fault == "" && j.Counts == (Counts{}) {
		words = append(words, "nothing open")
	}
	return strings.Join(words, ", ")
}

func (f Front) lines(p *write.Page, head string, lines []Line, all int) {
	if all == 0 && head != f.new() {
		return
	}
	section(p, head, all, len(lines), TabOpen)
	if len(lines) == 0 {
		return
	}
	var heads []write.Cell
	for _, h := range append(append([]string{}, frontHeads...), write.TypedHeads...) {
		heads = append(heads, write.Text(h, write.HeadLook))
	}
	p.Heights[p.Add(heads...)] = 30
	for _, l := range lines {
		says := l.Text
		if l.Fix != "" {
			says += "\n→ " + l.Fix
		}
		row := len(p.Rows) + 1
		cell := write.Text(l.Cell, write.BodyLook)
		if l.Book != "" {
			if l.Cell == "" {
				cell = write.Text("open", write.BodyLook)
			}
			cell.Look = write.LinkLook
			p.Links = append(p.Links, write.Link{At: write.At(5, row), To: l.target(), Tip: l.Book, Outside: true})
		}
		cells := []write.Cell{l.verdict(false), write.Text(l.Job, write.BodyLook), write.Text(l.Where, write.BodyLook), write.Text(says, write.BodyLook), cell}
		p.Tall(p.Add(append(cells, l.typed()...)...), 18)
	}
}

// folded counts what somebody has answered, and names the oldest questions.
func (f Front) folded(p *write.Page) {
	r := f.Run
	if r.Accepted+r.Asked == 0 {
		return
	}
	section(p, fmt.Sprintf("%d accepted, %d asked", r.Accepted, r.Asked), r.Accepted+r.Asked, len(f.Asked), TabOpen)
	for _, l := range f.Asked {
		row := wide(p, 4, 5, write.Text("asked "+ago(l.Said.On, r.At), write.BodyLook), write.Text(l.Job, write.BodyLook), write.Text(l.Said.Whom, write.BodyLook),
			write.Text(l.Said.What+" ("+l.Text+")", write.BodyLook))
		p.Tall(row, 18)
	}
}

// ago says how many days lie between two moments.
func ago(then, now time.Time) string {
	day := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC) }
	n := int(day(now).Sub(day(then.In(now.Location()))).Hours() / 24)
	if n < 1 {
		return "today"
	}
	return plural(n, "day") + " ago"
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
