package rollup

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"dryfit/check"
	"dryfit/sheet/graft"
	"dryfit/sheet/read"
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
func Read(data []byte, saved time.Time) (Past, error) { return readAll(data, saved, (*Past).taker) }

// ReadWords reads only the runs and what people typed since the roll-up was written: all that
// who remembers the rest must know. Little is held, however many lines there are.
func ReadWords(data []byte, saved time.Time) (Past, error) {
	return readAll(data, saved, (*Past).wordTaker)
}

func readAll(data []byte, saved time.Time, taker func(p *Past, tab string, saved time.Time) func(row []string)) (Past, error) {
	p := Past{Lines: map[string]map[string]Line{}, Typed: map[string]write.Typed{}, Changed: map[string]bool{}, Digests: map[string]string{}, Ended: map[string]Ended{}}
	ours, err := graft.Ours(data)
	if err != nil {
		return p, err
	}
	texts, err := read.OpenTexts(data)
	if err != nil {
		return p, fmt.Errorf("reading the roll-up: %w", err)
	}
	p.Foreign = len(texts.Tabs()) > len(ours)
	for _, tab := range ours {
		take := taker(&p, tab, saved)
		if take == nil {
			continue
		}
		if err := texts.Rows(tab, take); err != nil {
			return p, fmt.Errorf("reading the roll-up: %w", err)
		}
	}
	return p, nil
}

// taker takes in the rows of a tab, one after the other; nil if nothing of it is wanted.
func (p *Past) taker(tab string, saved time.Time) func(row []string) {
	spoken := write.SpokenRows{Saved: saved}
	switch tab {
	case TabFront:
		return func(row []string) {
			if s, ok := spoken.Next(row); ok {
				p.hear(s)
			}
		}
	case TabOpen:
		lines := openRows{past: p}
		return func(row []string) {
			lines.header(row)
			if s, ok := spoken.Next(row); ok {
				p.hear(s)
				lines.take(row, s.Kept)
			}
		}
	case TabHistory:
		return takeKept(func(r Run) { p.History = append(p.History, r) })
	case TabJobs:
		return takeKept(func(d digest) { p.Digests[d.Job] = d.Sum })
	case TabChecks:
		return takeKept(func(e ended) { p.Ended[e.ID] = e.Ended })
	}
	return nil
}

// wordTaker takes in what was typed since, and the runs.
func (p *Past) wordTaker(tab string, saved time.Time) func(row []string) {
	switch tab {
	case TabFront, TabOpen:
		spoken := write.SpokenRows{Saved: saved}
		return func(row []string) {
			if s, ok := spoken.Next(row); ok && s.Changed {
				p.hear(s)
			}
		}
	case TabHistory:
		return p.taker(tab, saved)
	}
	return nil
}

func (p *Past) hear(s write.Spoken) {
	if p.Typed[s.Job] == nil {
		p.Typed[s.Job] = write.Typed{}
	}
	p.Typed[s.Job].Hear(write.Typed{s.Key: s.Said})
	p.Changed[s.Job] = p.Changed[s.Job] || s.Changed
}

// openRows takes in the rows of the tab of the open rows.
type openRows struct {
	past    *Past
	columns map[string]int
}

func (o *openRows) header(row []string) {
	if slices.Contains(row, headVerdict) && slices.Contains(row, hidden) {
		o.columns = map[string]int{}
		for i, h := range row {
			o.columns[h] = i
		}
	}
}

func (o *openRows) take(row []string, k write.Kept) {
	get := func(head string) string {
		if i, ok := o.columns[head]; ok && i < len(row) {
			return row[i]
		}
		return ""
	}
	l := Line{Job: k.Job, Key: k.Key, ID: get(headCheck), Where: get(headWhere), Text: get(headText), Fix: get(headFix),
		Book: get(headBook), Cell: get(headCell), First: k.First}
	if k.Shown != nil {
		l.Stand = *k.Shown
	}
	l.Link = linkTo(l.Cell)
	l.Fate = fate(get(headVerdict))
	lines := o.past.Lines
	if lines[l.Job] == nil {
		lines[l.Job] = map[string]Line{}
	}
	lines[l.Job][l.Key] = l
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

// takeKept takes in what the rows of a tab keep in their hidden cells.
func takeKept[T any](take func(T)) func(row []string) {
	at := -1
	return func(row []string) {
		if i := slices.Index(row, hidden); i >= 0 {
			at = i
			return
		}
		var x T
		if at >= 0 && at < len(row) && json.Unmarshal([]byte(row[at]), &x) == nil {
			take(x)
		}
	}
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
