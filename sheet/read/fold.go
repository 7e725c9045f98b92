package read

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// fold makes spellings equal that a reader takes for one word: case, accents, width, line
// breaks, full stops, hyphens and double blanks do not count. Apostrophes fall away (Mat'l is
// matl), other signs part words; # and % stay.
func fold(s string) string {
	if key, ok := foldASCII(s); ok {
		return key
	}
	var b strings.Builder
	gap := false
	for _, r := range norm.NFKD.String(s) {
		switch {
		case unicode.Is(unicode.Mn, r) || r == '\u00ad' || strings.ContainsRune("'’‘´`\u200b\ufeff", r):
			continue
		case unicode.IsLetter(r) || unicode.IsDigit(r) || r == '#' || r == '%':
			if gap && b.Len() > 0 {
				b.WriteByte(' ')
			}
			gap = false
			b.WriteString(plainLetter(unicode.ToLower(r)))
		default:
			gap = true
		}
	}
	return b.String()
}

// foldASCII is fold for the texts without any letter that needs a table.
func foldASCII(s string) (string, bool) {
	b := make([]byte, 0, len(s))
	gap := false
	for i := 0; i < len(s); i++ {
		c := s[i]
		switch {
		case c >= 0x80:
			return "", false
		case c == '\'' || c == '`':
			continue
		case c >= 'A' && c <= 'Z':
			c += 'a' - 'A'
		case c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '#' || c == '%':
		default:
			gap = true
			continue
		}
		if gap && len(b) > 0 {
			b = append(b, ' ')
		}
		gap = false
		b = append(b, c)
	}
	return string(b), true
}

// plainLetter writes the letters that have no accent to take off.
func plainLetter(r rune) string {
	switch r {
	case 'ł':
		return "l"
	case 'ø':
		return "o"
	case 'đ':
		return "d"
	case 'ß':
		return "ss"
	case 'æ':
		return "ae"
	case 'œ':
		return "oe"
	case 'ı':
		return "i"
	}
	return string(r)
}
