package part

import (
	"encoding/xml"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"dryfit/sheet/graft/splice"
)

// TestAppendText holds spellings by hand from ECMA-376 Part 1, 22.9.2.19 (ST_Xstring: what XML
// cannot hold is _xHHHH_, and a text that looks so has its first line as _x005F_) and from XML
// 1.0, 2.2 (which characters there are) and 2.4 (which must be escaped).
func TestAppendText(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"", ""},
		{"plain", "plain"},
		{`a<b & c>d "e" 'f'`, `a&lt;b &amp; c&gt;d "e" 'f'`},
		{"two\nlines\tand", "two\nlines\tand"},
		{"a\r\nb", "a_x000D_\nb"},
		{"bell\a", "bell_x0007_"},
		{"\x1f", "_x001F_"},
		{"_x000D_", "_x005F_x000D_"},
		{"_x00g0_ _x000D", "_x00g0_ _x000D"},
		{"_x_x0041_", "_x_x005F_x0041_"},
		{"_x0041\a", "_x005F_x0041_x0007_"},
		{"no\xffUTF", "no\uFFFDUTF"},
		{"\xed\xa0\x80", "\uFFFD\uFFFD\uFFFD"}, // a surrogate alone is no UTF-8
		{"\uFFFE\uFFFF", "_xFFFE__xFFFF_"},
		{"é ■ 木 🪵", "é ■ 木 🪵"},
		{"]]>", "]]&gt;"},
	} {
		if got := string(AppendText(nil, test.text)); got != test.want {
			t.Errorf("%q: %q, want %q", test.text, got, test.want)
		}
	}
	if got := string(AppendValue(nil, "a\"\n\t")); got != "a&quot;&#10;&#9;" {
		t.Errorf("in an attribute: %q", got)
	}
}

// TestBlanksAtTheEnds must be marked: readers take them away (XML 1.0, 2.10).
func TestBlanksAtTheEnds(t *testing.T) {
	for text, kept := range map[string]bool{" a": true, "a ": true, "\na": true, "a\t": true, "a b": false, "a\nb": false, "": false} {
		if got := strings.Contains(string(appendT(nil, text)), `xml:space="preserve"`); got != kept {
			t.Errorf("%q: marked %v", text, got)
		}
	}
}

// FuzzText demands that what is written is sound XML and is read back as what it was, by the
// standard library's parser and by one that keeps to the letter of XML.
func FuzzText(f *testing.F) {
	for _, s := range []string{"", "a", " lead", "_x000D_", "_x005F_", "_x005f_x000D_", "__x0041_", "_x0041\x1d", "0x0000\x1d", "\r\n", "\x00", "\xff", "<&>\"'", "\uFFFE", "🪵", "]]>", "\u2028"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		doc := append(append([]byte(`<c a="`), AppendValue(nil, s)...), `"><is>`...)
		doc = append(appendT(doc, s), `</is></c>`...)
		tree, err := splice.Parse(doc)
		if err != nil {
			t.Fatalf("%q: %v in %s", s, err, doc)
		}
		value, _ := tree.Root().Attr("a")
		text := tree.Root().Child("is").Child("t").Value()
		var c struct {
			A string `xml:"a,attr"`
			T string `xml:"is>t"`
		}
		if err := xml.Unmarshal(doc, &c); err != nil {
			t.Fatalf("%q: %v", s, err)
		}
		for where, got := range map[string]string{"attribute": value, "element": text, "attribute, encoding/xml": c.A, "element, encoding/xml": c.T} {
			if got := resolve(got); got != repaired(s) {
				t.Errorf("%q, %s: read as %q", s, where, got)
			}
		}
	})
}

// repaired is s with U+FFFD for each byte that is no UTF-8.
func repaired(s string) string {
	var b strings.Builder
	for _, r := range s {
		b.WriteRune(r)
	}
	return b.String()
}

// resolve turns _xHHHH_ back, as readers do.
func resolve(s string) string {
	var b strings.Builder
	for len(s) > 0 {
		if len(s) >= 7 && s[:2] == "_x" && s[6] == '_' {
			if n, err := strconv.ParseUint(s[2:6], 16, 16); err == nil {
				b.WriteRune(rune(n))
				s = s[7:]
				continue
			}
		}
		r, size := utf8.DecodeRuneInString(s)
		b.WriteRune(r)
		s = s[size:]
	}
	return b.String()
}

func TestCell(t *testing.T) {
	// The last column and row are those of the format in use: XFD1048576.
	for name, at := range map[string][2]int{"A1": {1, 1}, "Z9": {26, 9}, "AA10": {27, 10}, "AZ1": {52, 1}, "BA1": {53, 1}, "ZZ1": {702, 1}, "AAA1": {703, 1}, "XFD1048576": {16384, 1048576}} {
		if got := Cell(at[0], at[1]); got != name {
			t.Errorf("%v: %s, want %s", at, got, name)
		}
		if c, r, ok := ParseCell(name); !ok || c != at[0] || r != at[1] {
			t.Errorf("%s: %d, %d, %v", name, c, r, ok)
		}
	}
	if c, r, ok := ParseCell("$B$7"); !ok || c != 2 || r != 7 {
		t.Errorf("$B$7: %d, %d, %v", c, r, ok)
	}
	for _, bad := range []string{"", "A", "7", "A0", "a1", "A1B", "A-1", "A+1", "XFE1", "A1048577", "ÄA1"} {
		if _, _, ok := ParseCell(bad); ok {
			t.Errorf("%q passes", bad)
		}
	}
}
