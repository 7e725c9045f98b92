package scan

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
	"unicode/utf8"
)

// FuzzScan compares with encoding/xml: what the scanner accepts, the standard library must
// read to its end. (The scanner refuses more: undeclared prefixes, repeated attributes.)
func FuzzScan(f *testing.F) {
	f.Add([]byte(`<row r="1"><c r="A1" t="s"><v>0</v></c></row>`))
	f.Add([]byte(`<a b='1'><!-- c --><?d e?><![CDATA[<]]>&#x41;</a>`))
	f.Add([]byte(`<x:a xmlns:x="u" x:b="&lt;"/>`))
	f.Fuzz(func(t *testing.T, text []byte) {
		if !comparable(text) {
			return
		}
		var s Scanner
		err := s.Read(bytes.NewReader(text), ignore{})
		if inMemory := s.Text(text, ignore{}); (err == nil) != (inMemory == nil) {
			t.Fatalf("%q: %v through the window, %v in memory", text, err, inMemory)
		}
		if err != nil {
			return
		}
		d := xml.NewDecoder(bytes.NewReader(text))
		for {
			_, err := d.Token()
			if errors.Is(err, io.EOF) {
				return
			}
			if err != nil {
				t.Fatalf("%q passes, but: %v", text, err)
			}
		}
	})
}

// comparable leaves out where the two differ by intent: letters beyond ASCII in names, two
// hyphens in a comment, what an instruction may say, and names with colons.
func comparable(text []byte) bool {
	s := string(text)
	return !strings.Contains(s, "<?") && !strings.Contains(s, "<!--") && utf8.Valid(text) &&
		!bytes.ContainsFunc(text, func(r rune) bool { return r >= 0x80 }) && !strings.Contains(s, ":")
}

type ignore struct{}

func (ignore) Open(Tag) error                   { return nil }
func (ignore) Text([]byte) error                { return nil }
func (ignore) Close([]byte, int64, int64) error { return nil }
