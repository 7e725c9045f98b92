package length

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

type kind int

const (
	digits    kind = iota // a number as typed: 12 1.5 1,200 .75
	vulgar                // one of ½ ¼ ⅞, in num and den
	footMark              // ' and its kin
	inchMark              // " and its kin, and two foot marks
	word                  // letters, lower case, full stops taken out
	times                 // x × * and their kin
	dash                  // - – — −
	slash                 // / and ⁄
	plusMinus             // ± +/-
	about                 // ~ ≈
	plus
	comma // , or ; or a line break
	equals
	colon
	open   // ( [
	closed // ) ]
	other  // anything else
)

// token is one mark, word or number with the bytes of the text it came from.
type token struct {
	kind     kind
	text     string
	num, den int  // of a vulgar fraction
	raised   bool // digits written as superscript or subscript
	wide     bool // a no-break or thin space stands before
	spaced   bool // a space stands before, or the text begins
	from, to int
}

var vulgars = map[rune][2]int{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4},
	'⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6},
	'⅐': {1, 7}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8}, '⅑': {1, 9}, '⅒': {1, 10},
}

// marks maps the signs people type to a kind. Curly quotes come from word processors,
// primes from drawings, accents from keyboards where the quote is hard to find.
var marks = func() map[rune]kind {
	found := map[rune]kind{}
	for k, signs := range map[kind]string{
		footMark:  "'’‘‛′ʹ´`＇",
		inchMark:  "\"”“„‟″ʺ〃＂",
		times:     "×*✕✖⨯∙·х",
		dash:      "-‐‑‒–—―−－",
		slash:     "/⁄∕／",
		plusMinus: "±∓",
		about:     "~≈≅∼～",
		plus:      "+＋",
		comma:     ",;，；\n\r",
		equals:    "=",
		colon:     ":：",
		open:      "([{（",
		closed:    ")]}）",
	} {
		for _, r := range signs {
			found[r] = k
		}
	}
	return found
}()

// unseen are runes that show nothing and mean nothing.
const unseen = "\u00ad\u200b\u200c\u200d\u2060\ufeff\u200e\u200f"

// fold turns full-width and raised digits into plain ones.
func fold(r rune) (plain rune, raised bool) {
	switch {
	case r >= '０' && r <= '９':
		return r - '０' + '0', false
	case r == '．':
		return '.', false
	case r >= '⁰' && r <= '⁹' && r != 'ⁱ':
		return r - '⁰' + '0', true
	case r >= '₀' && r <= '₉':
		return r - '₀' + '0', true
	case r == '¹':
		return '1', true
	case r == '²':
		return '2', true
	case r == '³':
		return '3', true
	}
	return r, false
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

type scanner struct {
	text   string
	at     int
	tokens []token
	spaced bool
	wide   bool
}

// scan cuts a text into tokens. It splits a digit from a vulgar fraction before anything
// could join them: compatibility forms would turn 2½ into 21⁄2.
func scan(text string) []token {
	s := &scanner{text: text, spaced: true}
	for s.at < len(text) {
		s.next()
	}
	s.footnotes()
	return s.tokens
}

// footnotes tells a star run onto the end of a text, or before it, from a times sign.
func (s *scanner) footnotes() {
	n := len(s.tokens)
	if n < 2 {
		return
	}
	first, last := &s.tokens[0], &s.tokens[n-1]
	if first.text == "*" {
		first.kind = word
	}
	if last.text == "*" && !last.spaced {
		last.kind = word
	}
}

// peek gives the rune at a byte, folded, and its size; 0 at the end.
func (s *scanner) peek(at int) (r rune, raised bool, size int) {
	if at >= len(s.text) {
		return 0, false, 0
	}
	r, size = utf8.DecodeRuneInString(s.text[at:])
	r, raised = fold(r)
	return r, raised, size
}

func (s *scanner) add(t token, size int) {
	t.from, t.to = s.at, s.at+size
	t.spaced, t.wide = s.spaced, s.wide
	s.spaced, s.wide = false, false
	s.at += size
	s.tokens = append(s.tokens, t)
}

func (s *scanner) next() {
	r, raised, size := s.peek(s.at)
	following, _, _ := s.peek(s.at + size)
	kindOf, isMark := marks[r]
	parts, isVulgar := vulgars[r]
	switch {
	case strings.ContainsRune(unseen, r):
		s.at += size
	case unicode.IsSpace(r) && !isMark:
		s.spaced = true
		s.wide = s.wide || r > 0x7f
		s.at += size
	case isDigit(r), (r == '.' || r == ',') && isDigit(following) && s.opensNumber():
		s.number(raised)
	case isVulgar:
		s.add(token{kind: vulgar, num: parts[0], den: parts[1], text: string(r)}, size)
	case r == '⅟':
		s.add(token{kind: digits, text: "1", raised: true}, size)
		s.at -= size
		s.add(token{kind: slash, text: "⁄"}, size)
	case strings.HasPrefix(s.text[s.at:], "+/-"), strings.HasPrefix(s.text[s.at:], "-/+"):
		s.add(token{kind: plusMinus}, 3)
	case strings.HasPrefix(s.text[s.at:], "+-"):
		s.add(token{kind: plusMinus}, 2)
	case strings.HasPrefix(s.text[s.at:], "+/–"), strings.HasPrefix(s.text[s.at:], "+/−"):
		s.add(token{kind: plusMinus}, 5)
	case isMark:
		s.mark(kindOf, r, size)
	case unicode.IsLetter(r):
		s.word()
	case (r == '.' || r == '…') && len(s.tokens) > 0: // the stop of a sentence
		s.at += size
	default:
		s.add(token{kind: other, text: string(r)}, size)
	}
}

// opensNumber reports whether a full stop or comma here can begin a number: .75, but not
// the comma of "18,36" after a mark or the stop of a second number run on.
func (s *scanner) opensNumber() bool {
	if len(s.tokens) == 0 || s.spaced {
		return true
	}
	switch s.tokens[len(s.tokens)-1].kind {
	case times, dash, slash, plus, plusMinus, about, open, equals, other:
		return true
	}
	return false
}

func (s *scanner) number(raised bool) {
	var typed strings.Builder
	end := s.at
	for end < len(s.text) {
		r, up, size := s.peek(end)
		after, afterUp, _ := s.peek(end + size)
		inside := isDigit(r) && up == raised
		stop := (r == '.' || r == ',') && isDigit(after) && afterUp == raised
		if !inside && !stop {
			break
		}
		typed.WriteRune(r)
		end += size
	}
	s.add(token{kind: digits, text: typed.String(), raised: raised}, end-s.at)
}

func (s *scanner) mark(k kind, r rune, size int) {
	if n := len(s.tokens); k == footMark && !s.spaced && n > 0 && s.tokens[n-1].kind == footMark {
		s.tokens[n-1].kind = inchMark
		s.at += size
		s.tokens[n-1].to = s.at
		return
	}
	s.add(token{kind: k, text: string(r)}, size)
}

func (s *scanner) word() {
	end := s.at
	for end < len(s.text) {
		r, size := utf8.DecodeRuneInString(s.text[end:])
		after, afterSize := utf8.DecodeRuneInString(s.text[end+size:])
		dot := r == '.' && (afterSize == 0 || !unicode.IsDigit(after))
		if marks[r] == times && r != 'х' || !unicode.IsLetter(r) && !unicode.IsMark(r) && !dot {
			break
		}
		end += size
	}
	typed := s.text[s.at:end]
	text := strings.ToLower(strings.ReplaceAll(typed, ".", ""))
	if text == "x" || text == "х" {
		s.add(token{kind: times, text: text}, end-s.at)
		return
	}
	glued := !s.spaced && len(s.tokens) > 0
	s.add(token{kind: word, text: text}, end-s.at)
	if glued || follows(s.tokens, digits, vulgar) {
		s.split(typed)
	}
}

// follows reports whether the token before the last is of one of the kinds.
func follows(tokens []token, kinds ...kind) bool {
	if len(tokens) < 2 {
		return false
	}
	for _, k := range kinds {
		if tokens[len(tokens)-2].kind == k {
			return true
		}
	}
	return false
}

// split takes apart what was run together behind a number: "mmx", "Dx", "mmL", "inWx", "mmMDF".
func (s *scanner) split(typed string) {
	last := &s.tokens[len(s.tokens)-1]
	if rest, ok := strings.CutSuffix(last.text, "x"); ok && rest != "" && len(typed) > 1 {
		if isUnit(rest) || isAxis(rest) || unitHead(rest) > 0 {
			last.text = rest
			last.to--
			s.tokens = append(s.tokens, token{kind: times, text: "x", from: last.to, to: last.to + 1})
			last = &s.tokens[len(s.tokens)-2]
		}
	}
	n := unitHead(last.text)
	if n == 0 || last.to-last.from != len(last.text) {
		return
	}
	tail := token{kind: word, text: last.text[n:], from: last.from + n, to: last.to}
	last.text, last.to = last.text[:n], last.from+n
	at := len(s.tokens)
	if s.tokens[at-1].kind == times {
		at--
	}
	s.tokens = append(s.tokens[:at], append([]token{tail}, s.tokens[at:]...)...)
}

func isUnit(text string) bool { _, ok := unitWords[text]; return ok }

// unitHead is the length of a unit onto which an axis or a board is run: mmL, inW, mmMDF.
func unitHead(text string) int {
	if isUnit(text) || len(text) < 3 {
		return 0
	}
	switch text[:2] {
	case "mm", "cm", "in", "ft":
		if len(text) == 3 && strings.ContainsAny(text[2:], "lwhdt") || sheetWords[text[2:]] {
			return 2
		}
	}
	return 0
}
