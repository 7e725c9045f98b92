// Package splice edits XML by inserting and cutting text, never by writing a document anew,
// so that every byte nobody asked to change stays what it was. It knows XML and namespaces;
// it must not know what a workbook is.
package splice

import (
	"bytes"
	"fmt"

	"dryfit/sheet/gate/scan"
)

// Tree is a parsed document: elements with their byte offsets in Text.
type Tree struct {
	Text  []byte
	nodes []node
	attrs []attr
	scope []binding
	names map[string]string // each name once
}

type node struct {
	parent, child, last, next int32 // indexes into nodes, -1 for none
	start, openEnd            int32 // "<" and the byte behind the start tag
	closeStart, end           int32 // "</" (or openEnd) and the byte behind the element
	prefixLen                 int32 // 0 for no prefix
	attr0, attr1              int32
	scope                     int32 // innermost binding in force
	selfClosed                bool
	name, space               string // local name, namespace
}

type attr struct {
	prefix, local string
	val0, val1    int32
}

type binding struct {
	prefix, uri string
	outer       int32 // index of the next outer binding, -1 for none
}

const xmlSpace = "http://www.w3.org/XML/1998/namespace"

// Parse reads a whole document, with the strictness of package scan. The text must be UTF-8,
// with or without a byte order mark, and below 1 GiB; it is kept, not copied.
func Parse(text []byte) (*Tree, error) {
	if len(text) > 1<<30 {
		return nil, fmt.Errorf("%d bytes of XML, more than 1 GiB", len(text))
	}
	b := builder{t: &Tree{Text: text, names: map[string]string{}}, open: -1}
	b.t.nodes = make([]node, 0, bytes.Count(text, []byte("<"))/2+1)
	var s scan.Scanner
	if err := s.Text(text, &b); err != nil {
		return nil, err
	}
	return b.t, nil
}

// builder makes the tree of what the scanner meets.
type builder struct {
	t    *Tree
	open int32 // innermost open element
}

// Open implements scan.Watcher.
func (b *builder) Open(tag scan.Tag) error {
	t := b.t
	prefix, local := split(tag.Name)
	n := node{parent: b.open, child: -1, last: -1, next: -1,
		start: int32(tag.Start), openEnd: int32(tag.End), selfClosed: tag.SelfClosed,
		prefixLen: int32(len(prefix)), name: t.intern(local), scope: -1, attr0: int32(len(t.attrs))}
	if b.open >= 0 {
		n.scope = t.nodes[b.open].scope
	}
	for _, a := range tag.Attrs {
		prefix, local := split(a.Name)
		t.attrs = append(t.attrs, attr{t.intern(prefix), t.intern(local),
			int32(a.Begin), int32(a.Begin) + int32(len(a.Value))})
		switch {
		case string(prefix) == "xmlns":
			t.scope = append(t.scope, binding{string(local), Unescape(a.Value), n.scope})
			n.scope = int32(len(t.scope) - 1)
		case string(a.Name) == "xmlns":
			t.scope = append(t.scope, binding{"", Unescape(a.Value), n.scope})
			n.scope = int32(len(t.scope) - 1)
		}
	}
	n.attr1 = int32(len(t.attrs))
	n.space = t.lookup(n.scope, string(prefix))
	id := int32(len(t.nodes))
	if b.open >= 0 {
		up := &t.nodes[b.open]
		if up.last < 0 {
			up.child = id
		} else {
			t.nodes[up.last].next = id
		}
		up.last = id
	}
	t.nodes = append(t.nodes, n)
	b.open = id
	return nil
}

// Text implements scan.Watcher.
func (b *builder) Text([]byte) error { return nil }

// Close implements scan.Watcher.
func (b *builder) Close(_ []byte, start, end int64) error {
	n := &b.t.nodes[b.open]
	n.closeStart, n.end = int32(start), int32(end)
	b.open = n.parent
	return nil
}

// lookup resolves a prefix, which the scanner has found declared.
func (t *Tree) lookup(scope int32, prefix string) string {
	if prefix == "xml" {
		return xmlSpace
	}
	for ; scope >= 0; scope = t.scope[scope].outer {
		if t.scope[scope].prefix == prefix {
			return t.scope[scope].uri
		}
	}
	return ""
}

func (t *Tree) intern(b []byte) string {
	if len(b) == 0 {
		return ""
	}
	if s, ok := t.names[string(b)]; ok {
		return s
	}
	s := string(b)
	t.names[s] = s
	return s
}

func split(name []byte) (prefix, local []byte) {
	if i := bytes.IndexByte(name, ':'); i >= 0 {
		return name[:i], name[i+1:]
	}
	return nil, name
}
