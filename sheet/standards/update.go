package standards

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"dryfit/check/standard"

	"github.com/xuri/excelize/v2"
)

// Update adds to a standards workbook what a newer version brings: rows of new values, below
// the last row that holds anything, and tabs it has not got. Built-in numbers that nobody
// typed over are brought up to date. Nothing that people typed is touched. It says what it
// did, and returns the same bytes when there was nothing to do.
//
// The workbook is saved by the spreadsheet library, not grafted: its user parts keep their
// content, not their bytes. That is right for a workbook this program made; it refuses one
// that has no value tab.
func Update(path string, existing []byte) (updated []byte, done []string, err error) {
	f, err := excelize.OpenReader(bytes.NewReader(existing), excelize.Options{UnzipSizeLimit: mostUnpacked, UnzipXMLSizeLimit: mostTab})
	if err != nil {
		return existing, nil, fmt.Errorf("%s: not a workbook that can be opened: %w", path, err)
	}
	defer f.Close()
	b := &book{f: f}
	u := &update{book: b, path: path, present: map[standard.Key]bool{}, tabs: map[string]*grown{}, other: map[string]bool{}}
	if err := u.survey(); err != nil {
		return existing, nil, err
	}
	if len(u.tabs) == 0 {
		return existing, nil, fmt.Errorf("%s: %w", path, ErrNoStandards)
	}
	u.refresh()
	u.addRows()
	u.addTabs()
	if b.err != nil {
		return existing, nil, fmt.Errorf("%s: %w", path, b.err)
	}
	if len(u.done) == 0 {
		return existing, nil, nil
	}
	out, err := b.bytes()
	return out, u.done, err
}

// update is a workbook while it is brought up to date.
type update struct {
	book    *book
	path    string
	present map[standard.Key]bool
	tabs    map[string]*grown // value tabs, by the group they hold
	other   map[string]bool   // list tabs it has, by their kind
	done    []string
	styled  bool
}

// grown is a value tab and where it ends.
type grown struct {
	*sheet
	last int // index of the last row that holds anything
}

// survey finds the tabs and the values they have.
func (u *update) survey() error {
	for _, tab := range u.book.f.GetSheetList() {
		rows, err := u.book.f.GetRows(tab, excelize.Options{RawCellValue: true})
		if err != nil {
			return fmt.Errorf("%s, tab %s: %w", u.path, tab, err)
		}
		var s Standards
		s.tab("shop", tab, rows)
		if len(s.Tabs) > 0 {
			u.other[s.Tabs[0].Kind] = true
		}
		sh := &sheet{out: &Standards{}, whose: "shop", tab: tab, rows: rows}
		if sh.is(valueColumns, "kind", "item", "what", "our value", "stamp") {
			u.note(&grown{sh, sh.head})
		}
	}
	return nil
}

func (u *update) note(g *grown) {
	for r := g.head + 1; r < len(g.rows); r++ {
		if g.blank(r) {
			continue
		}
		g.last = r
		if e, known, ok := g.identify(r, false); ok {
			u.tabs[e.Group] = g
			if known {
				u.present[e.Key()] = true
			}
		}
	}
}

// refresh brings built-in cells up to date where nobody typed.
func (u *update) refresh() {
	seen := map[*grown]bool{}
	for _, g := range u.tabs {
		if seen[g] {
			continue
		}
		seen[g] = true
		for r := g.head + 1; r <= g.last; r++ {
			u.refreshRow(g, r)
		}
	}
}

func (u *update) refreshRow(g *grown, r int) {
	e, known, ok := g.identify(r, false)
	seal := g.cell(r, "stamp")
	if !ok || !known || len(seal) != 2*stampPart || seal == stamp(e) {
		return
	}
	numbers, words := seal[:stampPart], seal[stampPart:]
	var stale []string
	if now := numberStamp(e.Unit, e.Low, e.Nominal, e.High); numbers != now && g.numbersSealed(r) {
		stale = append(stale, "unit", "low", "value", "high")
		numbers = now
		u.done = append(u.done, fmt.Sprintf("%s!%s: %s is now %s %s", g.tab, g.address(r, "value"), e.Name(), short(e.Nominal), e.Unit))
	}
	if now := wordStamp(e.Source, e.Known, e.Note); words != now && g.wordsSealed(r) {
		stale = append(stale, "source", "known", "note")
		words = now
		u.done = append(u.done, fmt.Sprintf("%s!%s: a newer source for %s", g.tab, g.address(r, "source"), e.Name()))
	}
	cells := row{built: e}.cells()
	for _, id := range stale {
		u.book.set(g.tab, g.address(r, id), cells[at(valueColumns, id)])
	}
	u.book.set(g.tab, g.address(r, "stamp"), numbers+words)
}

// numbersSealed reports whether the built-in numbers of a row are as they were written.
func (sh *sheet) numbersSealed(r int) bool {
	var values []float64
	for _, id := range []string{"low", "value", "high"} {
		v, err := strconv.ParseFloat(sh.cell(r, id), 64)
		if err != nil {
			return false
		}
		values = append(values, v)
	}
	return strings.HasPrefix(sh.cell(r, "stamp"), numberStamp(sh.cell(r, "unit"), values...))
}

// wordsSealed reports whether the words beside them are.
func (sh *sheet) wordsSealed(r int) bool {
	return strings.HasSuffix(sh.cell(r, "stamp"), wordStamp(sh.cell(r, "source"), sh.cell(r, "known"), sh.cell(r, "note")))
}

// addRows appends the values the workbook has not got to the tab that holds their kind.
func (u *update) addRows() {
	added := map[string]int{}
	for _, e := range standard.BuiltIn().Entries() {
		g := u.tabs[e.Group]
		if g == nil || u.present[e.Key()] {
			continue
		}
		u.dressOnce()
		g.last++
		cells := row{built: e}.cells()
		for i, cell := range cells {
			if c, ok := g.place[valueColumns[i].id]; ok {
				u.book.set(g.tab, address(c+1, g.last+1), cell)
			}
		}
		u.dressRow(g, heightOf(cells))
		added[g.tab]++
	}
	for _, tab := range u.book.f.GetSheetList() {
		if n := added[tab]; n > 0 {
			u.done = append(u.done, fmt.Sprintf("%s: %d new rows", tab, n))
		}
	}
}

func (u *update) dressOnce() {
	if !u.styled {
		u.book.makeLooks()
		u.styled = true
	}
}

// dressRow styles an appended row, where the tab has its columns as we put them.
func (u *update) dressRow(g *grown, height float64) {
	for i, c := range valueColumns {
		if at, ok := g.place[c.id]; !ok || at != i {
			return
		}
	}
	u.book.dress(g.tab, g.last+1, g.last+1)
	u.book.try(u.book.f.SetRowHeight(g.tab, g.last+1, height))
}

// addTabs makes the tabs that are missing altogether.
func (u *update) addTabs() {
	for _, v := range valueTabs {
		if u.hasAny(v) || u.taken(v.name) {
			continue
		}
		u.dressOnce()
		u.book.values(v, rowsOf(v, standard.BuiltIn(), nil))
		u.done = append(u.done, v.name+": new tab")
	}
	for _, t := range []table{finishTable, wordTable, jobTable} {
		if u.other[t.name] || u.taken(t.name) {
			continue
		}
		u.dressOnce()
		u.book.list(t, nil)
		u.done = append(u.done, t.name+": new tab")
	}
	if !u.other[measureTab] && !u.taken(measureTab) {
		u.dressOnce()
		u.book.calibration(nil)
		u.done = append(u.done, measureTab+": new tab")
	}
}

func (u *update) hasAny(v valueTab) bool {
	for _, g := range v.groups {
		if u.tabs[g] != nil {
			return true
		}
	}
	return false
}

// taken reports whether a tab of that name exists, whatever it holds.
func (u *update) taken(name string) bool {
	i, err := u.book.f.GetSheetIndex(name)
	return err == nil && i >= 0
}
