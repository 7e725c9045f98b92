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
	elsewhere := slices.ContainsFunc(j.Joints, func(jt *check.Joint) bool { return !jt.Inferred && jt.Row.Book != path })
	j.Joints = slices.DeleteFunc(j.Joints, func(jt *check.Joint) bool {
		return isOpen(jt.Row) && elsewhere && !jt.Width.Known
	})
	for _, jt := range j.Joints {
		if isOpen(jt.Row) {
			jt.Inferred = true
			jt.Count.Guessed, jt.Count.Why = true, "every shelf crosses every upright"
		}
	}
	j.Unread = slices.DeleteFunc(j.Unread, func(u check.Unread) bool { return isOpen(u.Cell) })
	return nil
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
