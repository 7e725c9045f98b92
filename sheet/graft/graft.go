// Package graft writes result tabs into a workbook that belongs to somebody else. Every part
// of the user's stays byte for byte what it was, compressed bytes too; only the workbook part,
// its relationships, the content types and the styles gain entries, and the calculation chain
// loses those that a spreadsheet program made for our cells. Tabs written before are replaced
// in place, so that references to them hold.
//
// It knows the package format of workbooks (ECMA-376 Parts 1 and 2, ISO/IEC 29500); it must
// not know what stands in a tab.
//
//	data, err := graft.Graft(host, tabs)  // host: the bytes of the file
//	names, err := graft.Ours(host)        // tabs written before
//	err = graft.Verify(host, data)        // nothing of the user's changed
//	data, err = graft.New(tabs)           // a workbook of tabs alone
//
// A host that must not be written is a *Refusal: its Reason is for a person, and the results
// belong into a workbook beside it.
package graft

import (
	"fmt"
	"path"
	"strings"

	"dryfit/sheet/graft/splice"
)

// Refusal says why a workbook is left alone. Reason is a clause without a full stop.
type Refusal struct{ Reason string }

func (r *Refusal) Error() string { return "workbook left as it is: " + r.Reason }

func refuse(format string, args ...any) *Refusal { return &Refusal{fmt.Sprintf(format, args...)} }

// Mark is the hidden name, scoped to a tab and holding the tab's name, by which a tab is known
// as ours. A copied or renamed tab has a mark that disagrees with its name: it is the user's.
const Mark = "_dryfit_tab"

// Graft returns the host with the tabs in it. New tabs go behind the last tab, so that the
// positions the host uses for its own tabs stay true; a tab written before is replaced where
// it stands. The active tab and what is selected stay as they are. A tab written before that
// tabs does not name stays untouched.
//
// The same tabs grafted again give the same bytes.
func Graft(host []byte, tabs Tabs) ([]byte, error) {
	h, err := openHost(host)
	if err != nil {
		return nil, err
	}
	return h.graft(tabs)
}

func (h *host) graft(tabs Tabs) ([]byte, error) {
	if err := tabs.check(); err != nil {
		return nil, err
	}
	if err := h.mayWrite(); err != nil {
		return nil, err
	}
	g := &grafting{host: h, tabs: tabs, packer: newPacker(), names: map[string]bool{}, placed: map[*Part]string{}}
	defer g.packer.wg.Wait()
	if err := g.run(); err != nil {
		return nil, err
	}
	changed := g.changed()
	if err := g.packer.wait(); err != nil {
		return nil, err
	}
	return h.assemble(h.list(changed, g.fresh, g.dropped))
}

// Ours lists the tabs of the host that we wrote, in the order in which they stand.
func Ours(host []byte) ([]string, error) {
	h, err := openHost(host)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, s := range h.sheets {
		if s.ours {
			names = append(names, s.name)
		}
	}
	return names, nil
}

// grafting is one run.
type grafting struct {
	host    *host
	tabs    Tabs
	styles  *styles
	slots   []slot
	dropped map[string]bool // keys of old parts of ours
	names   map[string]bool // keys of new parts
	packer  *packer
	fresh   []*entry         // the new parts
	types   []partType       // their content types
	placed  map[*Part]string // to name in the host

	book, bookRels, content *splice.Edits
	chain                   chainChange
}

// slot is where one of our tabs goes.
type slot struct {
	tab      *Tab
	name     string
	old      *sheet // nil for a new tab
	part     string // name of the sheet part in the host
	relID    string
	sheetID  int
	index    int // position among all tabs
	selected bool
}

type partType struct{ name, contentType string }

func (g *grafting) run() error {
	if err := g.assign(); err != nil {
		return err
	}
	var err error
	if g.styles, err = g.openStyles(); err != nil {
		return err
	}
	for i := range g.slots {
		if err := g.placeSheet(&g.slots[i]); err != nil {
			return err
		}
	}
	if text := g.styles.flush(); text != nil {
		g.put(g.styles.name, typeStyles, text)
	}
	g.editBook()
	g.editRels()
	g.editContent()
	return nil
}

// assign finds a place for every tab.
func (g *grafting) assign() error {
	h := g.host
	byName := map[string]*sheet{}
	maxID := h.chain.maxID
	for i := range h.sheets {
		s := &h.sheets[i]
		byName[strings.ToLower(s.name)] = s
		maxID = max(maxID, s.id)
	}
	old := map[string]bool{}
	for i := range g.tabs {
		tab := &g.tabs[i]
		s := byName[strings.ToLower(tab.Name)]
		switch {
		case s == nil:
			// In a workbook that has no other tab, the first is in front.
			g.slots = append(g.slots, slot{tab: tab, name: tab.Name, selected: i == 0 && len(h.sheets) == 0})
		case !s.ours:
			return refuse("it has a tab %q that is not ours; rename or delete that tab", s.name)
		default:
			g.slots = append(g.slots, slot{tab: tab, name: tab.Name, old: s, part: s.part, relID: s.relID,
				sheetID: s.id, index: s.index, selected: h.isSelected(s)})
			old[key(s.part)] = true
		}
	}
	var err error
	if g.dropped, err = h.onlyBehind(old); err != nil {
		return err
	}
	next := len(h.sheets)
	ids := h.relIDs()
	for i := range g.slots {
		s := &g.slots[i]
		if s.old != nil {
			continue
		}
		maxID++
		s.sheetID, s.index = maxID, next
		next++
		s.relID = freeID(ids)
		s.part = g.freeName(path.Join(h.base(), "worksheets/sheet1.xml"))
	}
	if maxID > 65534 {
		return refuse("a tab of it has the number %d, and none is left for another", maxID)
	}
	return nil
}

func freeID(taken map[string]bool) string {
	for n := len(taken) + 1; ; n++ {
		id := fmt.Sprintf("rId%d", n)
		if !taken[strings.ToLower(id)] {
			taken[strings.ToLower(id)] = true
			return id
		}
	}
}

// freeName returns the part name, counting its last number up until no part of the user's and
// none of the new ones has it, and keeps it.
func (g *grafting) freeName(name string) string {
	ext := path.Ext(name)
	stem := strings.TrimRight(strings.TrimSuffix(name, ext), "0123456789")
	for n := 1; g.taken(name) || g.taken(relsName(name)); n++ {
		name = fmt.Sprintf("%s%d%s", stem, n, ext)
	}
	g.reserve(name)
	return name
}

func (g *grafting) taken(name string) bool {
	k := key(name)
	if g.names[k] {
		return true
	}
	if g.dropped[k] {
		return g.isSlot(name)
	}
	return g.host.parts[k] != nil || g.host.content.declares(name) || g.isSlot(name)
}

func (g *grafting) isSlot(name string) bool {
	for _, s := range g.slots {
		if strings.EqualFold(s.part, name) {
			return true
		}
	}
	return false
}

func (g *grafting) reserve(name string) { g.names[key(name)] = true }

// open begins a new part; put gives the whole of one.
func (g *grafting) open(name, contentType string) *packing {
	g.reserve(name)
	w := g.packer.open(name, g.host.parts[key(name)])
	g.fresh = append(g.fresh, w.entry)
	g.types = append(g.types, partType{name, contentType})
	return w
}

func (g *grafting) put(name, contentType string, text []byte) {
	w := g.open(name, contentType)
	w.send(text)
	w.close()
}

// changed returns the old parts that were edited, by key.
func (g *grafting) changed() map[string]*entry {
	out := map[string]*entry{}
	h := g.host
	change := func(name string, text []byte) {
		out[key(name)] = g.packer.pack(name, h.parts[key(name)], text)
	}
	for name, d := range map[string]*splice.Edits{h.bookName: g.book,
		relsName(h.bookName): g.bookRels, contentTypes: g.content} {
		if d.Any() {
			change(name, d.Apply())
		}
	}
	if g.styles.old && g.styles.edits.Any() {
		change(g.styles.name, g.styles.edits.Apply())
	}
	if g.chain.text != nil {
		change(h.chain.name, g.chain.text)
	}
	return out
}
