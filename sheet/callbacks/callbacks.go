// Package callbacks reads what went wrong with a finished job: a tab with a row for each thing
// that somebody was called back for. It knows header words and nothing of checks.
package callbacks

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"dryfit/check"
)

// Callback is one thing that went wrong.
type Callback struct {
	Row   check.Cell
	Case  string // as the schedule calls it; empty for the whole job
	Marks []string
	What  string // in the words of whoever was there
	Check string // the check that ought to have told, or its room; empty if unsaid
}

// heads are the header words, by what stands below them.
var heads = map[string]string{
	"case": "case", "unit": "case", "room": "case", "opening": "case", "cabinet": "case", "where": "case",
	"mark": "mark", "part": "mark", "piece": "mark", "marks": "mark", "parts": "mark",
	"what happened": "what", "what went wrong": "what", "went wrong": "what", "callback": "what", "problem": "what",
	"trouble": "what", "complaint": "what", "fault": "what", "defect": "what",
	"check": "check", "check id": "check", "which check": "check",
}

// none are the words of a row that says that nothing went wrong.
var none = map[string]bool{"none": true, "nothing": true, "no callbacks": true, "no callback": true, "ok": true, "o.k.": true, "-": true, "n/a": true}

// searched is how many rows from the top a header may stand.
const searched = 30

// limits on a workbook that people type, in bytes when unpacked.
const (
	mostUnpacked = 256 << 20
	mostTab      = 64 << 20
)

// Read finds the tabs of callbacks in a workbook by their header words: what happened, beside a
// case or a mark. found is false where there is none; a tab without a row, or whose only row
// says none, is found and says that nothing went wrong. It fails when the workbook cannot be
// opened.
func Read(path string, data []byte) (list []Callback, found bool, err error) {
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: mostUnpacked, UnzipXMLSizeLimit: mostTab})
	if err != nil {
		return nil, false, fmt.Errorf("%s: not a workbook that can be opened: %w", path, err)
	}
	defer f.Close()
	for _, tab := range f.GetSheetList() {
		rows, err := f.GetRows(tab)
		if err != nil {
			return nil, false, fmt.Errorf("%s, tab %s: %w", path, tab, err)
		}
		for n, cells := range rows[:min(searched, len(rows))] {
			if cols, ok := header(cells); ok {
				found = true
				list = append(list, readRows(check.Cell{Book: path, Tab: tab}, rows, n+1, cols)...)
				break
			}
		}
	}
	return list, found, nil
}

// header finds the columns of a row of header words; false where it is none of callbacks.
func header(cells []string) (map[string]int, bool) {
	cols := map[string]int{}
	for i, c := range cells {
		field := heads[plain(c)]
		if _, taken := cols[field]; field != "" && !taken {
			cols[field] = i
		}
	}
	_, what := cols["what"]
	_, casing := cols["case"]
	_, mark := cols["mark"]
	return cols, what && (casing || mark)
}

func readRows(at check.Cell, rows [][]string, from int, cols map[string]int) []Callback {
	var out []Callback
	for n := from; n < len(rows); n++ {
		text := func(field string) string {
			if i, ok := cols[field]; ok && i < len(rows[n]) {
				return strings.TrimSpace(rows[n][i])
			}
			return ""
		}
		what := text("what")
		if what == "" && text("check") == "" || none[plain(what)] {
			continue
		}
		at.Addr, _ = excelize.CoordinatesToCellName(cols["what"]+1, n+1)
		out = append(out, Callback{Row: at, Case: text("case"), Marks: marks(text("mark")), What: what, Check: plain(text("check"))})
	}
	return out
}

// marks parts "M3, M4 + M5".
func marks(text string) []string {
	var out []string
	for _, m := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",;+/&", r) }) {
		if m = strings.TrimSpace(m); m != "" && m != "-" {
			out = append(out, m)
		}
	}
	return out
}

// plain is a text in lower case with single blanks.
func plain(text string) string {
	return strings.ToLower(strings.Join(strings.Fields(strings.Trim(text, " .:*?")), " "))
}
