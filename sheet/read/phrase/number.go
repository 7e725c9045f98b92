package phrase

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

func isVulgar(r rune) bool {
	return strings.ContainsRune("½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒", r)
}

// lengthEnd gives the end of the length a text begins with, 0 if it begins with none. It
// takes what [length.Parse] reads as one length: whole and fraction, feet and inches, a
// unit, a tolerance.
func lengthEnd(s string) int {
	at := 0
	if r, size := utf8.DecodeRuneInString(s); r == '~' || r == '≈' {
		at = size
		at += blanks(s[at:])
	}
	n := numberEnd(s[at:])
	if n == 0 {
		return 0
	}
	at += n
	unit, feet := unitEnd(s[at:])
	if unit == 0 && follows(s[at:]) && unicode.IsLetter(firstRune(s[at:])) && !isTimes(firstRune(s[at:])) && ordinal(s[at:]) {
		return 0 // 1st, 3rd
	}
	at += unit
	if feet {
		at += inchesEnd(s[at:])
	}
	return at + toleranceEnd(s[at:])
}

func ordinal(s string) bool {
	w := strings.ToLower(s[:wordEnd(s)])
	return w == "st" || w == "nd" || w == "rd" || w == "th"
}

func blanks(s string) int {
	return len(s) - len(strings.TrimLeft(s, " \u00a0\u2009\u202f"))
}

// numberEnd takes 18, 18.5, 18,5, .75, 3/4, 36-3/4, 36 3/4, 2.1/4, 2½, ½ and 1 829 with a
// no-break blank.
func numberEnd(s string) int {
	if r, size := utf8.DecodeRuneInString(s); isVulgar(r) {
		return size
	}
	n := digitsEnd(s)
	if n == 0 {
		return 0
	}
	if f := fractionEnd(s[n:]); f > 0 {
		return n + f
	}
	if strings.ContainsAny(s[:n], ".,") {
		return n
	}
	gap := blanks(s[n:])
	if gap == 0 && n < len(s) && s[n] == '-' {
		gap = 1
	}
	rest := s[n+gap:]
	if r, size := utf8.DecodeRuneInString(rest); isVulgar(r) {
		return n + gap + size
	}
	if gap == 0 {
		return n
	}
	whole := digitsEnd(rest)
	if f := fractionEnd(rest[whole:]); whole > 0 && f > 0 && proper(rest[:whole], rest[whole:whole+f]) {
		return n + gap + whole + f
	}
	if noBreak := gap > 1 && s[n] != ' '; noBreak && whole == 3 && n <= 3 {
		return n + gap + whole
	}
	return n
}

// digitsEnd takes digits with full stops and commas between digits.
func digitsEnd(s string) int {
	at := 0
	for at < len(s) {
		mark := s[at] == '.' || s[at] == ','
		if !isDigit(s[at]) && !(mark && at+1 < len(s) && isDigit(s[at+1])) {
			break
		}
		at++
	}
	if at > 0 && s[0] == ',' {
		return 0
	}
	return at
}

// fractionEnd takes the /4 behind a numerator, and the .1/4 of the slip 2.1/4 is in the digits.
func fractionEnd(s string) int {
	bar, size := utf8.DecodeRuneInString(s)
	if bar != '/' && bar != '⁄' {
		return 0
	}
	n := size
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	if n == size {
		return 0
	}
	return n
}

// proper reports whether "3" and "/4" make less than one: in "8 9/2000" and in the date
// "2 11/6" nothing is a mixed number.
func proper(top, bottom string) bool {
	bottom = strings.TrimLeft(bottom, "/⁄")
	if strings.ContainsAny(top, ".,") || len(bottom) > 3 {
		return false
	}
	return len(top) < len(bottom) || len(top) == len(bottom) && top < bottom
}

// unitEnd takes a unit behind a number, and says whether it was feet. Words that mean
// something else too, such as "in" and "m", are units only when run onto the number.
func unitEnd(s string) (n int, feet bool) {
	gap := blanks(s)
	rest := s[gap:]
	for _, mark := range []string{"''", "’’", "′′", `"`, "”", "“", "″", "„"} {
		if strings.HasPrefix(rest, mark) && gap < 2 {
			return gap + len(mark), false
		}
	}
	for _, mark := range []string{"'", "’", "‘", "′"} {
		if strings.HasPrefix(rest, mark) && gap < 2 {
			return gap + len(mark), true
		}
	}
	end := 0
	for end < len(rest) && unicode.IsLetter(firstRune(rest[end:])) {
		_, size := utf8.DecodeRuneInString(rest[end:])
		end += size
	}
	word := Fold(rest[:end])
	glued, only := alone[word], gap == 0
	if _, always := lengthUnits[word]; !always && !(glued && only) || end == 0 {
		return 0, false
	}
	if end < len(rest) && isDigit(rest[end]) { // lb/ft2, m2: no length
		return 0, false
	}
	if end < len(rest) && rest[end] == '.' && !follows(rest[end+1:]) {
		end++
	}
	return gap + end, word == "ft" || word == "feet" || word == "foot"
}

// lengthUnits are words that behind a number are always a unit.
var lengthUnits = set("mm, cm, ft, feet, foot, inch, inches, zoll, pouce, pouces, pulgadas, pollici, cali, duim, tum")

// alone are words that are a unit only when run onto the number.
var alone = set("in, m, po")

// inchesEnd takes the inches behind feet: -6 1/2", 6, -0".
func inchesEnd(s string) int {
	gap := blanks(s)
	if gap < len(s) && s[gap] == '-' {
		gap++
		gap += blanks(s[gap:])
	}
	n := numberEnd(s[gap:])
	if n == 0 {
		return 0
	}
	unit, feet := unitEnd(s[gap+n:])
	if feet { // 2' 3' are two lengths
		return 0
	}
	if unit == 0 && gap > 0 && s[0] != '-' && !strings.ContainsAny(s[gap:gap+n], "/⁄") {
		return 0 // 8' 12: the next number is its own
	}
	return gap + n + unit
}

func signEnd(s string) int {
	for _, sign := range []string{"±", "+/-", "+/–", "+/−", "-/+", "+-"} {
		if strings.HasPrefix(s, sign) {
			return len(sign)
		}
	}
	return 0
}

// toleranceEnd takes ± 1/16 behind a length.
func toleranceEnd(s string) int {
	gap := blanks(s)
	sign := signEnd(s[gap:])
	if sign == 0 {
		return 0
	}
	at := gap + sign
	at += blanks(s[at:])
	n := numberEnd(s[at:])
	if n == 0 {
		return 0
	}
	unit, _ := unitEnd(s[at+n:])
	return at + n + unit
}

// set makes a set of folded words from a list parted by commas.
func set(list string) map[string]bool {
	found := map[string]bool{}
	for _, w := range strings.Split(list, ",") {
		found[Fold(w)] = true
	}
	return found
}
