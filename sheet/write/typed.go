package write

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"dryfit/check"
	"dryfit/sheet/graft"
	"dryfit/sheet/read"
)

// Said is what people wrote beside one finding.
type Said struct {
	By, Why    string    // initials and reason of an acceptance
	Whom, What string    // a question
	On         time.Time // when the workbook in which it was first seen was saved
	Beside     *Stand    // the finding as the person saw it; nil: as it is now
	Before     []Past    // what it replaced, the newest first
}

// Stand is how a finding stood.
type Stand struct {
	Verdict check.Verdict
	Margin  float64
}

// Past is a word that a newer one replaced.
type Past struct {
	As [4]string `json:"as"` // as in the columns for typing
	On time.Time `json:"on"`
}

// mostBefore is how many replaced words are kept beside a finding.
const mostBefore = 6

// As is what stands in the columns for typing.
func (s Said) As() [4]string { return [4]string{s.By, s.Why, s.Whom, s.What} }

// Silent reports whether the columns for typing are empty.
func (s Said) Silent() bool { return s.As() == [4]string{} }

// Typed is what people wrote on the tabs of a workbook, by the key of its finding.
type Typed map[string]Said

// TypedHeads are the headers of the columns for typing. In the last one, which is hidden, we
// keep what a row is about and what we wrote into it, so that a word typed since is known
// from one that we put there, in any file and without any other memory.
var TypedHeads = []string{"Accept: initials", "Accept: why", "Ask: whom", "Ask: what", "kept by dryfit"}

// MeasuredHeads are the headers of the boxes for real sizes on the install tab, which are kept as
// words beside a finding are.
var MeasuredHeads = []string{"Real size", "Measured by", "With", "Remark", "kept by dryfit"}

// measuredKey begins the key of a box for a real size; no check has such an ID.
const measuredKey = "measured|"

// Measured reports whether the key is that of a box for a real size, not of a finding.
func Measured(key string) bool { return strings.HasPrefix(key, measuredKey) }

// Kept is what the hidden column holds.
type Kept struct {
	Job    string    `json:"job,omitempty"` // in a workbook about several jobs
	Key    string    `json:"key"`
	As     [4]string `json:"as"` // what we wrote into the columns for typing
	On     time.Time `json:"on,omitzero"`
	Shown  *Stand    `json:"shown,omitempty"`  // the finding beside them
	Beside *Stand    `json:"beside,omitempty"` // the finding beside which the word was typed
	Before []Past    `json:"before,omitempty"`
	First  time.Time `json:"first,omitzero"` // when the finding was first seen
}

// MarshalJSON writes the margin as text: it may be infinite.
func (s Stand) MarshalJSON() ([]byte, error) {
	return json.Marshal([]string{s.Verdict.String(), strconv.FormatFloat(s.Margin, 'g', -1, 64)})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (s *Stand) UnmarshalJSON(data []byte) error {
	var text [2]string
	if err := json.Unmarshal(data, &text); err != nil {
		return err
	}
	margin, err := strconv.ParseFloat(text[1], 64)
	if err != nil {
		return err
	}
	s.Margin = margin
	return s.Verdict.UnmarshalText([]byte(text[0]))
}

// TypedCells are the columns for typing of one row. k says what the row is about.
func TypedCells(k Kept, s Said) []Cell {
	k.As, k.On, k.Beside, k.Before = s.As(), s.On, s.Beside, s.Before
	text := k.text()
	if len(text) > mostUnits {
		k.Before = nil
		text = k.text()
	}
	if len(text) > mostUnits {
		k.As = [4]string{} // then it is taken for typed since, and still read
		text = k.text()
	}
	return []Cell{Text(s.By, TypeLook), Text(s.Why, TypeLook), Text(s.Whom, TypeLook), Text(s.What, TypeLook),
		Text(text, PlainLook)}
}

func (k Kept) text() string {
	text, err := json.Marshal(k)
	if err != nil {
		panic(err) // only a field that cannot be marshalled
	}
	return string(text)
}

// Spoken is one row that has columns for typing: what it is about, and what is written there.
type Spoken struct {
	Kept
	Said    Said
	Changed bool // typed since we wrote it
}

// SpokenRows reads the rows of a tab that have columns for typing, one after the other. Columns
// are found by their headers, so that one that somebody moved is still read.
type SpokenRows struct {
	Saved   time.Time // when the workbook was
	columns map[string]int
	heads   []string
}

// Next is what a row says; false for a header, for any other row without such columns, and for
// one whose hidden cell was damaged.
func (r *SpokenRows) Next(row []string) (Spoken, bool) {
	if over := headsIn(row); over != nil {
		r.columns, r.heads = map[string]int{}, over
		for i, h := range row {
			r.columns[h] = i
		}
		return Spoken{}, false
	}
	var cells [5]string
	for i, h := range r.heads {
		if c, ok := r.columns[h]; ok && c < len(row) {
			cells[i] = strings.TrimSpace(row[c])
		}
	}
	var k Kept
	if json.Unmarshal([]byte(cells[4]), &k) != nil || k.Key == "" {
		return Spoken{}, false
	}
	as := [4]string(cells[:4])
	return Spoken{k, k.said(as, r.Saved), as != trimmed(k.As)}, true
}

// headsIn are the headers of the columns for typing that a row holds; nil if it is no header.
func headsIn(row []string) []string {
	for _, heads := range [][]string{TypedHeads, MeasuredHeads} {
		if slices.Contains(row, heads[0]) && slices.Contains(row, heads[4]) {
			return heads
		}
	}
	return nil
}

// said is what a row says: the word that we wrote, or one typed since.
func (k Kept) said(as [4]string, saved time.Time) Said {
	s := Said{By: as[0], Why: as[1], Whom: as[2], What: as[3], On: k.On, Beside: k.Beside, Before: k.Before}
	if as == trimmed(k.As) {
		return s
	}
	s.On, s.Beside = saved, k.Shown
	s.Before = past(k.Before, Past{k.As, k.On})
	return s
}

func trimmed(as [4]string) [4]string {
	for i := range as {
		as[i] = strings.TrimSpace(as[i])
	}
	return as
}

// past puts a replaced word before older ones, once.
func past(older []Past, p Past) []Past {
	if p.As == [4]string{} || slices.ContainsFunc(older, func(o Past) bool { return o.As == p.As && o.On.Equal(p.On) }) {
		return older
	}
	out := append([]Past{p}, older...)
	slices.SortStableFunc(out, func(a, b Past) int { return b.On.Compare(a.On) })
	return out[:min(len(out), mostBefore)]
}

// ReadTyped reads what people wrote on our tabs of a workbook, by the key of the finding or of the
// box. saved is when the workbook was. A workbook without our tabs gives nothing.
func ReadTyped(host []byte, saved time.Time) (Typed, error) {
	ours, err := graft.Ours(host)
	if err != nil || !slices.Contains(ours, TabFlagged) {
		return nil, err
	}
	return readTabs(host, saved, ours)
}

// ReadAlone is ReadTyped for a workbook that we made as a whole.
func ReadAlone(book []byte, saved time.Time) (Typed, error) {
	return readTabs(book, saved, []string{TabFlagged, TabInstall})
}

func readTabs(book []byte, saved time.Time, ours []string) (Typed, error) {
	texts, err := read.OpenTexts(book)
	if err != nil {
		return nil, fmt.Errorf("reading what was typed: %w", err)
	}
	out := Typed{}
	there := texts.Tabs()
	for _, tab := range []string{TabFlagged, TabInstall} {
		if !slices.Contains(ours, tab) || !slices.Contains(there, tab) {
			continue
		}
		rows := SpokenRows{Saved: saved}
		err := texts.Rows(tab, func(row []string) {
			if s, ok := rows.Next(row); ok {
				out.hear(s.Key, s.Said)
			}
		})
		if err != nil {
			return nil, fmt.Errorf("reading what was typed: %w", err)
		}
	}
	return out, nil
}

// Hear takes in what was written in another place: the newest word on a finding stands, the
// others are kept behind it.
func (t Typed) Hear(other Typed) {
	for _, key := range slices.Sorted(maps.Keys(other)) {
		t.hear(key, other[key])
	}
}

func (t Typed) hear(key string, s Said) {
	old, known := t[key]
	switch {
	case s.On.IsZero() && s.Silent(): // nobody ever wrote there
		return
	case !known:
		t[key] = s
		return
	}
	newer, older := s, old
	if c := cmp.Or(s.On.Compare(old.On), slices.Compare(asList(s), asList(old))); c < 0 {
		newer, older = old, s
	}
	for _, p := range slices.Backward(older.Before) {
		newer.Before = past(newer.Before, p)
	}
	if older.As() != newer.As() {
		newer.Before = past(newer.Before, Past{older.As(), older.On})
	} else if !older.On.IsZero() {
		newer.On, newer.Beside = older.On, older.Beside // the same word, known since then
	}
	t[key] = newer
}

func asList(s Said) []string { as := s.As(); return as[:] }

// Words are the acceptances, and the questions where nothing was accepted, for the checks.
// Initials without a reason do not count.
func (t Typed) Words() map[string]check.Acceptance {
	out := map[string]check.Acceptance{}
	for k, s := range t {
		if Measured(k) {
			continue
		}
		on := ""
		if !s.On.IsZero() {
			on = s.On.UTC().Format(time.RFC3339)
		}
		if s.By != "" && s.Why != "" {
			a := check.Acceptance{By: s.By, Why: s.Why, On: on, Fresh: s.Beside == nil}
			if s.Beside != nil {
				a.Worst, a.Margin = s.Beside.Verdict, s.Beside.Margin
			}
			out[k] = a
		} else if s.Whom != "" {
			out[k] = check.Acceptance{By: s.Whom, Why: s.What, On: on, Ask: true}
		}
	}
	return out
}
