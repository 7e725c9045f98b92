package rollup

import (
	"fmt"
	"maps"
	"net/url"
	"path"
	"slices"
	"strings"
	"time"

	"dryfit/check"
	"dryfit/sheet/graft"
	"dryfit/sheet/write"
)

// Make makes the workbook anew. Its tabs are known as ours when they are to be replaced.
func Make(b Book) ([]byte, error) {
	tabs, err := write.Assemble(b.pages()...)
	if err != nil {
		return nil, err
	}
	return graft.New(tabs)
}

// Into puts the tabs into a roll-up in which somebody has tabs of their own.
func Into(host []byte, b Book) ([]byte, error) {
	made, err := into(host, b.pages())
	if err != nil {
		return nil, err
	}
	return made, graft.Verify(host, made)
}

// Refresh puts a new front and history into a roll-up that Make made; its other tabs stay.
func Refresh(host []byte, front Front, history []Run) ([]byte, error) {
	return into(host, []*write.Page{front.page(), historyPage(history)})
}

func into(host []byte, pages []*write.Page) ([]byte, error) {
	tabs, err := write.Assemble(pages...)
	if err != nil {
		return nil, err
	}
	return graft.Graft(host, tabs)
}

func (b Book) pages() []*write.Page {
	return []*write.Page{b.Front.page(), b.openPage(), b.jobsPage(), historyPage(b.History), b.checksPage(), b.wordsPage()}
}

// table begins a tab that is one table: a title, a purpose, the header.
func table(name, title, purpose string, widths []float64, heads ...string) *write.Page {
	p := write.NewPage(name, title, purpose)
	p.Wide, p.Widths = true, widths
	var cells []write.Cell
	for _, h := range heads {
		cells = append(cells, write.Text(h, write.HeadLook))
	}
	row := p.Add(cells...)
	p.Heights[row] = 32
	p.Frozen, p.Repeated = row, fmt.Sprintf("%d:%d", row, row)
	return p
}

// close sets what covers the whole table, which has so many columns to print.
func closeTable(p *write.Page, columns, rows int) *write.Page {
	last := max(len(p.Rows)+rows, p.Frozen+1)
	p.Filter = fmt.Sprintf("A%d:%s", p.Frozen, write.At(columns, last))
	p.Area = "A1:" + write.At(columns, last)
	return p
}

// Headers that are read back.
const (
	headVerdict = "Verdict"
	headJob     = "Job"
	headWhere   = "Where"
	headText    = "What is wrong"
	headFix     = "What clears it"
	headCell    = "Cell"
	headBook    = "Workbook"
	headCheck   = "Check"
	headSince   = "Since"
)

func (b Book) openPage() *write.Page {
	heads := append([]string{headVerdict, headJob, headWhere, headText, headFix, headCell, headSince, headCheck, headBook}, write.TypedHeads...)
	p := table(TabOpen, "Every open row", "New ones first, accepted ones last. To accept, type your initials and a reason; to ask, a name and a question. Here, on the first page or in the job: the newest stands.",
		[]float64{15, 22, 16, 46, 36, 16, 11, 18, 22, 9, 20, 10, 20, 8}, heads...)
	p.Hidden = [2]int{len(heads), len(heads)}
	p.Later = func(yield func([]write.Cell) bool) {
		for l := range b.Rows {
			if !yield(b.openCells(l)) {
				return
			}
		}
	}
	return closeTable(p, len(heads)-1, b.Lines)
}

func (b Book) openCells(l Line) []write.Cell {
	day := write.BodyLook
	day.Format, day.Centre = dayFormat, true
	return append([]write.Cell{
		l.verdict(l.IsNew(b.Since)), write.Text(l.Job, write.BodyLook), write.Text(l.Where, write.BodyLook), write.Text(l.Text, write.BodyLook),
		write.Text(l.Fix, write.BodyLook), l.jump(), write.Date(l.First, day), write.Text(l.ID, write.BodyLook), write.Text(l.Book, write.BodyLook),
	}, l.typed()...)
}

const dayFormat = "d mmm yyyy"

// verdict is the word, and what else the reader must know at once.
func (l Line) verdict(isNew bool) write.Cell {
	m := write.Shown(l.Stand.Verdict)
	look := m.Look()
	look.Wrap = true
	text := m.Word()
	switch {
	case l.Fate == Accepted:
		text += "\naccepted"
	case l.Fate == Asked:
		text += "\nasked"
	case l.Fate == Lapsed:
		text += "\nworse: word lapsed"
	case l.Fate == Shared:
		text += "\nwants a reason of its own"
	case isNew:
		text += "\nnew"
	}
	return write.Text(text, look)
}

func (l Line) typed() []write.Cell {
	return write.TypedCells(write.Kept{Job: l.Job, Key: l.Key, First: l.First, Shown: &l.Stand}, l.Said)
}

// jump is a formula that leads to the cell: there may be more of them than a tab holds links.
func (l Line) jump() write.Cell {
	if l.Book == "" {
		return write.Text(l.Cell, write.BodyLook)
	}
	to := "#" + l.Link
	if l.Link == "" {
		to = ""
	}
	shown := l.Cell
	if shown == "" {
		shown = path.Base(l.Book)
	}
	c := write.Text(shown, write.LinkLook)
	const longest = 255 // letters of a text in a formula
	if len(l.Book)+len(to) <= longest {
		c.Formula = fmt.Sprintf("HYPERLINK(%s,%s)", quoted(l.Book+to), quoted(shown))
	}
	return c
}

func quoted(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }

// target is the link to the cell, as a URL relative to the root.
func (l Line) target() string {
	u := (&url.URL{Path: l.Book}).EscapedPath()
	if l.Link != "" {
		u += "#" + l.Link
	}
	return u
}

func (b Book) jobsPage() *write.Page {
	p := table(TabJobs, "Jobs", "Active jobs, soonest first. Dates and stages come from the jobs tab of the shop's standards.",
		[]float64{15, 34, 12, 12, 13, 9, 9, 9, 9, 9, 9, 60, 8},
		headVerdict, headJob, "Cut", "Ship", "Stage", "To stop", "To verify", "Not checked", "Accepted", "Asked", "New", "Could not be read, or not be written", hidden)
	p.Hidden = [2]int{13, 13}
	p.Later = func(yield func([]write.Cell) bool) {
		for j := range b.AllJobs {
			if !yield(j.cells()) {
				return
			}
		}
	}
	return closeTable(p, 12, b.Jobs)
}

func (j Job) cells() []write.Cell {
	day, count := write.BodyLook, write.BodyLook
	day.Format, day.Centre, count.Format, count.Centre = dayFormat, true, "0", true
	cells := []write.Cell{j.verdict(), write.Text(j.Name, write.BodyLook), write.Date(j.Cut, day), write.Date(j.Ship, day), write.Text(j.Stage, write.BodyLook)}
	for _, n := range []int{j.Hold, j.Verify, j.NotChecked, j.Accepted, j.Asked, j.New} {
		if n == 0 {
			cells = append(cells, write.Text("", write.BodyLook))
			continue
		}
		cells = append(cells, write.Number(float64(n), count))
	}
	says := j.Notes
	if j.Fault != "" {
		says = append([]string{j.Fault}, says...)
	}
	return append(cells, write.Text(strings.Join(says, "\n"), write.BodyLook), keep(digest{j.Name, j.Digest}))
}

// verdict of a job that could not be read says so instead.
func (j Job) verdict() write.Cell {
	if !j.Read {
		look := write.BodyLook
		look.Bold = true
		return write.Text("✕ NOT READ", look)
	}
	m := write.Shown(j.Verdict)
	return write.Text(m.Word(), m.Look())
}

func historyPage(history []Run) *write.Page {
	heads := []string{"Ran", "Took", "Jobs", "Unchanged", "Not active", "Not read", "HOLD", "VERIFY", "NOT CHECKED", "CLEAR", "New", "Older", "Gone", "Accepted", "Asked", "dryfit", hidden}
	widths := append([]float64{18}, slices.Repeat([]float64{10.5}, len(heads)-1)...)
	p := table(TabHistory, "Runs", "One line a run, the newest first. Verdicts count jobs; new, older, gone, accepted and asked count rows.", widths, heads...)
	p.Hidden = [2]int{len(heads), len(heads)}
	when, count := write.BodyLook, write.BodyLook
	when.Format, when.Centre, count.Format, count.Centre = "d mmm yyyy hh:mm", true, "0", true
	for _, r := range history {
		cells := []write.Cell{write.Date(r.At, when), write.Text(took(r.Took), write.BodyLook)}
		for _, n := range []int{r.Jobs, r.Unchanged, r.Resting, r.Faults, r.Verdicts[check.Hold], r.Verdicts[check.Verify],
			r.Verdicts[check.NotChecked], r.Verdicts[check.Clear], r.New, r.Old, r.Ended, r.Accepted, r.Asked} {
			cells = append(cells, write.Number(float64(n), count))
		}
		p.Add(append(cells, write.Text(r.Version, write.BodyLook), keep(r))...)
	}
	return closeTable(p, len(heads)-1, 0)
}

// took writes a duration for a reader.
func took(d time.Duration) string {
	switch {
	case d < time.Second:
		return "under 1 s"
	case d < 2*time.Minute:
		return fmt.Sprintf("%.0f s", d.Seconds())
	case d < 2*time.Hour:
		return fmt.Sprintf("%.0f min", d.Minutes())
	}
	return fmt.Sprintf("%.1f h", d.Hours())
}

func (b Book) checksPage() *write.Page {
	heads := []string{headCheck, "Open", "Accepted", "Asked", "Mended", "Gone by itself", "Left with the job", "Of 10 that ended, mended", hidden}
	p := table(TabChecks, "What became of the findings", "One line a check. Many accepted and few mended: the check asks too much of this shop; look at its values in the standards.",
		[]float64{26, 11, 11, 11, 11, 14, 14, 16, 8}, heads...)
	p.Hidden = [2]int{len(heads), len(heads)}
	count := write.BodyLook
	count.Format, count.Centre = "0", true
	for _, id := range slices.Sorted(maps.Keys(b.Checks)) {
		o := b.Checks[id]
		cells := []write.Cell{write.Text(id, write.BodyLook)}
		for _, n := range []int{o.Open, o.Accepted, o.Asked, o.Mended, o.Itself, o.Left} {
			cells = append(cells, write.Number(float64(n), count))
		}
		share := write.Text("", write.BodyLook)
		if all := o.Mended + o.Itself + o.Accepted; all > 0 {
			share = write.Number(10*float64(o.Mended)/float64(all), count)
		}
		p.Add(append(cells, share, keep(ended{id, o.Ended}))...)
	}
	return closeTable(p, len(heads)-1, 0)
}

func (b Book) wordsPage() *write.Page {
	p := table(TabWords, "Words", "Every word that stands beside a finding, or stood there until a newer one came. This tab is only for reading.",
		[]float64{13, 24, 20, 28, 14, 44, 16}, "Noticed", headJob, headCheck, "About", "Who", "What", "What became of it")
	day := write.BodyLook
	day.Format, day.Centre = dayFormat, true
	for _, w := range b.Words {
		parts := strings.SplitN(w.Key, "|", 2)
		about := ""
		if len(parts) > 1 {
			about = strings.Trim(strings.ReplaceAll(parts[1], "|", " "), " ")
		}
		who, what := w.As[0], w.As[1]
		if who == "" && w.As[2]+w.As[3] != "" {
			who, what = w.As[2], "asked: "+w.As[3]
		}
		p.Tall(p.Add(write.Date(w.On, day), write.Text(w.Job, write.BodyLook), write.Text(parts[0], write.BodyLook), write.Text(about, write.BodyLook),
			write.Text(who, write.BodyLook), write.Text(what, write.BodyLook), write.Text(w.Fate, write.BodyLook)), 18)
	}
	return closeTable(p, 7, 0)
}
