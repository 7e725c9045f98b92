package graft

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"dryfit/sheet/graft/splice"
)

// Two entries of a styles part mean the same when they differ only in what the schema gives by
// default: programs that save a workbook write defaults out or leave them away, and an entry
// compared as text would be added again at every run.

// defaults are attribute values that say nothing (ECMA-376 Part 1, 18.8; element and
// attribute, value).
var defaults = map[string]string{
	"alignment horizontal": "general", "alignment vertical": "bottom", "alignment textRotation": "0",
	"alignment wrapText": "0", "alignment indent": "0", "alignment relativeIndent": "0",
	"alignment justifyLastLine": "0", "alignment shrinkToFit": "0", "alignment readingOrder": "0",
	"protection locked": "1", "protection hidden": "0",
	"border diagonalUp": "0", "border diagonalDown": "0", "border outline": "1",
	"color tint": "0", "fgColor tint": "0", "bgColor tint": "0",
	"b val": "1", "i val": "1", "strike val": "1", "outline val": "1", "shadow val": "1",
	"condense val": "1", "extend val": "1", "u val": "single",
	"left style": "none", "right style": "none", "top style": "none", "bottom style": "none",
	"diagonal style": "none", "vertical style": "none", "horizontal style": "none",
	"start style": "none", "end style": "none",
	"patternFill patternType": "none",
}

// nothing are whole elements that say nothing, with their one attribute.
var nothing = map[string]string{
	"b val": "0", "i val": "0", "strike val": "0", "outline val": "0", "shadow val": "0",
	"condense val": "0", "extend val": "0", "u val": "none", "vertAlign val": "baseline",
	"scheme val": "none", "charset val": "0",
}

// sides are the lines of a border; one without a style is not drawn, whatever its colour.
var sides = []string{"left", "right", "top", "bottom", "diagonal", "vertical", "horizontal", "start", "end"}

// hollow are elements that say nothing when they hold neither attributes nor children.
var hollow = append([]string{"alignment", "protection", "patternFill", "color", "fgColor", "bgColor"}, sides...)

// meaning is a text that is equal for entries that mean the same; "" for one that says nothing.
func meaning(e splice.Elem) string { return meaningIn(e, "") }

// fillMeaning is meaning for the fill of a cell: a solid one shows only its foreground.
func fillMeaning(e splice.Elem) string { return meaningIn(e, "cell") }

// dxfMeaning is meaning for a conditional format: there solid is the default and a number
// format counts by its code.
func dxfMeaning(e splice.Elem) string { return meaningIn(e, "dxf") }

func meaningIn(e splice.Elem, where string) string {
	name := e.Name()
	var attrs, children []string
	solid := false
	for a := range e.Attrs() {
		if a.Space != "" {
			continue // hints of one program's version
		}
		v := plainValue(name, a.Name, a.Value)
		k := name + " " + a.Name
		if d, ok := nothing[k]; ok && d == v {
			return ""
		}
		if d, ok := defaults[k]; ok && d == v {
			continue
		}
		if k == "patternFill patternType" && v == "solid" {
			solid = true
			if where == "dxf" {
				continue
			}
		}
		if where == "dxf" && k == "numFmt numFmtId" {
			continue
		}
		attrs = append(attrs, a.Name+"="+strconv.Quote(v))
	}
	for c := range e.Children() {
		if solid && where == "cell" && c.Name() == "bgColor" {
			continue
		}
		if m := meaningIn(c, where); m != "" {
			children = append(children, m)
		}
	}
	if slices.Contains(sides, name) && len(attrs) == 0 || name == "patternFill" && where != "dxf" && len(attrs) == 0 {
		return ""
	}
	if len(attrs)+len(children) == 0 && slices.Contains(hollow, name) {
		return ""
	}
	slices.Sort(attrs)
	if name != "gradientFill" { // the order of stops may matter, that of all else does not
		slices.Sort(children)
	}
	if e.Name() == "extLst" {
		children = append(children, string(e.Body()))
	}
	return name + "(" + strings.Join(attrs, " ") + ";" + strings.Join(children, ",") + ")"
}

// plainValue spells a value one way: true as 1, 11.0 as 11, colours with their alpha.
func plainValue(elem, name, v string) string {
	switch {
	case name == "rgb":
		v = strings.ToUpper(v)
		if len(v) == 6 {
			v = "FF" + v
		}
		if len(v) == 8 && v[:2] == "00" { // alpha is not used, and some programs write 00
			v = "FF" + v[2:]
		}
	case elem == "name" || name == "formatCode":
	case v == "true":
		return "1"
	case v == "false":
		return "0"
	default:
		if f, err := strconv.ParseFloat(v, 64); err == nil {
			return strconv.FormatFloat(f, 'g', -1, 64)
		}
	}
	return v
}

// formatMeaning is the meaning of a cell format of the host. The apply flags do not count: a
// cell shows what its format points at.
func (s *styles) formatMeaning(xf splice.Elem) string {
	x := format{numFmt: attrNumber(xf, "numFmtId"), font: attrNumber(xf, "fontId"),
		fill: attrNumber(xf, "fillId"), border: attrNumber(xf, "borderId")}
	parent := "0"
	if v, ok := xf.Attr("xfId"); ok && s.hasParents {
		parent = plainValue("xf", "xfId", v)
	}
	return s.meaningOf(x, xf, parent)
}

func (s *styles) meaningOf(x format, xf splice.Elem, parent string) string {
	var b strings.Builder
	if code, ok := s.numFmts[x.numFmt]; ok && x.numFmt >= firstOwnFormat {
		b.WriteString(strconv.Itoa(s.codes[code]))
	} else {
		b.WriteString(strconv.Itoa(x.numFmt))
	}
	for _, n := range []int{s.fonts.sameAs(x.font), s.fills.sameAs(x.fill), s.borders.sameAs(x.border)} {
		b.WriteByte(' ')
		b.WriteString(strconv.Itoa(n))
	}
	b.WriteString(" " + parent)
	if v, _ := xf.Attr("quotePrefix"); truth(v) {
		b.WriteString(" quote")
	}
	for _, name := range []string{"alignment", "protection", "extLst"} {
		if c := xf.Child(name); c.Ok() {
			b.WriteString(meaning(c))
		}
	}
	return b.String()
}

// copyElem writes an element with its own namespace under the given prefix. Elements and
// attributes of other namespaces declare their prefix where they stand.
func copyElem(e splice.Elem, prefix string) string {
	var b strings.Builder
	writeElem(&b, e, e.Space(), prefix)
	return b.String()
}

func writeElem(b *strings.Builder, e splice.Elem, main, prefix string) {
	declare := map[string]string{}
	name := prefix + e.Name()
	if e.Space() != main {
		name = "o:" + e.Name()
		declare["o"] = e.Space()
	}
	b.WriteString("<" + name)
	for a := range e.Attrs() {
		n := a.Name
		if a.Prefix != "" {
			n = a.Prefix + ":" + a.Name
			if a.Prefix != "xml" {
				declare[a.Prefix] = a.Space
			}
		}
		v := a.Value
		if v == "true" && a.Space == "" && e.Name() != "name" {
			v = "1"
		}
		b.WriteString(" " + n + `="` + splice.Escape(v) + `"`)
	}
	for _, p := range slices.Sorted(maps.Keys(declare)) {
		b.WriteString(" xmlns:" + p + `="` + splice.Escape(declare[p]) + `"`)
	}
	empty := true
	for c := range e.Children() {
		if c.Name() == "color" && meaning(c) == "" { // which one program reads as black, another as automatic
			continue
		}
		if empty {
			b.WriteString(">")
			empty = false
		}
		writeElem(b, c, main, prefix)
	}
	switch text := e.Value(); {
	case !empty:
		b.WriteString("</" + name + ">")
	case text != "":
		b.WriteString(">" + splice.Escape(text) + "</" + name + ">")
	default:
		b.WriteString("/>")
	}
}
