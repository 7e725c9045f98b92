package graft

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"dryfit/sheet/graft/splice"
)

// placeSheet writes one of our tabs for the host and brings along all it refers to.
func (g *grafting) placeSheet(s *slot) error {
	in := &Place{Main: nsMain, Rels: g.host.nsRels(), Selected: s.selected, styles: g.styles}
	if g.host.strict {
		in.Main = strictMain
	}
	if err := g.write(s, in); err != nil {
		return fmt.Errorf("tab %q: %w", s.name, err)
	}
	if g.styles.err != nil {
		return fmt.Errorf("tab %q: %w", s.name, g.styles.err)
	}
	return g.placeRefs(s.tab.Refs, s.part)
}

func (g *grafting) write(s *slot, in *Place) error {
	w := g.open(s.part, typeSheet)
	defer w.close() // also after a panic: somebody waits for the end
	return s.tab.Write(w, in)
}

// place brings a part of ours into the host under a free name and returns that name.
func (g *grafting) place(p *Part) (string, error) {
	if name, ok := g.placed[p]; ok {
		return name, nil
	}
	name := g.freeName(path.Join(g.host.base(), p.Name))
	g.placed[p] = name
	g.put(name, p.Type, g.inHostSpace(p.Text))
	return name, g.placeRefs(p.Refs, name)
}

// placeRefs writes the relationships of a placed part.
func (g *grafting) placeRefs(refs []Ref, name string) error {
	if len(refs) == 0 {
		return nil
	}
	at := len(g.fresh)
	var b strings.Builder
	b.WriteString(`<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n" +
		`<Relationships xmlns="` + nsPackage + `">`)
	for _, r := range refs {
		target, mode := r.Outside, ` TargetMode="External"`
		if r.To != nil {
			placed, err := g.place(r.To)
			if err != nil {
				return err
			}
			target, mode = relativeTo(name, placed), ""
		}
		fmt.Fprintf(&b, `<Relationship Id="%s" Type="%s" Target="%s"%s/>`, splice.Escape(r.ID),
			g.relType(r.Kind), splice.Escape(target), mode)
	}
	b.WriteString(`</Relationships>`)
	rels := relsName(name)
	g.reserve(rels)
	g.fresh = slices.Insert(g.fresh, at, g.packer.pack(rels, g.host.parts[key(rels)], []byte(b.String())))
	return nil
}

// strictSpaces pairs the namespaces of the two conformance classes (ISO/IEC 29500-1 and -4).
var strictSpaces = strings.NewReplacer(
	`"`+nsMain+`"`, `"`+strictMain+`"`,
	`"`+nsRels+`"`, `"`+strictRels+`"`,
	`"http://schemas.openxmlformats.org/drawingml/2006/main"`, `"http://purl.oclc.org/ooxml/drawingml/main"`,
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
	if g.host.strict && kind != "vmlDrawing" {
		return strictRels + "/" + kind
	}
	return nsRels + "/" + kind
}
