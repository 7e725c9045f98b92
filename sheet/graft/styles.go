package graft

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"

	"dryfit/sheet/graft/splice"
)

// maxFormats is how many cell formats a workbook may hold; spreadsheet programs stop a little
// above (65,490 in the specification sheet of the most used one, from memory).
const maxFormats = 64000

// styleOrder is the sequence of CT_Stylesheet (ECMA-376 Part 1, 18.8.39).
var styleOrder = []string{"numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs",
	"cellStyles", "dxfs", "tableStyles", "colors", "extLst"}

// seeds are the entries a list must begin with where the host has none: a cell without a
// format has entry 0 of each, and fills 0 and 1 are reserved.
var seeds = map[string][]string{
	"fonts":   {`<font><sz val="11"/><name val="Calibri"/><family val="2"/></font>`},
	"fills":   {`<fill><patternFill patternType="none"/></fill>`, `<fill><patternFill patternType="gray125"/></fill>`},
	"borders": {`<border><left/><right/><top/><bottom/><diagonal/></border>`},
	"cellXfs": {`<xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>`},
}

// Format is how a cell looks: elements of the styles part, written without a prefix and without
// a namespace; "" for the default. Formats compare equal.
type Format struct {
	Font    string // <font>
	Fill    string // <fill>
	Border  string // <border>
	Details string // <alignment> and <protection>
	Code    string // number format
}

func readNumFmts(root splice.Elem) map[int]string {
	codes := map[int]string{}
	for e := range root.Child("numFmts").Named("numFmt") {
		id, _ := e.Attr("numFmtId")
		codes[number(id, -1)], _ = e.Attr("formatCode")
	}
	return codes
}

// styles is the styles part of the host, to which formats of ours are added as the tabs ask
// for them. An equal entry of the host is used again.
type styles struct {
	name    string
	old     bool // the host has the part
	related bool // the host has only a relationship to it
	edits   *splice.Edits
	root    splice.Elem
	err     error // the first; it ends the run after the tab that met it

	fonts, fills, borders, formats, dxfs *styleList
	numFmts                              map[int]string
	codes                                map[string]int // code to the lowest number that has it
	newCodes                             []int
	hasParents                           bool // a cellStyleXfs list for xfId to point into

	mapped    map[Format]int
	mappedDxf map[string]int
}

// styleList is one list of the styles part.
type styleList struct {
	name  string
	elem  splice.Elem // not Ok where the host has no such list
	count int
	index map[string]int // meaning to number of the first entry that has it
	same  []int          // number of the first entry that means the same
	added []string
}

const noStyles = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n" + `<styleSheet xmlns="%s"/>`

func (g *grafting) openStyles() (*styles, error) {
	h := g.host
	s := &styles{mapped: map[Format]int{{}: 0}, mappedDxf: map[string]int{}}
	var tree *splice.Tree
	var err error
	r, related := h.relation("styles")
	switch {
	case related && h.parts[key(r.target)] != nil:
		s.name, s.old = r.target, true
		tree, err = h.tree(r.target)
	case related: // a relationship that leads nowhere: fill the gap
		s.name, s.related = r.target, true
		g.reserve(s.name)
	default:
		s.name = g.freeName(path.Join(h.base(), "styles.xml"))
	}
	if tree == nil && err == nil {
		space := nsMain
		if h.strict {
			space = strictMain
		}
		tree, err = splice.Parse(fmt.Appendf(nil, noStyles, space))
	}
	if err != nil {
		return nil, err
	}
	s.edits, s.root = tree.Edit(), tree.Root()
	if s.root.Name() != "styleSheet" {
		return nil, refuse("its part %s holds %q, not styles", s.name, s.root.Name())
	}
	s.numFmts, s.codes = readNumFmts(s.root), map[string]int{}
	for id, code := range s.numFmts {
		if have, ok := s.codes[code]; id >= firstOwnFormat && (!ok || id < have) {
			s.codes[code] = id
		}
	}
	s.hasParents = s.root.Child("cellStyleXfs").Ok()
	s.fonts = s.list("fonts", "font", meaning)
	s.fills = s.list("fills", "fill", fillMeaning)
	s.borders = s.list("borders", "border", meaning)
	s.dxfs = s.list("dxfs", "dxf", dxfMeaning)
	s.formats = s.list("cellXfs", "xf", s.formatMeaning)
	return s, nil
}

func (s *styles) list(name, each string, of func(splice.Elem) string) *styleList {
	l := &styleList{name: name, elem: s.root.Child(name), index: map[string]int{}}
	for e := range l.elem.Named(each) {
		m := of(e)
		if _, ok := l.index[m]; !ok {
			l.index[m] = l.count
		}
		l.same = append(l.same, l.index[m])
		l.count++
	}
	return l
}

// sameAs is the first entry that means the same as entry n, or n where there is none.
func (l *styleList) sameAs(n int) int {
	if n >= 0 && n < len(l.same) {
		return l.same[n]
	}
	return n
}

// entry returns the number of the entry with this meaning, adding it where there is none.
func (s *styles) entry(l *styleList, meaning string, text func() string) int {
	if n, ok := l.index[meaning]; ok {
		return n
	}
	if l.count == 0 {
		for _, seed := range seeds[l.name] {
			l.added = append(l.added, s.prefixed(seed))
			l.same = append(l.same, l.count)
			l.count++
		}
	}
	l.added = append(l.added, text())
	l.index[meaning] = l.count
	l.same = append(l.same, l.count)
	l.count++
	return l.count - 1
}

// prefixed gives the elements of a seed the prefix of the host.
func (s *styles) prefixed(seed string) string {
	p := s.root.Prefix()
	if p == "" {
		return seed
	}
	seed = strings.ReplaceAll(seed, "</", "\x00")
	seed = strings.ReplaceAll(seed, "<", "<"+p)
	return strings.ReplaceAll(seed, "\x00", "</"+p)
}

// format returns the host's number of one of our cell formats.
func (s *styles) format(f Format) int {
	if n, ok := s.mapped[f]; ok {
		return n
	}
	x := format{
		font:    s.element(s.fonts, f.Font, meaning),
		fill:    s.element(s.fills, f.Fill, fillMeaning),
		border:  s.element(s.borders, f.Border, meaning),
		numFmt:  s.numFmt(f.Code),
		details: s.parse("<xf>" + f.Details + "</xf>"),
	}
	if s.err != nil {
		return 0
	}
	n := s.entry(s.formats, s.meaningOf(x, x.details, "0"), func() string { return s.formatText(x) })
	if n >= maxFormats {
		s.err = refuse("it has %d cell formats, and a workbook can hold no more", s.formats.count)
		return 0
	}
	s.mapped[f] = n
	return n
}

// conditional returns the host's number of one of our conditional formats.
func (s *styles) conditional(dxf string) int {
	n, ok := s.mappedDxf[dxf]
	if !ok {
		n = s.element(s.dxfs, dxf, dxfMeaning)
		s.mappedDxf[dxf] = n
	}
	return n
}

// element returns the number that one of our elements has in a list of the host.
func (s *styles) element(l *styleList, text string, of func(splice.Elem) string) int {
	if text == "" {
		return 0
	}
	e := s.parse(text)
	if s.err != nil {
		return 0
	}
	return s.entry(l, of(e), func() string { return s.copy(e) })
}

func (s *styles) parse(text string) splice.Elem {
	t, err := splice.Parse([]byte(text))
	if err != nil {
		s.err = fmt.Errorf("format %.80q: %w", text, err)
		return splice.Elem{}
	}
	return t.Root()
}

// firstOwnFormat is the first number of a number format that is not built in (ECMA-376
// Part 1, 18.8.30).
const firstOwnFormat = 164

// builtInFormats are numbers of codes that every workbook has (ECMA-376 Part 1, 18.8.30).
var builtInFormats = map[string]int{"": 0, "General": 0, "0": 1, "0.00": 2, "#,##0": 3, "#,##0.00": 4, "0%": 9, "0.00%": 10}

func (s *styles) numFmt(code string) int {
	if id, ok := builtInFormats[code]; ok {
		return id
	}
	if id, ok := s.codes[code]; ok {
		return id
	}
	id := firstOwnFormat
	for n := range s.numFmts {
		id = max(id, n+1)
	}
	s.numFmts[id], s.codes[code] = code, id
	s.newCodes = append(s.newCodes, id)
	return id
}

// format is a cell format in the host's numbers; details holds alignment and protection.
type format struct {
	numFmt, font, fill, border int
	details                    splice.Elem
}

func (s *styles) formatText(x format) string {
	p := s.formats.elem
	prefix := s.root.Prefix()
	if p.Ok() {
		prefix = p.Prefix()
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<%sxf numFmtId="%d" fontId="%d" fillId="%d" borderId="%d"`, prefix, x.numFmt, x.font, x.fill, x.border)
	if s.hasParents {
		b.WriteString(` xfId="0"`)
	}
	if v, _ := x.details.Attr("quotePrefix"); truth(v) {
		b.WriteString(` quotePrefix="1"`)
	}
	for _, a := range []struct {
		used bool
		name string
	}{{x.numFmt != 0, "applyNumberFormat"}, {x.font != 0, "applyFont"}, {x.fill != 0, "applyFill"}, {x.border != 0, "applyBorder"},
		{s.said(x.details, "alignment"), "applyAlignment"}, {s.said(x.details, "protection"), "applyProtection"}} {
		if a.used {
			b.WriteString(" " + a.name + `="1"`)
		}
	}
	inside := ""
	for _, name := range []string{"alignment", "protection"} {
		if s.said(x.details, name) {
			inside += copyElem(x.details.Child(name), prefix)
		}
	}
	if inside == "" {
		return b.String() + "/>"
	}
	return b.String() + ">" + inside + "</" + prefix + "xf>"
}

// said reports whether a format has a child that differs from the default.
func (s *styles) said(xf splice.Elem, name string) bool {
	c := xf.Child(name)
	return c.Ok() && meaning(c) != ""
}

// copy writes one of our elements with the host's prefix.
func (s *styles) copy(e splice.Elem) string { return copyElem(e, s.root.Prefix()) }

// flush turns what was added into edits of the host's part. It returns the text of the part
// where the host had none.
func (s *styles) flush() []byte {
	lists := map[string]*styleList{}
	for _, l := range []*styleList{s.fonts, s.fills, s.borders, s.formats, s.dxfs} {
		lists[l.name] = l
	}
	lists["numFmts"] = s.numFmtList()
	for _, name := range styleOrder {
		l := lists[name]
		if l == nil || len(l.added) == 0 {
			continue
		}
		text := strings.Join(l.added, "")
		if l.elem.Ok() {
			s.edits.Append(l.elem, text)
			s.edits.SetAttr(l.elem, "count", strconv.Itoa(l.count))
			continue
		}
		p := s.root.Prefix()
		s.insert(name, fmt.Sprintf(`<%s%s count="%d">%s</%[1]s%[2]s>`, p, name, l.count, text))
	}
	if s.old {
		return nil
	}
	return s.edits.Apply()
}

func (s *styles) numFmtList() *styleList {
	l := &styleList{name: "numFmts", elem: s.root.Child("numFmts"), count: len(s.newCodes)}
	for range l.elem.Named("numFmt") {
		l.count++
	}
	p := s.root.Prefix()
	for _, id := range s.newCodes {
		l.added = append(l.added, fmt.Sprintf(`<%snumFmt numFmtId="%d" formatCode="%s"/>`, p, id, splice.Escape(s.numFmts[id])))
	}
	return l
}

// insert puts a new list where the schema wants it.
func (s *styles) insert(name, text string) {
	var before splice.Elem
	place := slices.Index(styleOrder, name)
	for c := range s.root.Children() {
		if i := slices.Index(styleOrder, c.Name()); i >= 0 && i < place {
			before = c
		}
	}
	if before.Ok() {
		s.edits.After(before, text)
		return
	}
	s.edits.Prepend(s.root, text)
}

func attrNumber(e splice.Elem, name string) int {
	v, _ := e.Attr(name)
	return number(v, 0)
}
