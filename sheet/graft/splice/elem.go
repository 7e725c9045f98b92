package splice

import (
	"bytes"
	"iter"
	"strings"

	"dryfit/sheet/gate/scan"
)

// Elem is one element of a Tree. The zero Elem is no element.
type Elem struct {
	t *Tree
	i int32
}

// Root returns the root element.
func (t *Tree) Root() Elem { return Elem{t, 0} }

func (e Elem) node() *node { return &e.t.nodes[e.i] }

// Ok reports whether e is an element.
func (e Elem) Ok() bool { return e.t != nil }

// Name returns the local name.
func (e Elem) Name() string { return e.node().name }

// Space returns the namespace.
func (e Elem) Space() string { return e.node().space }

func (e Elem) tag() []byte {
	n := e.node()
	length := int32(len(n.name))
	if n.prefixLen > 0 {
		length += n.prefixLen + 1
	}
	return e.t.Text[n.start+1 : n.start+1+length]
}

// Prefix returns the prefix of the element's name with its colon, or "".
func (e Elem) Prefix() string {
	n := e.node()
	if n.prefixLen == 0 {
		return ""
	}
	return string(e.t.Text[n.start+1 : n.start+2+n.prefixLen])
}

// PrefixFor returns the prefix, with its colon, that an attribute on a child of e can use
// for the namespace, and whether there is one.
func (e Elem) PrefixFor(space string) (string, bool) {
	t := e.t
	for s := e.node().scope; s >= 0; s = t.scope[s].outer {
		b := t.scope[s]
		if b.uri != space || b.prefix == "" {
			continue
		}
		if t.lookup(e.node().scope, b.prefix) == space {
			return b.prefix + ":", true
		}
	}
	return "", false
}

// Start and End are the byte offsets of the element in the text.
func (e Elem) Start() int { return int(e.node().start) }

// End is the offset of the byte after the element.
func (e Elem) End() int { return int(e.node().end) }

// Children yields the child elements in order.
func (e Elem) Children() iter.Seq[Elem] {
	return func(yield func(Elem) bool) {
		for c := e.node().child; c >= 0; c = e.t.nodes[c].next {
			if !yield(Elem{e.t, c}) {
				return
			}
		}
	}
}

// Child returns the first child of that name in e's own namespace; not Ok when absent.
func (e Elem) Child(name string) Elem {
	for c := range e.Children() {
		if c.Name() == name && c.Space() == e.Space() {
			return c
		}
	}
	return Elem{}
}

// Named yields the children of that name in e's own namespace. A zero e yields none.
func (e Elem) Named(name string) iter.Seq[Elem] {
	return func(yield func(Elem) bool) {
		if !e.Ok() {
			return
		}
		for c := range e.Children() {
			if c.Name() == name && c.Space() == e.Space() && !yield(c) {
				return
			}
		}
	}
}

// Attr is one attribute with its value unescaped. Space is "" for one without a prefix.
type Attr struct{ Prefix, Space, Name, Value string }

// Attrs yields the attributes in order, without the namespace declarations.
func (e Elem) Attrs() iter.Seq[Attr] {
	return func(yield func(Attr) bool) {
		n := e.node()
		for _, a := range e.t.attrs[n.attr0:n.attr1] {
			if a.prefix == "xmlns" || a.prefix == "" && a.local == "xmlns" {
				continue
			}
			space := ""
			if a.prefix != "" {
				space = e.t.lookup(n.scope, a.prefix)
			}
			if !yield(Attr{a.prefix, space, a.local, Unescape(e.t.Text[a.val0:a.val1])}) {
				return
			}
		}
	}
}

// Attr returns the value of the attribute without a prefix, unescaped.
func (e Elem) Attr(name string) (string, bool) {
	a := e.find(name)
	if a == nil {
		return "", false
	}
	return Unescape(e.t.Text[a.val0:a.val1]), true
}

// AttrIn returns the value of the attribute in a namespace, unescaped.
func (e Elem) AttrIn(space, name string) (string, bool) {
	for a := range e.Attrs() {
		if a.Name == name && a.Space == space {
			return a.Value, true
		}
	}
	return "", false
}

func (e Elem) find(name string) *attr {
	n := e.node()
	for i := n.attr0; i < n.attr1; i++ {
		if a := &e.t.attrs[i]; a.local == name && a.prefix == "" {
			return a
		}
	}
	return nil
}

// Body returns the raw bytes between the tags.
func (e Elem) Body() []byte {
	n := e.node()
	return e.t.Text[n.openEnd:n.closeStart]
}

// Outer returns the raw bytes of the whole element.
func (e Elem) Outer() []byte {
	n := e.node()
	return e.t.Text[n.start:n.end]
}

// Value returns the text of an element that holds only text, unescaped.
func (e Elem) Value() string {
	body := e.Body()
	if !bytes.Contains(body, []byte("<")) {
		return Unescape(body)
	}
	var b strings.Builder
	for len(body) > 0 {
		at := bytes.IndexByte(body, '<')
		if at < 0 {
			b.WriteString(Unescape(body))
			break
		}
		b.WriteString(Unescape(body[:at]))
		body = body[at:]
		if rest, ok := bytes.CutPrefix(body, []byte("<![CDATA[")); ok {
			inside, after, _ := bytes.Cut(rest, []byte("]]>"))
			b.Write(inside)
			body = after
			continue
		}
		end := ">"
		if bytes.HasPrefix(body, []byte("<!--")) {
			end = "-->"
		}
		_, body, _ = bytes.Cut(body, []byte(end))
	}
	return b.String()
}

// Unescape resolves the references of XML text. The text must have been parsed.
func Unescape(b []byte) string {
	if bytes.IndexByte(b, '&') < 0 {
		return string(b)
	}
	var out strings.Builder
	for len(b) > 0 {
		at := bytes.IndexByte(b, '&')
		if at < 0 {
			break
		}
		out.Write(b[:at])
		name, rest, _ := bytes.Cut(b[at+1:], []byte(";"))
		if r, ok := scan.Reference(name); ok {
			out.WriteRune(r)
		}
		b = rest
	}
	out.Write(b)
	return out.String()
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;",
	"\t", "&#9;", "\n", "&#10;", "\r", "&#13;")

// Escape makes text fit for an element or a double-quoted attribute.
func Escape(s string) string { return escaper.Replace(s) }
