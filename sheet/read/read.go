package read

import (
	"errors"
	"fmt"
	"iter"
	"path/filepath"
	"regexp"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// Book is one workbook as it was understood.
type Book struct {
	Path string
	Tabs []*Tab
}

// certain is the least score at which a grid is taken for a kind of table.
const certain = 40

// ErrNoParts says that no workbook of a job holds a part schedule.
var ErrNoParts = errors.New("no tab holds a part schedule: a table with a quantity or a mark beside the sizes of parts")

// Open reads one workbook from its bytes. shop may be nil: then only the built-in words are
// known. The error says why the file is no workbook that can be read; a tab that cannot be
// read is no error of the book, it stands there as ignored, with the reason.
func Open(path string, data []byte, shop *standard.Table) (*Book, error) {
	if shop == nil {
		shop = standard.BuiltIn()
	}
	src, err := openSource(path, data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	b := &Book{Path: path}
	grids := make([]*Grid, len(src.tabs))
	for i, ref := range src.tabs {
		t := &Tab{Name: ref.name, Kind: "ignored"}
		b.Tabs = append(b.Tabs, t)
		if src.isOurs(i) {
			t.Why = "written by dryfit"
			continue
		}
		g, err := src.grid(ref)
		if err != nil {
			t.Why = err.Error()
			t.Unread = append(t.Unread, check.Unread{Cell: check.Cell{Book: path, Tab: ref.name}, Why: "the tab cannot be read: " + err.Error()})
			continue
		}
		grids[i] = g
	}
	src.strings = nil
	calculate(data, grids)
	for i, g := range grids {
		if g != nil {
			b.Tabs[i].understand(g, shop)
		}
	}
	b.readAgain(grids, shop)
	b.settleCopies()
	return b, nil
}

// readAgain reads the other tabs once more with what the parts say: a row that is the name of a
// case or a room names an opening on a site form, whatever its words; and small bare numbers of
// joints and runs are millimetres where the parts are.
func (b *Book) readAgain(grids []*Grid, shop *standard.Table) {
	places := map[string]bool{}
	for _, t := range b.Tabs {
		for p := range t.Parts() {
			places[fold(p.Case.Text)], places[fold(p.Room.Text)] = true, true
		}
	}
	delete(places, "")
	metric := jobUnit([]*Book{b}) == length.Millimetre
	for i, g := range grids {
		if g == nil || b.Tabs[i].parts.Len() > 0 || len(g.Rows) > maxSide {
			continue
		}
		if bound := len(b.Tabs[i].Joints)+len(b.Tabs[i].Runs) > 0; !g.names(places) && !(metric && bound) {
			continue
		}
		g.places, g.metric = places, metric
		b.Tabs[i] = &Tab{Name: b.Tabs[i].Name, Kind: "ignored"}
		b.Tabs[i].understand(g, shop)
	}
}

// names reports a cell that is one of some names and stands first in its row.
func (g *Grid) names(places map[string]bool) bool {
	for i := range g.Rows {
		if cells := g.Rows[i].Cells; len(cells) > 0 && places[fold(cells[0].Text())] {
			return true
		}
	}
	return false
}

// isOurs reports whether a tab was written by dryfit: a hidden name that belongs to the tab
// holds the tab's own name. A copy or a renamed tab is the user's.
func (s *source) isOurs(i int) bool {
	for _, d := range s.names {
		if d.name == "_dryfit_tab" && d.tab == i && strings.Trim(d.text, `"`) == s.tabs[i].name {
			return true
		}
	}
	return false
}

// understand finds out what the grid holds and reads it.
func (t *Tab) understand(g *Grid, shop *standard.Table) {
	t.grid, t.hidden = g, g.Hidden
	defer t.letGo(g)
	t.roles = map[int]rowRole{}
	if len(g.Rows) == 0 {
		t.Why = "empty"
		return
	}
	rest := g
	done := map[string]bool{}
	for range kinds {
		k := best(rest, shop, done)
		if k == nil {
			break
		}
		done[k.name] = true
		used := k.read(rest, t, shop)
		for n := range used {
			if _, known := t.roles[n]; !known {
				t.roles[n] = rowRole{word: k.name}
			}
		}
		if t.Kind == "ignored" {
			t.Kind = k.name
		} else {
			t.Also = append(t.Also, k.name)
		}
		rest = rest.without(used)
		if len(rest.Rows) == 0 {
			break
		}
	}
	t.Rows = t.parts.Len() + len(t.Joints) + len(t.Openings) + len(t.Loads) + len(t.Runs)
	if t.Kind == "ignored" {
		t.Why = "no table of parts, joints, site measures, loads, runs or stops in it"
		return
	}
	t.nameRest(rest)
	if g.CutAt > 0 {
		t.Unread = append(t.Unread, check.Unread{Cell: g.Place(g.CutAt, 1), Why: fmt.Sprintf("rows below %d are not read", g.CutAt)})
	}
}

// tables is what a table of parts counts more than a form or a line, which may be made of
// any words; a table of joints counts more still, for its words are its own.
const tables = 60

// longTab is the number of rows from which the cells of a tab are let go once it was read.
const longTab = 10_000

// letGo gives up the cells of a long tab: what was read of it is kept elsewhere.
func (t *Tab) letGo(g *Grid) {
	g.parts = nil
	if len(g.Rows) < longTab {
		return
	}
	t.grid = nil
	for _, tb := range t.tables {
		tb.g = nil
	}
}

// Parts gives the parts of the tab, in the order of their rows; none of a superseded tab.
func (t *Tab) Parts() iter.Seq[*check.Part] {
	if t.old {
		return func(func(*check.Part) bool) {}
	}
	return t.parts.All()
}

// Superseded gives the parts of a tab that is an old version or a copy.
func (t *Tab) Superseded() iter.Seq[*check.Part] {
	if !t.old {
		return func(func(*check.Part) bool) {}
	}
	return t.parts.All()
}

// best is the kind with the highest score that was not read yet, nil if none is sure enough. A
// kind that could not win is not asked: to score, most of them read the whole grid.
func best(g *Grid, shop *standard.Table, done map[string]bool) *kind {
	var found *kind
	top := certain - 1
	for i := range kinds {
		k := &kinds[i]
		if done[k.name] || full+k.favour(full) <= top {
			continue
		}
		s := k.score(g, shop)
		if s += k.favour(s); s > top {
			found, top = k, s
		}
	}
	return found
}

// full is the highest score.
const full = 100

// favour is what a sure score counts more.
func (k *kind) favour(score int) int {
	switch {
	case score >= 70 && k.name == "joints":
		return 2 * tables
	case score >= 50 && k.name == "parts":
		return tables
	}
	return 0
}

// without is the grid less the rows that were used.
func (g *Grid) without(used map[int]bool) *Grid {
	rest := *g
	rest.Rows, rest.parts = nil, nil
	for _, r := range g.Rows {
		if !used[r.N] {
			rest.Rows = append(rest.Rows, r)
		}
	}
	return &rest
}

// nameRest names the rows that no kind of table took.
func (t *Tab) nameRest(rest *Grid) {
	for i := range rest.Rows {
		r := &rest.Rows[i]
		if _, known := t.roles[r.N]; known {
			continue
		}
		why := "stands outside of the tables"
		t.roles[r.N] = rowRole{word: "note", why: why}
		var words []string
		for j := range r.Cells {
			words = append(words, r.Cells[j].Text())
		}
		t.Aside = append(t.Aside, check.Unread{Cell: r.Cells[0].From(), Text: strings.Join(words, " | "), Why: why})
	}
}

var (
	oldTab  = regexp.MustCompile(`(?i)(^|[\s_\-(.])(old|superseded|obsolete|archive[d]?|void|backup|bak|do not use|dont use|alt|veraltet|ancien(ne)?|vieux|viejo|antiguo|obsoleto|vecchi[oa]|superato|stary|stara|stare|nieaktualn[eya]|oud[e]?|vervallen|gammal|utg[åa]tt)($|[\s_\-).\d])`)
	copyTab = regexp.MustCompile(`(?i)(^|[\s_\-(])(copy|kopie|copie|copia|kopia)($|[\s_\-)\d])|\s\(\d+\)$`)
)

// settleCopies sets aside the tabs of parts that are old versions, by their own name, and
// hidden ones beside a visible one.
func (b *Book) settleCopies() {
	live := 0
	for _, t := range b.Tabs {
		if t.Kind == "parts" && !oldTab.MatchString(t.Name) && !copyTab.MatchString(t.Name) && !t.hidden {
			live++
		}
	}
	for _, t := range b.Tabs {
		if t.Kind != "parts" {
			continue
		}
		switch {
		case oldTab.MatchString(t.Name):
			t.supersede("its name says that it is superseded")
		case live > 0 && copyTab.MatchString(t.Name):
			t.supersede("its name says that it is a copy")
		case live > 0 && t.hidden:
			t.supersede("the tab is hidden, and another tab holds parts")
		}
	}
}

// supersede takes a tab of parts out of the job; its parts stay at hand in
// Superseded.
func (t *Tab) supersede(why string) {
	t.Kind, t.Why = "ignored", why
	t.old = true
	t.Unread = nil
}

// skipFile reports whether a workbook is one that dryfit wrote beside the user's.
func skipFile(path string) bool {
	name := strings.ToLower(filepath.Base(path))
	return name == "dryfit roll-up.xlsx" || strings.HasSuffix(name, " - dryfit results.xlsx") || strings.HasPrefix(name, "~$")
}

// Job assembles what the books of one folder say into a job, in the unit in which most of
// its parts were given. The error is ErrNoParts where no book holds a part schedule; the job
// is returned all the same, for its notes.
func Job(name, path string, books []*Book, shop *standard.Table) (*check.Job, error) {
	return JobIn(jobUnit(books), name, path, books, shop)
}

// JobIn is Job in a unit that somebody asked for: length.Inch or length.Millimetre.
func JobIn(unit length.Unit, name, path string, books []*Book, shop *standard.Table) (*check.Job, error) {
	j := &check.Job{Name: name, Path: path, Stage: check.BeforeCut, Shop: shop, Unit: unit}
	for _, b := range books {
		if skipFile(b.Path) {
			continue
		}
		found := check.Book{Path: b.Path}
		for _, t := range b.Tabs {
			found.Tabs = append(found.Tabs, check.Tab{Name: t.Name, Kind: t.Kind, Header: t.Header, Rows: t.Rows, Why: t.Why, Also: t.Also})
			t.addTo(j)
		}
		j.Books = append(j.Books, found)
	}
	spread(j)
	if !j.Has("parts") {
		return j, ErrNoParts
	}
	return j, nil
}

// jobUnit is inch or millimetre, whichever more parts were given in.
func jobUnit(books []*Book) length.Unit {
	metric, imperial := 0, 0
	for _, b := range books {
		for _, t := range b.Tabs {
			for p := range t.Parts() {
				if p.Unit.Metric() {
					metric++
				} else if p.Unit.Imperial() {
					imperial++
				}
			}
		}
	}
	if metric > imperial {
		return length.Millimetre
	}
	return length.Inch
}

func (t *Tab) addTo(j *check.Job) {
	for p := range t.Parts() {
		c := *p
		c.Layers = append([]check.Layer(nil), p.Layers...)
		c.Banded = append([]check.Edge(nil), p.Banded...)
		c.In(j.Unit)
		j.Parts = append(j.Parts, &c)
	}
	t.addOthers(j)
	j.Unread = append(j.Unread, t.Unread...)
	for _, n := range t.Notes {
		j.Notes = append(j.Notes, t.Name+": "+n)
	}
	if t.old {
		j.Notes = append(j.Notes, fmt.Sprintf("%s is ignored: %s", t.Name, t.Why))
	}
}
