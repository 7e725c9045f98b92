package part

import (
	"strings"
	"unicode/utf8"
)

// plain tells the bytes that stand in XML as they are, in a text and between double quotes.
var plain = func() (table [256]bool) {
	for b := ' '; b < utf8.RuneSelf; b++ {
		table[b] = b != '&' && b != '<' && b != '>' && b != '"' && b != '_'
	}
	return table
}()

// AppendText appends s as the content of an element. What XML cannot hold is written as
// _xHHHH_, and a text that looks like that has its first line written so (ECMA-376 Part 1,
// 22.9.2.19); bytes that are no UTF-8 become U+FFFD.
func AppendText(b []byte, s string) []byte { return appendEscaped(b, s, false) }

// AppendValue appends s as the value of an attribute in double quotes.
func AppendValue(b []byte, s string) []byte { return appendEscaped(b, s, true) }

func appendEscaped(b []byte, s string, quoted bool) []byte {
	from := 0
	for i := 0; i < len(s); {
		c := s[i]
		if plain[c] {
			i++
			continue
		}
		size, put := 1, ""
		switch {
		case c >= utf8.RuneSelf:
			var r rune
			r, size = utf8.DecodeRuneInString(s[i:])
			switch {
			case r == utf8.RuneError && size == 1:
				put = "\uFFFD"
			case r == 0xFFFE:
				put = "_xFFFE_"
			case r == 0xFFFF:
				put = "_xFFFF_"
			}
		case c == '_' && readAsEscape(s[i:]):
			put = "_x005F_"
		case c == '_':
		case c == '\t' || c == '\n' || c == '"':
			if quoted {
				put = references[c]
			}
		default:
			put = references[c]
		}
		if put != "" {
			b = append(append(b, s[from:i]...), put...)
			from = i + size
		}
		i += size
	}
	return append(b, s[from:]...)
}

// references are the spellings of what may not stand as it is.
var references = func() (table [utf8.RuneSelf]string) {
	const hex = "0123456789ABCDEF"
	for c := range 32 {
		table[c] = "_x00" + hex[c>>4:c>>4+1] + hex[c&15:c&15+1] + "_"
	}
	table['\t'], table['\n'] = "&#9;", "&#10;"
	table['&'], table['<'], table['>'], table['"'] = "&amp;", "&lt;", "&gt;", "&quot;"
	return table
}()

// readAsEscape reports whether a reader would take the beginning of s, once it is written, for a
// character: _x000D_, also where the last line belongs to what is written for a letter behind.
func readAsEscape(s string) bool {
	if len(s) < 7 || s[0] != '_' || s[1] != 'x' {
		return false
	}
	for _, c := range []byte(s[2:6]) {
		if (c < '0' || c > '9') && (c < 'A' || c > 'F') && (c < 'a' || c > 'f') {
			return false
		}
	}
	next := s[6]
	return next == '_' || next < ' ' || strings.HasPrefix(s[6:], "\uFFFE") || strings.HasPrefix(s[6:], "\uFFFF")
}

// appendT appends a <t> element. Blanks at its ends would be lost without a word.
func appendT(b []byte, s string) []byte {
	if s != "" && (isBlank(s[0]) || isBlank(s[len(s)-1])) {
		b = append(b, `<t xml:space="preserve">`...)
	} else {
		b = append(b, "<t>"...)
	}
	return append(AppendText(b, s), "</t>"...)
}

func isBlank(c byte) bool { return c == ' ' || c == '\t' || c == '\n' }
