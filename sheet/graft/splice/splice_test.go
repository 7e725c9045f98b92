package splice

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
)

func parse(t testing.TB, text string) *Tree {
	t.Helper()
	tree, err := Parse([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return tree
}

func TestElements(t *testing.T) {
	tree := parse(t, "\xef\xbb\xbf<?xml version='1.0'?><!-- c --><x:a xmlns:x='u' xmlns='v' b='1 &amp; 2' x:c=\"3\"><d/>t<x:d e='&#65;'>y</x:d></x:a>")
	root := tree.Root()
	if root.Name() != "a" || root.Space() != "u" || root.Prefix() != "x:" {
		t.Errorf("root is %s%s in %s", root.Prefix(), root.Name(), root.Space())
	}
	if v, ok := root.Attr("b"); !ok || v != "1 & 2" {
		t.Errorf("b is %q", v)
	}
	if v, ok := root.AttrIn("u", "c"); !ok || v != "3" {
		t.Errorf("c is %q", v)
	}
	if _, ok := root.Attr("c"); ok {
		t.Error("an attribute with a prefix found without it")
	}
	d := root.Child("d")
	if string(d.Outer()) != "<x:d e='&#65;'>y</x:d>" || d.Value() != "y" {
		t.Errorf("the child in the root's own namespace is %q", d.Outer())
	}
	if p, ok := root.PrefixFor("u"); !ok || p != "x:" {
		t.Errorf("prefix for u is %q", p)
	}
	if _, ok := root.PrefixFor("v"); ok {
		t.Error("the default namespace gives attributes a prefix")
	}
}

func TestShadowedPrefix(t *testing.T) {
	inner := parse(t, `<a xmlns:p="u"><b xmlns:p="w"><c/></b></a>`).Root().Child("b")
	if p, ok := inner.PrefixFor("u"); ok {
		t.Errorf("prefix %s is taken by another namespace here", p)
	}
}

func TestValue(t *testing.T) {
	if got := parse(t, "<a>1 &lt; <![CDATA[2 & <b>]]><!-- x > y --> 3</a>").Root().Value(); got != "1 < 2 & <b> 3" {
		t.Errorf("got %q", got)
	}
}

func TestEdits(t *testing.T) {
	const text = `<a n='1' m="2"><b/><c></c><d x="1"/></a>`
	child := func(t *Tree, name string) Elem { return t.Root().Child(name) }
	tests := []struct {
		name string
		edit func(*Tree, *Edits)
		want string
	}{
		{"nothing", func(*Tree, *Edits) {}, text},
		{"append to an open one", func(tr *Tree, d *Edits) { d.Append(child(tr, "c"), "1"); d.Append(child(tr, "c"), "2") }, `<a n='1' m="2"><b/><c>12</c><d x="1"/></a>`},
		{"append to a closed one", func(tr *Tree, d *Edits) { d.Append(child(tr, "b"), "1"); d.Append(child(tr, "b"), "2") }, `<a n='1' m="2"><b>12</b><c></c><d x="1"/></a>`},
		{"append and set in a closed one", func(tr *Tree, d *Edits) { d.Append(child(tr, "d"), "1"); d.SetAttr(child(tr, "d"), "x", `"<`) }, `<a n='1' m="2"><b/><c></c><d x="&quot;&lt;">1</d></a>`},
		{"prepend", func(tr *Tree, d *Edits) { d.Prepend(tr.Root(), "0") }, `<a n='1' m="2">0<b/><c></c><d x="1"/></a>`},
		{"remove", func(tr *Tree, d *Edits) { d.Remove(child(tr, "c")) }, `<a n='1' m="2"><b/><d x="1"/></a>`},
		{"after", func(tr *Tree, d *Edits) { d.After(child(tr, "b"), "x") }, `<a n='1' m="2"><b/>x<c></c><d x="1"/></a>`},
		{"remove and append to the parent", func(tr *Tree, d *Edits) { d.Append(tr.Root(), "9"); d.Remove(child(tr, "d")) }, `<a n='1' m="2"><b/><c></c>9</a>`},
	}
	for _, test := range tests {
		tree := parse(t, text)
		d := tree.Edit()
		test.edit(tree, d)
		if got := string(d.Apply()); got != test.want {
			t.Errorf("%s: %s, want %s", test.name, got, test.want)
		}
		if string(tree.Text) != text {
			t.Errorf("%s: the tree's own text changed", test.name)
		}
	}
}

func TestRefuses(t *testing.T) {
	for _, text := range []string{"", "x", "<a>", "<a></b>", "<a/><b/>", "<a b='1' b='2'/>", "<x:a/>", "<a x:b='1'/>", "<a>&b;</a>",
		"<!DOCTYPE a><a/>", "<a b=1/>", "<a>\x01</a>", "<a>\xff</a>", "<a>]]></a>"} {
		if _, err := Parse([]byte(text)); err == nil {
			t.Errorf("%q is taken", text)
		}
	}
}

func TestEscape(t *testing.T) {
	const text = "a<b>&\"'\t\r\n½"
	if got := Unescape([]byte(Escape(text))); got != text {
		t.Errorf("got %q", got)
	}
}

// FuzzParse compares names, attributes and text with encoding/xml, and demands that no edit
// leaves the text as it is.
func FuzzParse(f *testing.F) {
	f.Add([]byte(`<a b="1&amp;"><c xmlns:x="u" x:d='2'>t</c><e/></a>`))
	f.Fuzz(func(t *testing.T, text []byte) {
		tree, err := Parse(text)
		if err != nil || bytes.Contains(text, []byte("<?")) || bytes.Contains(text, []byte("<!")) || bytes.ContainsAny(text, ":\r") {
			return
		}
		if !bytes.Equal(tree.Edit().Apply(), text) {
			t.Fatal("no edit changes the text")
		}
		for _, r := range string(text) {
			if r >= 0x80 {
				return
			}
		}
		var want, got strings.Builder
		d := xml.NewDecoder(bytes.NewReader(text))
		for {
			tok, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			switch tok := tok.(type) {
			case xml.StartElement:
				want.WriteString("<" + tok.Name.Local)
				for _, a := range tok.Attr {
					if a.Name.Local != "xmlns" {
						want.WriteString(" " + a.Name.Local + "=" + a.Value)
					}
				}
			case xml.EndElement:
				want.WriteString(">")
			}
		}
		walk(&got, tree.Root())
		if got.String() != want.String() {
			t.Fatalf("%q: %s, want %s", text, got.String(), want.String())
		}
	})
}

func walk(b *strings.Builder, e Elem) {
	b.WriteString("<" + e.Name())
	for a := range e.Attrs() {
		b.WriteString(" " + a.Name + "=" + a.Value)
	}
	for c := range e.Children() {
		walk(b, c)
	}
	b.WriteString(">")
}
