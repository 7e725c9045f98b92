package rollup

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"dryfit/check"
	"dryfit/sheet/graft"
	"dryfit/sheet/write"
)

// hidden is the header of the column in which a row that nobody types into keeps what it says.
const hidden = "kept by dryfit"

type ended struct {
	ID string `json:"id"`
	Ended
}

type digest struct {
	Job string `json:"job"`
	Sum string `json:"sum"`
}

func keep(x any) write.Cell {
	text, err := json.Marshal(x)
	if err != nil {
		panic(err) // only a field that cannot be marshalled
	}
	return write.Text(string(text), write.PlainLook)
}

// Past is what a roll-up holds from earlier runs, and what people typed into it.
type Past struct {
	Lines   map[string]map[string]Line // by job and key
	Typed   map[string]write.Typed     // by job: the newest of what stands on its tabs
	Changed map[string]bool            // jobs beside which something was typed since it was written
	Digests map[string]string          // by job
	History []Run
	Ended   map[string]Ended // by check
	Foreign bool             // somebody put tabs of their own into it
}

// Read reads a roll-up back; saved is when it was. Rows and columns are known by header and
// hidden cell, so that people may sort, filter and move them.
func Read(data []byte, saved time.Time) (Past, error) {
	p := Past{Lines: map[string]map[string]Line{}, Typed: map[string]write.Typed{}, Changed: map[string]bool{}, Digests: map[string]string{}, Ended: map[string]Ended{}}
	ours, err := graft.Ours(data)
	if err != nil {
		return p, err
	}
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true})
	if err != nil {
		return p, fmt.Errorf("reading the roll-up: %w", err)
	}
	defer f.Close()
	p.Foreign = len(f.GetSheetList()) > len(ours)
	for _, tab := range ours {
		rows, err := f.GetRows(tab)
		if err != nil {
			return p, fmt.Errorf("reading the roll-up, tab %q: %w", tab, err)
		}
		p.take(tab, rows, saved)
	}
	return p, nil
}

func (p *Past) take(tab string, rows [][]string, saved time.Time) {
	switch tab {
	case TabFront:
		p.hear(write.ReadSpoken(rows, saved))
	case TabOpen:
		p.hear(write.ReadSpoken(rows, saved))
		p.takeLines(rows, saved)
	case TabHistory:
		p.History = takeKept[Run](rows)
	case TabJobs:
		for _, d := range takeKept[digest](rows) {
			p.Digests[d.Job] = d.Sum
		}
	case TabChecks:
		for _, e := range takeKept[ended](rows) {
			p.Ended[e.ID] = e.Ended
		}
	}
}

func (p *Past) hear(spoken []write.Spoken) {
	for _, s := range spoken {
		if p.Typed[s.Job] == nil {
			p.Typed[s.Job] = write.Typed{}
		}
		p.Typed[s.Job].Hear(write.Typed{s.Key: s.Said})
		p.Changed[s.Job] = p.Changed[s.Job] || s.Changed
	}
}

func (p *Past) takeLines(rows [][]string, saved time.Time) {
	columns := map[string]int{}
	for _, row := range rows {
		if slices.Contains(row, headVerdict) && slices.Contains(row, hidden) {
			for i, h := range row {
				columns[h] = i
			}
			continue
		}
		get := func(head string) string {
			if i, ok := columns[head]; ok && i < len(row) {
				return row[i]
			}
			return ""
		}
		var k write.Kept
		if json.Unmarshal([]byte(get(hidden)), &k) != nil || k.Key == "" {
			continue
		}
		l := Line{Job: k.Job, Key: k.Key, ID: get(headCheck), Where: get(headWhere), Text: get(headText), Fix: get(headFix),
			Book: get(headBook), Cell: get(headCell), First: k.First}
		if k.Shown != nil {
			l.Stand = *k.Shown
		}
		l.Link = linkTo(l.Cell)
		l.Fate = fate(get(headVerdict))
		if p.Lines[l.Job] == nil {
			p.Lines[l.Job] = map[string]Line{}
		}
		p.Lines[l.Job][l.Key] = l
	}
}

func fate(verdict string) Fate {
	switch {
	case strings.HasSuffix(verdict, "accepted"):
		return Accepted
	case strings.HasSuffix(verdict, "asked"):
		return Asked
	case strings.HasSuffix(verdict, "lapsed"):
		return Lapsed
	case strings.HasSuffix(verdict, "of its own"):
		return Shared
	}
	return Open
}

// LinkTo is a cell written as Tab!E14 as a place that a link leads to.
func LinkTo(c check.Cell) string {
	if c.Tab == "" || c.Addr == "" {
		return ""
	}
	return write.Quote(c.Tab) + "!" + c.Addr
}

func linkTo(cell string) string {
	at := strings.LastIndex(cell, "!")
	if at < 0 {
		return ""
	}
	return LinkTo(check.Cell{Tab: cell[:at], Addr: cell[at+1:]})
}

// takeKept reads what the rows of a tab keep in their hidden cells.
func takeKept[T any](rows [][]string) []T {
	var out []T
	at := -1
	for _, row := range rows {
		if i := slices.Index(row, hidden); i >= 0 {
			at = i
			continue
		}
		var x T
		if at >= 0 && at < len(row) && json.Unmarshal([]byte(row[at]), &x) == nil {
			out = append(out, x)
		}
	}
	return out
}

// With adds what a second roll-up holds, which was written beside the first while that was open.
// The one that ran later is right about the lines.
func (p Past) With(q Past) Past {
	if len(p.History) == 0 || len(q.History) > 0 && q.History[0].At.After(p.History[0].At) {
		p, q = q, p
	}
	if p.Typed == nil {
		return p
	}
	for job, typed := range q.Typed {
		if p.Typed[job] == nil {
			p.Typed[job] = write.Typed{}
		}
		p.Typed[job].Hear(typed)
		p.Changed[job] = p.Changed[job] || q.Changed[job]
	}
	p.Foreign = p.Foreign || q.Foreign
	return p
}
