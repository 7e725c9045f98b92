// Package splice edits XML by inserting and cutting text, never by writing a document anew,
// so that every byte nobody asked to change stays what it was. It knows XML and namespaces;
// it must not know what a workbook is.
//
// Parse is strict where encoding/xml is not: an undeclared prefix, a repeated attribute, a
// second root and any DOCTYPE are errors (Extensible Markup Language (XML) 1.0, Fifth
// Edition; Namespaces in XML 1.0, Third Edition).
package splice

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// MaxDepth is how deep elements may nest. Spreadsheet parts stay below 20.
const MaxDepth = 256

// Tree is a parsed document: elements with their byte offsets in Text.
type Tree struct {
	Text  []byte
	nodes []node
	attrs []attr
	scope []binding
	local map[string]string
}

type node struct {
	parent, child, last, next int32 // indexes into nodes, -1 for none
	start, openEnd            int32 // "<" and the byte after the start tag's ">"
	closeStart, end           int32 // "</" (or openEnd) and the byte after the element
	prefixLen                 int32 // 0 for no prefix
	attr0, attr1              int32
	scope                     int32 // innermost binding in force
	selfClosed                bool
	name, space               string // local name, namespace
}

type attr struct {
	prefix, local string
	start         int32 // the blank before the name
	val0, val1    int32
}

type binding struct {
	prefix, uri string
	outer       int32 // index of the next outer binding, -1 for none
}

const xmlSpace = "http://www.w3.org/XML/1998/namespace"

// Parse reads a whole document. The text must be UTF-8, with or without a byte order mark;
// it is kept, not copied. Errors say the byte at which reading stopped.
func Parse(text []byte) (*Tree, error) {
	if len(text) > 1<<30 {
		return nil, fmt.Errorf("%d bytes of XML, more than 1 GiB", len(text))
	}
	t := &Tree{Text: text, local: map[string]string{}}
	t.nodes = make([]node, 0, bytes.Count(text, []byte("<"))/2+1)
	p := parser{t: t, open: -1, scope: -1}
	if err := p.run(); err != nil {
		return nil, fmt.Errorf("byte %d: %w", p.pos, err)
	}
	return t, nil
}

type parser struct {
	t     *Tree
	pos   int
	open  int32 // innermost open element
	scope int32
	depth int
}

func (p *parser) run() error {
	text := p.t.Text
	if !utf8.Valid(text) {
		return fmt.Errorf("text is not valid UTF-8")
	}
	if bytes.HasPrefix(text, []byte("\xef\xbb\xbf")) {
		p.pos = 3
	}
	for p.pos < len(text) {
		lt := bytes.IndexByte(text[p.pos:], '<')
		if lt < 0 {
			lt = len(text) - p.pos
		}
		if err := p.chars(text[p.pos : p.pos+lt]); err != nil {
			return err
		}
		p.pos += lt
		if p.pos == len(text) {
			break
		}
		if err := p.markup(); err != nil {
			return err
		}
	}
	switch {
	case p.open >= 0:
		return fmt.Errorf("the document ends inside <%s>", p.t.nodes[p.open].name)
	case len(p.t.nodes) == 0:
		return fmt.Errorf("no element at all")
	}
	return nil
}

// chars checks text between tags.
func (p *parser) chars(s []byte) error {
	if p.open < 0 {
		if skipSpace(s, 0) < len(s) {
			return fmt.Errorf("text %q outside the root element", clip(s))
		}
		return nil
	}
	if bytes.Contains(s, []byte("]]>")) {
		return fmt.Errorf("]]> in text")
	}
	return checkText(s)
}

func (p *parser) markup() error {
	rest := p.t.Text[p.pos:]
	switch {
	case bytes.HasPrefix(rest, []byte("<!--")):
		return p.skip("<!--", "-->")
	case bytes.HasPrefix(rest, []byte("<![CDATA[")):
		if p.open < 0 {
			return fmt.Errorf("CDATA outside the root element")
		}
		return p.skip("<![CDATA[", "]]>")
	case bytes.HasPrefix(rest, []byte("<?")):
		return p.skip("<?", "?>")
	case bytes.HasPrefix(rest, []byte("<!")):
		return fmt.Errorf("a document type declaration")
	case bytes.HasPrefix(rest, []byte("</")):
		return p.closeTag()
	}
	return p.openTag()
}

func (p *parser) skip(from, to string) error {
	n := bytes.Index(p.t.Text[p.pos+len(from):], []byte(to))
	if n < 0 {
		return fmt.Errorf("%s without %s", from, to)
	}
	p.pos += len(from) + n + len(to)
	return nil
}

func (p *parser) closeTag() error {
	if p.open < 0 {
		return fmt.Errorf("end tag without a start tag")
	}
	n := &p.t.nodes[p.open]
	text := p.t.Text
	nameEnd := p.pos + 2
	for nameEnd < len(text) && isName(text[nameEnd]) {
		nameEnd++
	}
	want := Elem{p.t, p.open}.tag()
	if got := text[p.pos+2 : nameEnd]; !bytes.Equal(got, want) {
		return fmt.Errorf("</%s> where </%s> was expected", clip(got), want)
	}
	end := skipSpace(text, nameEnd)
	if end >= len(text) || text[end] != '>' {
		return fmt.Errorf("unfinished end tag of %s", want)
	}
	n.closeStart, n.end = int32(p.pos), int32(end+1)
	p.pos = end + 1
	p.leave()
	return nil
}

func (p *parser) leave() {
	n := &p.t.nodes[p.open]
	p.open = n.parent
	p.scope = -1
	if p.open >= 0 {
		p.scope = p.t.nodes[p.open].scope
	}
	p.depth--
}

func (p *parser) openTag() error {
	t, text := p.t, p.t.Text
	if p.open < 0 && len(t.nodes) > 0 {
		return fmt.Errorf("a second root element")
	}
	if p.depth++; p.depth > MaxDepth {
		return fmt.Errorf("elements nest deeper than %d", MaxDepth)
	}
	nameEnd := p.pos + 1
	for nameEnd < len(text) && isName(text[nameEnd]) {
		nameEnd++
	}
	prefix, local, err := splitName(text[p.pos+1 : nameEnd])
	if err != nil {
		return err
	}
	n := node{parent: p.open, child: -1, last: -1, next: -1, start: int32(p.pos),
		prefixLen: int32(len(prefix)), name: t.intern(local), attr0: int32(len(t.attrs))}
	end, selfClosed, err := p.attributes(nameEnd)
	if err != nil {
		return err
	}
	n.attr1, n.openEnd, n.selfClosed = int32(len(t.attrs)), int32(end), selfClosed
	if err := p.bind(&n, string(prefix)); err != nil {
		return err
	}
	id := int32(len(t.nodes))
	if p.open >= 0 {
		up := &t.nodes[p.open]
		if up.last < 0 {
			up.child = id
		} else {
			t.nodes[up.last].next = id
		}
		up.last = id
	}
	n.closeStart, n.end = n.openEnd, n.openEnd
	t.nodes = append(t.nodes, n)
	p.open, p.scope, p.pos = id, n.scope, end
	if selfClosed {
		p.leave()
	}
	return nil
}

// attributes reads up to and including the ">" and returns the byte after it.
func (p *parser) attributes(at int) (end int, selfClosed bool, err error) {
	t, text := p.t, p.t.Text
	first := len(t.attrs)
	for {
		blank := at
		at = skipSpace(text, at)
		switch {
		case at >= len(text):
			return 0, false, fmt.Errorf("unfinished start tag")
		case text[at] == '>':
			return at + 1, false, nil
		case text[at] == '/' && at+1 < len(text) && text[at+1] == '>':
			return at + 2, true, nil
		case at == blank:
			return 0, false, fmt.Errorf("no blank before %q", clip(text[at:]))
		}
		nameEnd := at
		for nameEnd < len(text) && isName(text[nameEnd]) {
			nameEnd++
		}
		prefix, local, err := splitName(text[at:nameEnd])
		if err != nil {
			return 0, false, err
		}
		eq := skipSpace(text, nameEnd)
		if eq >= len(text) || text[eq] != '=' {
			return 0, false, fmt.Errorf("attribute %s without a value", local)
		}
		quote := skipSpace(text, eq+1)
		if quote >= len(text) || text[quote] != '"' && text[quote] != '\'' {
			return 0, false, fmt.Errorf("value of attribute %s without quotes", local)
		}
		n := bytes.IndexByte(text[quote+1:], text[quote])
		if n < 0 {
			return 0, false, fmt.Errorf("value of attribute %s has no end", local)
		}
		val := text[quote+1 : quote+1+n]
		if bytes.IndexByte(val, '<') >= 0 {
			return 0, false, fmt.Errorf("< in the value of attribute %s", local)
		}
		if err := checkText(val); err != nil {
			return 0, false, fmt.Errorf("attribute %s: %w", local, err)
		}
		a := attr{prefix: t.intern(prefix), local: t.intern(local), start: int32(blank),
			val0: int32(quote + 1), val1: int32(quote + 1 + n)}
		for _, b := range t.attrs[first:] {
			if b.local == a.local && b.prefix == a.prefix {
				return 0, false, fmt.Errorf("attribute %s given twice", local)
			}
		}
		t.attrs = append(t.attrs, a)
		at = quote + n + 2
	}
}

// bind puts the element's own namespace declarations in force and resolves every prefix.
func (p *parser) bind(n *node, prefix string) error {
	t := p.t
	scope := p.scope
	for _, a := range t.attrs[n.attr0:n.attr1] {
		if a.prefix == "xmlns" || a.prefix == "" && a.local == "xmlns" {
			name := a.local
			if a.prefix == "" {
				name = ""
			}
			uri := Unescape(t.Text[a.val0:a.val1])
			if uri == "" && name != "" {
				return fmt.Errorf("prefix %s bound to nothing", name)
			}
			t.scope = append(t.scope, binding{name, uri, scope})
			scope = int32(len(t.scope) - 1)
		}
	}
	n.scope = scope
	var ok bool
	if n.space, ok = t.lookup(scope, prefix); !ok {
		return fmt.Errorf("element %s: prefix %s is not declared", n.name, prefix)
	}
	for _, a := range t.attrs[n.attr0:n.attr1] {
		if a.prefix == "" || a.prefix == "xmlns" {
			continue
		}
		if _, ok := t.lookup(scope, a.prefix); !ok {
			return fmt.Errorf("attribute %s: prefix %s is not declared", a.local, a.prefix)
		}
	}
	return nil
}

func (t *Tree) lookup(scope int32, prefix string) (string, bool) {
	if prefix == "xml" {
		return xmlSpace, true
	}
	for ; scope >= 0; scope = t.scope[scope].outer {
		if t.scope[scope].prefix == prefix {
			return t.scope[scope].uri, true
		}
	}
	return "", prefix == ""
}

func (t *Tree) intern(b []byte) string {
	if len(b) == 0 {
		return ""
	}
	if s, ok := t.local[string(b)]; ok {
		return s
	}
	s := string(b)
	t.local[s] = s
	return s
}

func splitName(b []byte) (prefix, local []byte, err error) {
	if len(b) == 0 || b[0] == '-' || b[0] == '.' || b[0] >= '0' && b[0] <= '9' {
		return nil, nil, fmt.Errorf("a name was expected, not %q", clip(b))
	}
	i := bytes.IndexByte(b, ':')
	if i < 0 {
		return nil, b, nil
	}
	if i == 0 || i == len(b)-1 || bytes.IndexByte(b[i+1:], ':') >= 0 {
		return nil, nil, fmt.Errorf("%q is no qualified name", clip(b))
	}
	return b[:i], b[i+1:], nil
}

// checkText refuses control characters and malformed references.
func checkText(s []byte) error {
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c < 0x20 && c != '\t' && c != '\n' && c != '\r':
			return fmt.Errorf("control character %#x", c)
		case c == '&':
			n := bytes.IndexByte(s[i:], ';')
			if n < 0 {
				return fmt.Errorf("& without ;")
			}
			if _, ok := entity(string(s[i+1 : i+n])); !ok {
				return fmt.Errorf("unknown reference &%s;", clip(s[i+1:i+n]))
			}
			i += n
		}
	}
	return nil
}

func entity(name string) (rune, bool) {
	switch name {
	case "lt":
		return '<', true
	case "gt":
		return '>', true
	case "amp":
		return '&', true
	case "quot":
		return '"', true
	case "apos":
		return '\'', true
	}
	digits, ok := strings.CutPrefix(name, "#")
	if !ok {
		return 0, false
	}
	base := 10
	if h, hex := strings.CutPrefix(digits, "x"); hex {
		digits, base = h, 16
	}
	n, err := strconv.ParseUint(digits, base, 32)
	r := rune(n)
	if err != nil || !utf8.ValidRune(r) || n > utf8.MaxRune || r < 0x20 && r != '\t' && r != '\n' && r != '\r' {
		return 0, false
	}
	return r, true
}

func isName(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' ||
		c == '_' || c == ':' || c == '-' || c == '.' || c >= 0x80
}

func skipSpace(b []byte, at int) int {
	for at < len(b) && (b[at] == ' ' || b[at] == '\n' || b[at] == '\r' || b[at] == '\t') {
		at++
	}
	return at
}

func clip(b []byte) string {
	if len(b) > 40 {
		return string(b[:40]) + "..."
	}
	return string(b)
}
