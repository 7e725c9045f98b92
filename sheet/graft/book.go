package graft

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"

	"dryfit/sheet/graft/splice"
)

// afterSheets are the children of the workbook that come before definedNames (ECMA-376
// Part 1, 18.2.27, the sequence of CT_Workbook).
var afterSheets = []string{"sheets", "functionGroups", "externalReferences"}

// editBook lists the new tabs in the workbook part and puts the names of our tabs in.
func (g *grafting) editBook() {
	g.book = g.host.book.Edit()
	root := g.host.book.Root()
	list := root.Child("sheets")
	ns := g.host.nsRels()
	for _, s := range g.slots {
		if s.old != nil {
			continue
		}
		prefix, ok := list.PrefixFor(ns)
		declare := ""
		if !ok {
			prefix, declare = "r:", ` xmlns:r="`+ns+`"`
		}
		g.book.Append(list, fmt.Sprintf(`<%ssheet%s name="%s" sheetId="%d" %sid="%s"/>`,
			list.Prefix(), declare, splice.Escape(s.name), s.sheetID, prefix, splice.Escape(s.relID)))
	}
	g.editNames(root)
	g.chain = g.host.chain.without(g.sheetIDs())
}

func (g *grafting) sheetIDs() map[int]bool {
	ids := map[int]bool{}
	for _, s := range g.slots {
		ids[s.sheetID] = true
	}
	return ids
}

// editNames replaces the names that we give our tabs; other names scoped to them were made
// by the user and stay. Where all stand unchanged nothing is edited.
func (g *grafting) editNames(root splice.Elem) {
	names := root.Child("definedNames")
	prefix := root.Prefix()
	if names.Ok() {
		prefix = names.Prefix()
	}
	want := g.definedNames(prefix)
	mine := map[string]bool{} // scope and name of what we write
	for _, s := range g.slots {
		for _, n := range append([]string{Mark}, builtIn...) {
			mine[scoped(s.index, n)] = true
		}
		for _, d := range g.tabs.defined {
			if d.tab == s.name {
				mine[scoped(s.index, d.name)] = true
			}
		}
	}
	var old []splice.Elem
	have := ""
	for d := range names.Named("definedName") {
		name, _ := d.Attr("name")
		scope, ok := d.Attr("localSheetId")
		if ok && mine[scoped(number(scope, -1), name)] {
			old = append(old, d)
			have += string(d.Outer())
		}
	}
	if have == want {
		return
	}
	for _, d := range old {
		g.book.Remove(d)
	}
	if names.Ok() {
		g.book.Append(names, want)
		return
	}
	before := root.Child("sheets")
	for c := range root.Children() {
		if c.Space() == root.Space() && slices.Contains(afterSheets, c.Name()) {
			before = c
		}
	}
	g.book.After(before, "<"+prefix+"definedNames>"+want+"</"+prefix+"definedNames>")
}

// builtIn are the names by which a spreadsheet program keeps print settings and filters of a
// tab; one left over from an older form of the tab would speak of cells that moved.
var builtIn = []string{"_xlnm.Print_Titles", "_xlnm.Print_Area", "_xlnm._FilterDatabase"}

func scoped(index int, name string) string {
	return strconv.Itoa(index) + "!" + strings.ToLower(name)
}

func (g *grafting) definedNames(prefix string) string {
	var b strings.Builder
	for _, s := range g.slots {
		fmt.Fprintf(&b, `<%sdefinedName name="%s" localSheetId="%d" hidden="1">%s</%[1]sdefinedName>`,
			prefix, Mark, s.index, splice.Escape(quote(s.name)))
		for _, d := range g.tabs.defined {
			if d.tab == s.name {
				fmt.Fprintf(&b, `<%sdefinedName name="%s" localSheetId="%d"%s>%s</%[1]sdefinedName>`,
					prefix, splice.Escape(d.name), s.index, d.attrs, d.body)
			}
		}
	}
	return b.String()
}

// editRels adds the relationships of the new tabs, and of a styles part where there was none.
func (g *grafting) editRels() {
	g.bookRels = g.host.relsTree.Edit()
	root := g.host.relsTree.Root()
	add := func(id, kind, part string) {
		g.bookRels.Append(root, fmt.Sprintf(`<%sRelationship Id="%s" Type="%s/%s" Target="%s"/>`,
			root.Prefix(), id, g.host.nsRels(), kind, splice.Escape(relativeTo(g.host.bookName, part))))
	}
	ids := g.host.relIDs()
	for _, s := range g.slots {
		ids[strings.ToLower(s.relID)] = true
		if s.old == nil {
			add(s.relID, "worksheet", s.part)
		}
	}
	if !g.styles.old && !g.styles.related {
		add(freeID(ids), "styles", g.styles.name)
	}
	if !g.chain.drop {
		return
	}
	g.dropped[key(g.host.chain.name)] = true
	for _, r := range g.host.rels {
		if r.short() == "calcChain" {
			g.bookRels.Remove(r.elem)
		}
	}
}

// editContent declares the types of the new parts and forgets those of dropped ones.
func (g *grafting) editContent() {
	c := g.host.content
	g.content = c.tree.Edit()
	root := c.tree.Root()
	kept := map[string]bool{}
	defaults := map[string]string{}
	needs := append(slices.Clone(g.types), partType{"x.rels", typeRels})
	for _, p := range needs {
		k := key(p.name)
		kept[k] = true
		ext := extension(p.name)
		have, declared := c.defaults[ext]
		if t, added := defaults[ext]; !declared && added {
			have, declared = t, true
		}
		if e := c.override[k]; e.Ok() {
			if t, _ := e.Attr("ContentType"); t != p.contentType {
				g.content.SetAttr(e, "ContentType", p.contentType)
			}
			continue
		}
		switch {
		case declared && have == p.contentType:
		case !declared && ext != "xml":
			defaults[ext] = p.contentType
			g.content.Prepend(root, fmt.Sprintf(`<%sDefault Extension="%s" ContentType="%s"/>`,
				root.Prefix(), splice.Escape(ext), p.contentType))
		default:
			g.content.Append(root, fmt.Sprintf(`<%sOverride PartName="/%s" ContentType="%s"/>`,
				root.Prefix(), splice.Escape(p.name), p.contentType))
		}
	}
	for k := range g.dropped {
		if e := c.override[k]; e.Ok() && !kept[k] {
			g.content.Remove(e)
		}
	}
}

// placeSheet rewrites one of our sheet parts for the host and brings along all it refers to.
func (g *grafting) placeSheet(s *slot) error {
	from := g.tabs.sheets[s.name]
	w := sheetWriter{g: g, selected: s.selected}
	text, err := w.rewrite(g.tabs.parts[from])
	if err != nil {
		return fmt.Errorf("tab %q: %w", s.name, err)
	}
	g.placed[from] = s.part
	g.put(s.part, typeSheet, g.inHostSpace(text))
	return g.placeRels(from, s.part)
}

// place brings a part of ours into the host under a free name and returns that name.
func (g *grafting) place(from string) (string, error) {
	if name, ok := g.placed[from]; ok {
		return name, nil
	}
	text, ok := g.tabs.parts[from]
	if !ok {
		return "", fmt.Errorf("part %s is missing", from)
	}
	name := g.freeName(path.Join(g.host.base(), strings.TrimPrefix(from, "xl/")))
	g.placed[from] = name
	g.put(name, g.tabs.content.of(from), g.inHostSpace(text))
	return name, g.placeRels(from, name)
}

// placeRels writes the relationships of a placed part.
func (g *grafting) placeRels(from, name string) error {
	rels := relsName(from)
	if g.tabs.parts[rels] == nil {
		return nil
	}
	tree, err := g.tabs.tree(rels)
	if err != nil {
		return err
	}
	at := len(g.fresh)
	var b strings.Builder
	b.WriteString(`<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n" +
		`<Relationships xmlns="` + nsPackage + `">`)
	for _, r := range readRels(tree, from) {
		target, mode := r.target, ` TargetMode="External"`
		if !r.external {
			placed, err := g.place(r.target)
			if err != nil {
				return err
			}
			target, mode = relativeTo(name, placed), ""
		}
		fmt.Fprintf(&b, `<Relationship Id="%s" Type="%s" Target="%s"%s/>`, splice.Escape(r.id),
			g.relType(r.kind), splice.Escape(target), mode)
	}
	b.WriteString(`</Relationships>`)
	rels = relsName(name)
	g.reserve(rels)
	g.fresh = slices.Insert(g.fresh, at, g.packer.pack(rels, g.host.parts[key(rels)], []byte(b.String())))
	return nil
}

// strictSpaces pairs the namespaces of the two conformance classes (ISO/IEC 29500-1 and -4).
var strictSpaces = strings.NewReplacer(
	`"`+nsMain+`"`, `"`+strictMain+`"`,
	`"`+nsRels+`"`, `"`+strictRels+`"`,
	`"http://schemas.openxmlformats.org/drawingml/2006/main"`, `"http://purl.oclc.org/ooxml/drawingml/main"`,
	`"http://schemas.openxmlformats.org/drawingml/2006/chart"`, `"http://purl.oclc.org/ooxml/drawingml/chart"`,
	`"http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing"`, `"http://purl.oclc.org/ooxml/drawingml/spreadsheetDrawing"`,
)

// inHostSpace puts a part of ours into the namespaces of a strict host.
func (g *grafting) inHostSpace(text []byte) []byte {
	if !g.host.strict {
		return text
	}
	return []byte(strictSpaces.Replace(string(text)))
}

// relType is the type of a relationship as the host's class spells it. Drawings of notes are
// no part of the strict class, and programs that write it keep their old type.
func (g *grafting) relType(kind string) string {
	word, ok := strings.CutPrefix(kind, nsRels+"/")
	if !g.host.strict || !ok || word == "vmlDrawing" {
		return kind
	}
	return strictRels + "/" + word
}
