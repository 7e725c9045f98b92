package gate

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
	for _, p := range workbook() {
		f.Add([]byte(p.text))
	}
	f.Add([]byte(`<a b='1'><!-- c --><?d e?><![CDATA[<]]>&#x41;</a>`))
	f.Add([]byte(`<x:a xmlns:x="u" x:b="&lt;"/>`))
	f.Fuzz(func(t *testing.T, text []byte) {
		if !comparable(text) {
			return
		}
		var s scanner
		if err := s.run(bytes.NewReader(text), &content{p: &pass{}}); err != nil {
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
