package graft

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"strings"

	"github.com/xuri/excelize/v2"

	"dryfit/sheet/graft/splice"
)

// Tabs are result tabs ready to be grafted: the parts of a workbook of our own.
type Tabs struct {
	names   []string
	parts   map[string][]byte // by part name without the leading slash
	sheets  map[string]string // tab name to sheet part
	defined []definedName
	styles  *source
	strings []string // bodies of the shared strings, XML
	content *contentList
}

// definedName is a name scoped to one of the tabs.
type definedName struct {
	tab, name, attrs, body string // attrs and body as XML text
}

// Take collects the tabs called names, in that order, from a workbook that was built with
// excelize and only holds what is ours. A StreamWriter must be flushed before. Parts that the
// tabs refer to (notes, drawings, pictures, charts, tables) come along; names scoped to a
// tab (print titles, print area, filter) too. A name for the whole workbook, a pivot table
// and a slicer cannot be taken and are errors.
//
// book must not be used afterwards except to be closed.
func Take(book *excelize.File, names ...string) (Tabs, error) {
	c := collector{}
	book.SetZipWriter(func(io.Writer) excelize.ZipWriter { return c })
	if _, err := book.WriteToBuffer(); err != nil {
		return Tabs{}, fmt.Errorf("saving the tabs: %w", err)
	}
	parts := make(map[string][]byte, len(c))
	for name, b := range c {
		parts[name] = b.Bytes()
	}
	return takeParts(parts, names)
}

// collector keeps what excelize would compress.
type collector map[string]*bytes.Buffer

func (c collector) Create(name string) (io.Writer, error) {
	b := new(bytes.Buffer)
	c[strings.TrimPrefix(name, "/")] = b
	return b, nil
}
func (c collector) AddFS(fs.FS) error { return nil }
func (c collector) Close() error      { return nil }

func takeParts(parts map[string][]byte, names []string) (Tabs, error) {
	t := Tabs{names: names, parts: parts, sheets: map[string]string{}}
	if len(names) == 0 {
		return t, fmt.Errorf("no tab to graft")
	}
	content, err := t.tree(contentTypes)
	if err != nil {
		return t, err
	}
	t.content = readContent(content)
	if err := t.readBook(); err != nil {
		return t, err
	}
	styles, err := t.tree("xl/styles.xml")
	if err != nil {
		return t, err
	}
	t.styles = readSource(styles)
	if parts["xl/sharedStrings.xml"] == nil {
		return t, nil
	}
	shared, err := t.tree("xl/sharedStrings.xml")
	if err != nil {
		return t, err
	}
	for si := range shared.Root().Named("si") {
		t.strings = append(t.strings, string(si.Body()))
	}
	return t, nil
}

func (t *Tabs) tree(name string) (*splice.Tree, error) {
	tree, err := splice.Parse(t.parts[name])
	if err != nil {
		return nil, fmt.Errorf("tabs: part %s: %w", name, err)
	}
	return tree, nil
}

// readBook finds the sheet part of every tab and the names scoped to it.
func (t *Tabs) readBook() error {
	const name = "xl/workbook.xml"
	book, err := t.tree(name)
	if err != nil {
		return err
	}
	relsTree, err := t.tree(relsName(name))
	if err != nil {
		return err
	}
	target := map[string]string{}
	for _, r := range readRels(relsTree, name) {
		target[r.id] = r.target
	}
	root := book.Root()
	for _, what := range []string{"pivotCaches", "extLst"} {
		if root.Child(what).Ok() {
			return fmt.Errorf("tabs: the workbook has %s, which cannot be taken along", what)
		}
	}
	var all []string
	for s := range root.Child("sheets").Named("sheet") {
		tab, _ := s.Attr("name")
		id, _ := s.AttrIn(nsRels, "id")
		t.sheets[tab] = target[id]
		all = append(all, tab)
	}
	for _, tab := range t.names {
		if t.parts[t.sheets[tab]] == nil {
			return fmt.Errorf("tabs: no tab %q among %q", tab, all)
		}
	}
	for d := range root.Child("definedNames").Named("definedName") {
		name, _ := d.Attr("name")
		scope, ok := d.Attr("localSheetId")
		i := number(scope, -1)
		if !ok || i < 0 || i >= len(all) {
			return fmt.Errorf("tabs: the name %s belongs to no tab; scope it to one", name)
		}
		attrs := ""
		for a := range d.Attrs() {
			if a.Name != "name" && a.Name != "localSheetId" {
				attrs += ` ` + a.Name + `="` + splice.Escape(a.Value) + `"`
			}
		}
		t.defined = append(t.defined, definedName{all[i], name, attrs, string(d.Body())})
	}
	return nil
}
