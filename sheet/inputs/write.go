package inputs

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/xuri/excelize/v2"

	"dryfit/check"
)

// nameEnd is what the name of an input workbook ends in.
const nameEnd = " inputs.xlsx"

// Path is where the input workbook of a schedule stands: beside it, under its name.
func Path(schedule string) string {
	return strings.TrimSuffix(schedule, filepath.Ext(schedule)) + nameEnd
}

// Write makes the input workbook for what a job still lacks. old is the input workbook that is
// there already, nil for none: then what is newly lacking is added, below the last row or as a
// new tab, and no cell that holds anything is touched. done says what was written, a line a
// tab; where nothing is lacking that is not asked for yet, it is empty and the bytes are those
// of old.
//
// old is saved by the spreadsheet library, not grafted: its cells keep their content and their
// look, not their bytes. Write fails when old cannot be opened, or when a cell of it did not
// come through unchanged.
func Write(rep *check.Report, old []byte) (data []byte, done []string, err error) {
	s := newSurvey(rep)
	defer s.Keep()()
	tabs, page := s.plan(), s.form()
	if old != nil {
		return update(s, tabs, page, old)
	}
	if len(tabs) == 0 {
		return nil, nil, nil
	}
	b, err := newBook(excelize.NewFile(), s)
	if err != nil {
		return nil, nil, err
	}
	defer b.f.Close()
	b.try(b.f.SetSheetName("Sheet1", startName))
	b.start(s, tabs, page != nil)
	if page != nil {
		b.form(page)
		done = append(done, formSays)
	}
	for _, t := range tabs {
		b.add(t)
		done = append(done, t.says())
	}
	data, err = b.bytes()
	return data, done, err
}

func newBook(f *excelize.File, s *survey) (*book, error) {
	look, err := makeLooks(f)
	return &book{f: f, job: s.Name, metric: s.metric(), look: look}, err
}

const formSays = formName + ": to print"

// says tells what of a tab was written.
func (t *tab) says() string {
	boxes, guesses := 0, 0
	for _, r := range t.rows {
		for i, c := range r.cells {
			switch {
			case c.part == found:
				guesses++
			case c.part == wanted && t.columns[i].head != Confirmed:
				boxes++
			}
		}
	}
	text := fmt.Sprintf("%s: %s", t.name, count(len(t.rows), "row"))
	if boxes > 0 {
		text += fmt.Sprintf(", %s to fill", count(boxes, "box"))
	}
	if guesses > 0 {
		text += fmt.Sprintf(", %s to confirm", count(guesses, "guess"))
	}
	return text
}

func count(n int, word string) string {
	switch {
	case n == 1:
		return "1 " + word
	case strings.HasSuffix(word, "s") || strings.HasSuffix(word, "x"):
		return fmt.Sprintf("%d %ses", n, word)
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// update adds to a workbook that is there.
func update(s *survey, tabs []*tab, page *form, old []byte) ([]byte, []string, error) {
	f, err := excelize.OpenReader(bytes.NewReader(old))
	if err != nil {
		return old, nil, fmt.Errorf("not a workbook that can be opened: %w", err)
	}
	defer f.Close()
	before, err := contents(f)
	if err != nil {
		return old, nil, err
	}
	b, err := newBook(f, s)
	if err != nil {
		return old, nil, err
	}
	var done []string
	if page != nil && !b.has(formName) {
		b.form(page)
		done = append(done, formSays)
	}
	for _, t := range tabs {
		said := b.extend(t)
		if said != "" {
			done = append(done, said)
		}
	}
	if len(done) == 0 {
		return old, nil, b.err
	}
	data, err := b.bytes()
	if err != nil {
		return old, nil, err
	}
	if err := kept(before, data); err != nil {
		return old, nil, err
	}
	return data, done, nil
}

// extend adds a tab that the workbook has not got, or to one that it has the rows of things it
// does not name.
func (b *book) extend(t *tab) string {
	if !b.has(t.name) {
		b.add(t)
		return t.says()
	}
	rows, err := b.f.GetRows(t.name)
	b.try(err)
	place, ok := placeOfTable(t, rows)
	if !ok {
		return ""
	}
	var fresh []row
	for _, r := range t.rows {
		if !place.holds(t, rows, r.key) {
			fresh = append(fresh, r)
		}
	}
	if len(fresh) == 0 {
		return ""
	}
	t.rows = fresh
	for n, r := range fresh {
		r.breaks = false
		b.row(t, place.last+1+n, r)
	}
	b.lists(t, place.last+1, place.last+len(fresh))
	return t.says() + ", added"
}

// has reports whether the workbook has a tab of that name.
func (b *book) has(tab string) bool {
	i, err := b.f.GetSheetIndex(tab)
	b.try(err)
	return i >= 0
}

// table is where a tab of ours stands in a workbook.
type table struct{ header, last int }

// placeOfTable finds the header of a tab, its columns as we put them; false where somebody
// moved them.
func placeOfTable(t *tab, rows [][]string) (table, bool) {
	for n, cells := range rows {
		if len(cells) < len(t.columns) {
			continue
		}
		same := true
		for i, c := range t.columns {
			same = same && cells[i] == c.head
		}
		if same {
			return table{n + 1, lastFilled(rows)}, true
		}
	}
	return table{}, false
}

func lastFilled(rows [][]string) int {
	last := 0
	for n, cells := range rows {
		if strings.TrimSpace(strings.Join(cells, "")) != "" {
			last = n + 1
		}
	}
	return last
}

// holds reports whether some row of the table is about the thing that a key names.
func (p table) holds(t *tab, rows [][]string, key string) bool {
	for _, cells := range rows[p.header:] {
		if t.keyOf(cells) == key {
			return true
		}
	}
	return false
}

// contents are the cells of a workbook, by tab.
func contents(f *excelize.File) (map[string][][]string, error) {
	out := map[string][][]string{}
	for _, tab := range f.GetSheetList() {
		rows, err := f.GetRows(tab, excelize.Options{RawCellValue: true})
		if err != nil {
			return nil, fmt.Errorf("tab %s: %w", tab, err)
		}
		for r := range rows {
			for c := range rows[r] {
				formula, err := f.GetCellFormula(tab, at(c+1, r+1))
				if err != nil {
					return nil, fmt.Errorf("tab %s: %w", tab, err)
				}
				if formula != "" {
					rows[r][c] = "=" + formula
				}
			}
		}
		out[tab] = rows
	}
	return out, nil
}

// kept demands that each cell that held something still holds it.
func kept(before map[string][][]string, data []byte) error {
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		return fmt.Errorf("the new workbook cannot be opened: %w", err)
	}
	defer f.Close()
	after, err := contents(f)
	if err != nil {
		return err
	}
	for tab, rows := range before {
		for r := range rows {
			for c, text := range rows[r] {
				if text != "" && cellOf(after[tab], r, c) != text {
					return fmt.Errorf("%s!%s held %q and would not keep it; nothing was written", tab, at(c+1, r+1), text)
				}
			}
		}
	}
	return nil
}

func cellOf(rows [][]string, r, c int) string {
	if r >= len(rows) || c >= len(rows[r]) {
		return ""
	}
	return rows[r][c]
}
