package read

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dryfit/check"
)

// severalNames reads cells that name several parts at once: "L1, L2", "S1-S4", "S1 & S2",
// "U1/2", "all shelves".
type severalNames struct {
	known func(name string) bool              // a mark, or what else may stand in the cell
	role  func(role check.Role) []string      // the marks of all parts of a role; nil where some has none
	alone func(role check.Role) (name string) // what the role is called where its parts have no marks
}

// allOf are words before a role that mean every part of it.
var allOf = set(`all every each both alle jede jeder jedes beide samtliche tous toutes chaque todos todas cada ambos ambas tutti tutte ogni entrambi entrambe
	wszystkie kazda kazdy oba obie elke alla varje bada the les los las den`)

// parts gives the names that a text holds: itself alone where it is a name, or where it is no
// list that holds one.
func (s severalNames) parts(text string) []string {
	text = strings.TrimSpace(text)
	if names := s.read(text); names != nil {
		return dedupe(names)
	}
	return []string{text}
}

// read gives the names of a text, nil where nothing in it is known.
func (s severalNames) read(text string) []string {
	if text == "" {
		return nil
	}
	if s.known(text) {
		return []string{text}
	}
	if names := s.ofRole(text); names != nil {
		return names
	}
	if names := s.list(text, lists[0]); names != nil {
		return names
	}
	if names := s.list(text, lists[1]); names != nil {
		return names
	}
	if names := s.span(text); names != nil {
		return names
	}
	return s.list(text, lists[2])
}

// lists part names, the surest first; a mark may hold a slash or a dash, seldom a comma.
var lists = []*regexp.Regexp{
	regexp.MustCompile(`\s*[,;\n]\s*(?:(?i:and|und|et|och|oraz|en)\s+)?`),
	regexp.MustCompile(`\s*[&+]\s*|(?i)\s+(?:and|und|et|y|e|i|oraz|en|och|u\.)\s+`),
	regexp.MustCompile(`\s*/\s*|\s+`),
}

// list parts a text at a separator and reads what stands between. A number alone bears the
// letters of the name before it: "S1, 2, 5".
func (s severalNames) list(text string, separator *regexp.Regexp) []string {
	var pieces []string
	for _, piece := range separator.Split(text, -1) {
		if piece != "" {
			pieces = append(pieces, piece)
		}
	}
	if len(pieces) < 2 {
		return nil
	}
	var out []string
	found := 0
	for _, piece := range pieces {
		names := s.read(piece)
		if names == nil && len(out) > 0 && startsWithDigit(piece) {
			names = s.read(lettersOf(out[len(out)-1]) + piece)
		}
		if names == nil {
			names = []string{piece}
		} else {
			found++
		}
		out = append(out, names...)
	}
	if found == 0 || separator == lists[2] && found < len(pieces) {
		return nil
	}
	return out
}

func startsWithDigit(text string) bool { return text[0] >= '0' && text[0] <= '9' }

// lettersOf is a mark without the number at its end.
func lettersOf(mark string) string { return strings.TrimRight(mark, "0123456789") }

// ofRole reads "all shelves", "beide Seiten", and a role by itself in a language the checks do
// not call it by.
func (s severalNames) ofRole(text string) []string {
	words := strings.Fields(fold(text))
	all := false
	for len(words) > 1 && allOf[words[0]] {
		words, all = words[1:], true
	}
	name := strings.Join(words, " ")
	if len(name) < 4 {
		return nil
	}
	role, ok := roleIndex[name]
	if !ok {
		role, ok = roleIndex[strings.TrimSuffix(name, "s")]
	}
	if !ok || role == check.NotAPart {
		return nil
	}
	if all {
		if marks := s.role(role); marks != nil {
			return marks
		}
	}
	if name := s.alone(role); name != "" {
		return []string{name}
	}
	return nil
}

// spanSigns stand between the first and the last mark of a span.
var spanSigns = regexp.MustCompile(`(?i)\s*(?:\.\.\.?|…|–|—|-|→)\s*|\s+(?:to|thru|through|bis|à|a|al|do|tot|till)\s+`)

// longestSpan is the most marks that a span may mean: more is a slip of the fingers.
const longestSpan = 200

// span reads "S1-S4", "S1..4", "S-01 to S-04": marks that differ in the number at their end, of
// which the first is known and the last too, or both begin alike.
func (s severalNames) span(text string) []string {
	for _, at := range spanSigns.FindAllStringIndex(text, -1) {
		first, last := strings.TrimSpace(text[:at[0]]), strings.TrimSpace(text[at[1]:])
		if first == "" || last == "" || !s.known(first) {
			continue
		}
		stem := lettersOf(first)
		if startsWithDigit(last) && stem != "" {
			last = stem + last
		}
		from, errFrom := strconv.Atoi(first[len(stem):])
		if !strings.HasPrefix(last, stem) || errFrom != nil {
			continue
		}
		to, errTo := strconv.Atoi(last[len(stem):])
		if errTo != nil || to <= from || to-from >= longestSpan || stem == "" && !s.known(last) {
			continue
		}
		return s.between(stem, len(first)-len(stem), from, to)
	}
	return nil
}

// between are the marks of a span, as they are typed. One that no part bears stands among
// them, so that somebody asks for it.
func (s severalNames) between(stem string, digits, from, to int) []string {
	var out []string
	for n := from; n <= to; n++ {
		number := strconv.Itoa(n)
		for len(number) < digits {
			number = "0" + number
		}
		out = append(out, stem+number)
	}
	return out
}

func dedupe(names []string) []string {
	var out []string
	for _, n := range names {
		if !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// severalIn reads the names that joints and loads of a job are typed under.
func severalIn(j *check.Job) severalNames {
	return severalNames{
		known: func(name string) bool {
			return j.Part(name) != nil || len(j.Called(name)) > 0 || check.OfTheHouse(name)
		},
		role: func(role check.Role) []string {
			var marks []string
			for _, p := range ofRole(j, role) {
				if p.Mark.Text == "" {
					return nil
				}
				marks = append(marks, p.Mark.Text)
			}
			return dedupe(marks)
		},
		alone: func(role check.Role) string {
			if len(ofRole(j, role)) == 0 {
				return ""
			}
			return string(role)
		},
	}
}

// ofRole are the parts of a role; "shelves" are those on pins too where no others are.
func ofRole(j *check.Job, role check.Role) []*check.Part {
	var out, loose []*check.Part
	for _, p := range j.Pieces() {
		switch {
		case p.Role == role:
			out = append(out, p)
		case role == check.Shelf && p.Role == check.Adjustable:
			loose = append(loose, p)
		}
	}
	if out == nil {
		return loose
	}
	return out
}
