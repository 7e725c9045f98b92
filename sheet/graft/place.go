package graft

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"dryfit/sheet/graft/splice"
)

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
	kind := g.tabs.content.of(from)
	if kind == typeTable {
		var err error
		if text, err = g.table(from); err != nil {
			return "", err
		}
	}
	name := g.freeName(path.Join(g.host.base(), strings.TrimPrefix(from, "xl/")))
	g.placed[from] = name
	g.put(name, kind, g.inHostSpace(text))
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
