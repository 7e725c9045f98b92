package phrase

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Kind tells the pieces of a line apart.
type Kind int

// The kinds of pieces.
const (
	Word   Kind = iota // letters, with the digits run onto them: W1, A-SH2, c/l
	Length             // a number as a length is typed, with its unit and tolerance
	Mark               // anything else, one sign each
)

// Piece is a word, a length or a mark of a line.
type Piece struct {
	Kind Kind
	Text string // as typed
	Word string // of a word: lower case, without accents and full stops; of a mark: the mark
	Wide bool   // the line begins here, or two blanks or more stand before
	From int    // where it begins in the line, in bytes
}

// End is where the piece ends in its line, in bytes.
func (p Piece) End() int { return p.From + len(p.Text) }

// Is reports whether the piece is the mark.
func (p Piece) Is(mark string) bool { return p.Kind == Mark && p.Word == mark }

// Cut takes a line apart. An "in" or "m" that stands apart behind a number stays a word of
// its own: in "R 1/8 in" it says which way a wall leans.
func Cut(line string) []Piece {
	var pieces []Piece
	blanks := 2
	for at := 0; at < len(line); {
		r, size := utf8.DecodeRuneInString(line[at:])
		if unicode.IsSpace(r) && r != '\n' || isUnseen(r) {
			at += size
			if !isUnseen(r) {
				blanks++
			}
			continue
		}
		p := next(line[at:], pieces)
		p.From, p.Wide = at, blanks > 1
		blanks = 0
		at += len(p.Text)
		pieces = append(pieces, p)
	}
	return pieces
}

func isUnseen(r rune) bool { return r == '\u00ad' || r == '\u200b' || r == '\ufeff' || r == '\u2060' }

func next(rest string, before []Piece) Piece {
	if n := lengthEnd(rest); n > 0 {
		return Piece{Kind: Length, Text: rest[:n]}
	}
	if n := signEnd(rest); n > 0 {
		return Piece{Kind: Mark, Text: rest[:n], Word: "±"}
	}
	r, size := utf8.DecodeRuneInString(rest)
	if isTimes(r) && timesFits(rest[size:], before) {
		return Piece{Kind: Mark, Text: rest[:size], Word: "x"}
	}
	if unicode.IsLetter(r) || r == '#' && size < len(rest) && isDigit(rest[size]) || isDigit(rest[0]) {
		n := wordEnd(rest)
		return Piece{Kind: Word, Text: rest[:n], Word: Fold(rest[:n])}
	}
	return Piece{Kind: Mark, Text: rest[:size], Word: markOf(r)}
}

func markOf(r rune) string {
	switch r {
	case '–', '—', '−', '‐', '‑':
		return "-"
	case '“', '”', '″', '„', '〃':
		return `"`
	case '’', '‘', '′':
		return "'"
	case '；':
		return ";"
	case '≈':
		return "~"
	case '\r':
		return "\n"
	}
	return string(r)
}

func isTimes(r rune) bool { return strings.ContainsRune("xX×*✕✖", r) }

// timesFits tells the x of a size from a word: a length stands before it, and behind it a
// length, or at least a blank.
func timesFits(rest string, before []Piece) bool {
	if len(before) == 0 {
		return false
	}
	r, _ := utf8.DecodeRuneInString(strings.TrimLeft(rest, " \u00a0"))
	number := r >= '0' && r <= '9' || r == '.' || r == '~' || isVulgar(r)
	last := before[len(before)-1]
	if last.Kind == Length {
		return number || rest == "" || !unicode.IsLetter(firstRune(rest))
	}
	return last.Kind == Word && number && len(last.Word) <= 2
}

func firstRune(s string) rune { r, _ := utf8.DecodeRuneInString(s); return r }

// wordEnd gives the end of a word. A stop, dash, stroke or ampersand belongs to it where
// a letter or digit follows at once.
func wordEnd(s string) int {
	at := 0
	if s[0] == '#' {
		at = 1
	}
	for at < len(s) {
		r, size := utf8.DecodeRuneInString(s[at:])
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r):
		case strings.ContainsRune(".-_/&’'", r) && follows(s[at+size:]):
		case r == '.':
			return at + size
		default:
			return at
		}
		at += size
	}
	return at
}

func follows(s string) bool {
	r := firstRune(s)
	return s != "" && (unicode.IsLetter(r) || unicode.IsDigit(r))
}

// Fold makes the spellings of a word equal: lower case, without accents, full stops and
// typographic dashes, single blanks.
func Fold(s string) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(strings.ToLower(s)) {
		switch {
		case unicode.Is(unicode.Mn, r) || r == '.' || isUnseen(r):
		case r == 'ł':
			b.WriteByte('l')
		case r == 'ø':
			b.WriteByte('o')
		case r == 'ß':
			b.WriteString("ss")
		case r == 'æ':
			b.WriteString("ae")
		case r == '’':
			b.WriteByte('\'')
		case strings.ContainsRune("–—−‐‑", r):
			b.WriteByte('-')
		case r == '_' || unicode.IsSpace(r):
			b.WriteByte(' ')
		default:
			b.WriteRune(r)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}
