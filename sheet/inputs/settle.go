package inputs

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"dryfit/check"
)

// Settle takes what nobody confirmed out of what was read of an input workbook: runs, and loads
// without an amount, altogether, so that they are inferred anew; a joint stays as inferred, with
// what was typed in its row. A row counts as confirmed where the column says yes, or where a
// guess in it was typed over. Tabs without the columns of ours are left as they were read. Call
// it before anything is inferred.
//
// It fails when the workbook cannot be opened.
func Settle(j *check.Job, path string, data []byte) error {
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		return fmt.Errorf("%s: not a workbook that can be opened: %w", path, err)
	}
	defer f.Close()
	open := map[string]bool{} // rows that nobody confirmed, by book, tab and row
	for _, tab := range f.GetSheetList() {
		rows, err := f.GetRows(tab)
		if err != nil {
			return fmt.Errorf("%s, tab %s: %w", path, tab, err)
		}
		n := 0
		for _, r := range unconfirmed(rows) {
			open[rowKey(check.Cell{Book: path, Tab: tab, Addr: at(1, r)})] = true
			n++
		}
		if n > 0 {
			j.Notes = append(j.Notes, fmt.Sprintf("%s: %s not confirmed yet, taken as a guess", tab, count(n, "row")))
		}
	}
	if len(open) == 0 {
		return nil
	}
	isOpen := func(c check.Cell) bool { return open[rowKey(c)] }
	j.Loads = slices.DeleteFunc(j.Loads, func(l *check.Load) bool { return isOpen(l.Row) && !l.Amount.Known })
	j.Runs = slices.DeleteFunc(j.Runs, func(r *check.Run) bool { return isOpen(r.Row) })
	settleJoints(j, path, isOpen)
	j.Unread = slices.DeleteFunc(j.Unread, func(u check.Unread) bool { return isOpen(u.Cell) })
	return nil
}

// settleJoints marks the joints of open rows as inferred, with the number of crossings that the
// schedule has today. One that nobody typed a width for goes, where the office typed joints of
// its own or the schedule has no such parts any more.
func settleJoints(j *check.Job, path string, isOpen func(check.Cell) bool) {
	elsewhere := slices.ContainsFunc(j.Joints, func(jt *check.Joint) bool { return !jt.Inferred && jt.Row.Book != path })
	defer j.Keep()() // its parts stay as they are
	var kept []*check.Joint
	for _, jt := range j.Joints {
		if !isOpen(jt.Row) {
			kept = append(kept, jt)
			continue
		}
		into, enters := meant(j, jt.Into.Text), meant(j, jt.Enters.Text)
		gone := len(into) == 0 || len(enters) == 0
		if (elsewhere || gone) && !jt.Width.Known {
			continue
		}
		jt.Inferred = true
		if !gone {
			jt.Count = check.Exact(pieces(into) * pieces(enters)).At(jt.Count.From)
		}
		jt.Count.Guessed, jt.Count.Why = true, "every shelf crosses every upright"
		kept = append(kept, jt)
	}
	j.Joints = kept
}

// meant are the parts that a joint names: by mark, by role, or by description.
func meant(j *check.Job, name string) []*check.Part {
	if p := j.Part(name); p != nil {
		return []*check.Part{p}
	}
	return j.Called(name)
}

func pieces(ps []*check.Part) float64 {
	n := 0.0
	for _, p := range ps {
		n += p.Qty.Nominal
	}
	return n
}

// rowKey names the row a cell stands in.
func rowKey(c check.Cell) string {
	return c.Book + "|" + c.Tab + "|" + strings.TrimLeft(c.Addr, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
}

// unconfirmed are the numbers of the rows of a tab that still say what dryfit filled in, without
// a yes beside it.
func unconfirmed(rows [][]string) []int {
	var out []int
	confirmed, stamp := -1, -1
	for n, cells := range rows {
		c, s := headed(cells, Confirmed), headed(cells, headStamp)
		if c >= 0 && s >= 0 {
			confirmed, stamp = c, s
			continue
		}
		if stamp < 0 || strings.TrimSpace(textAt(cells, stamp)) == "" || yes(textAt(cells, confirmed)) {
			continue
		}
		if stillSays(cells[:min(confirmed, len(cells))], textAt(cells, stamp)) {
			out = append(out, n+1)
		}
	}
	return out
}

func headed(cells []string, word string) int {
	return slices.IndexFunc(cells, func(c string) bool { return strings.EqualFold(strings.TrimSpace(c), word) })
}

func textAt(cells []string, i int) string {
	if i < 0 || i >= len(cells) {
		return ""
	}
	return cells[i]
}

// stillSays reports whether a row says the guesses of its stamp, in their order.
func stillSays(cells []string, stamp string) bool {
	for _, want := range strings.Split(stamp, " | ") {
		i := slices.IndexFunc(cells, func(c string) bool { return strings.TrimSpace(c) == want })
		if i < 0 {
			return false
		}
		cells = cells[i+1:]
	}
	return true
}

func yes(text string) bool {
	switch strings.ToLower(strings.Trim(strings.TrimSpace(text), ".!")) {
	case "yes", "y", "x", "ok", "o.k", "✓", "✔", "ja", "oui", "si", "sí", "tak", "true", "1", "right", "confirmed":
		return true
	}
	return false
}
