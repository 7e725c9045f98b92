package scan

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/iotest"
)

// record writes down what it is told, with the text between the offsets.
type record struct {
	text []byte
	said strings.Builder
}

func (r *record) Open(t Tag) error {
	fmt.Fprintf(&r.said, "%d%s", t.Depth, r.text[t.Start:t.End])
	for _, a := range t.Attrs {
		fmt.Fprintf(&r.said, "[%s|%s]", a.Name, r.text[a.Begin:a.Begin+int64(len(a.Value))])
	}
	return nil
}
func (r *record) Text(piece []byte) error { r.said.Write(piece); return nil }
func (r *record) Close(name []byte, start, end int64) error {
	fmt.Fprintf(&r.said, "(%s %s)", name, r.text[start:end])
	return nil
}

func TestOffsets(t *testing.T) {
	const text = "<?xml version='1.0'?>\n<a b = '1'><!-- c --><x:d xmlns:x=\"u\"/>t<e ></e\n></a>\n"
	const want = "1<a b = '1'>[b|1]" + `2<x:d xmlns:x="u"/>[xmlns:x|u](x:d )` + "t2<e >(e </e\n>)(a </a>)"
	var s Scanner
	for _, name := range []string{"in memory", "through the window", "byte by byte"} {
		r := &record{text: []byte(text)}
		var err error
		switch name {
		case "in memory":
			err = s.Text(r.text, r)
		case "through the window":
			err = s.Read(bytes.NewReader(r.text), r)
		default:
			err = s.Read(iotest.OneByteReader(bytes.NewReader(r.text)), r)
		}
		if err != nil || r.said.String() != want {
			t.Errorf("%s: %v, %s, want %s", name, err, r.said.String(), want)
		}
	}
}

func TestRefused(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"", "no element"},
		{"<a>", "cut off"},
		{"<a", "cut off"},
		{"<a><!-- ", "cut off"},
		{"<a></b>", "was expected"},
		{"</a>", "without its start"},
		{"<a/><b/>", "second root"},
		{"<a/>x", "outside"},
		{"<a><b xmlns:x='u'/><x:c/></a>", "not declared"},
		{"<a x:b='1'/>", "not declared"},
		{"<a b='1' b='2'/>", "twice"},
		{"<a b='<'/>", "<"},
		{"<a b/>", "without a value"},
		{"<a b=1/>", "no quotes"},
		{"<a b='1'c='2'/>", "no tag"},
		{"<1a/>", "without a name"},
		{"<a>&x;</a>", "not known"},
		{"<a>&amp</a>", "begins no reference"},
		{"<a>&#0;</a>", "not known"},
		{"<a>&#xD800;</a>", "not known"},
		{"<a>]]></a>", "]]>"},
		{"<a>\x00</a>", "control"},
		{"<a>\xc3</a>", "UTF-8"},
		{"<!DOCTYPE a><a/>", "document type"},
		{strings.Repeat("<a>", MaxDepth+1), "deeper"},
	} {
		var s Scanner
		var broken *Error
		if err := s.Text([]byte(test.text), ignore{}); !errors.As(err, &broken) || !strings.Contains(broken.Reason, test.want) {
			t.Errorf("%q in memory: %v, want %q", test.text, err, test.want)
		}
		if err := s.Read(strings.NewReader(test.text), ignore{}); !errors.As(err, &broken) || !strings.Contains(broken.Reason, test.want) {
			t.Errorf("%q through the window: %v, want %q", test.text, err, test.want)
		}
	}
}
