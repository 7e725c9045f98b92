package standard

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// stock is the name of a material taken apart: "2 x 3/4 birch ply" speaks of two layers,
// of three quarters, and of birch ply.
type stock struct {
	layers int
	sizes  []size   // thicknesses it speaks of
	words  []string // what is left
}

// size is a number that names a thickness.
type size struct {
	typed string
	value float64
	unit  string // "in", "mm", or "" where nobody said
	glued bool   // typed on to a code, "MDF75": hundredths of an inch, or millimetres
}

const number = `\d+[ -]+\d+/\d+|\d+/\d+|\d*[.,]\d+|\d+`

var (
	layersX    = regexp.MustCompile(`(?:^|[\s(])(\d)\s*x\s*((?:\d+[ -])?\d+/\d+|\d*\.\d+|\d+\s*mm|(?:15|16|18|19|22|25|28|30|38)\b)`)
	layersWord = regexp.MustCompile(`(?:^|[\s(])([2-9])[ -]*(?:lyrs?|layers?|lagig|lagen|couches?|capas|strati|warstwy|laags|lager)\b`)
	layersSaid = regexp.MustCompile(`\b(double|dbl|triple)\b(?:[ -]*(?:lyrs?|layers?)\b)?`)
	layersPly  = regexp.MustCompile(`(?:^|[\s(])([2-5])[ -]?ply\b`)
	sizeText   = regexp.MustCompile(`(` + number + `)\s*(mm|cm|inch|in|["”″]|'')?`)
	codeText   = regexp.MustCompile(`^(\p{L}{2,})(\d{1,4})$`)
	gradeText  = regexp.MustCompile(`#\s*\d`)
)

// takeApart splits a typed material. known says whether letters are a name of their own.
func takeApart(text string, known func(string) bool) stock {
	var s stock
	text = strings.ToLower(text)
	text = gradeText.ReplaceAllString(text, " ")
	text = s.takeLayers(text)
	text = s.takeSizes(text)
	for _, w := range words(text) {
		if code := codeText.FindStringSubmatch(w); code != nil {
			if letters, ok := codeName(code[1], known); ok {
				s.words = append(s.words, letters)
				s.takeGlued(letters, code[2])
				continue
			}
		}
		s.words = append(s.words, w)
	}
	return s
}

func (s *stock) takeLayers(text string) string {
	if m := layersX.FindStringSubmatchIndex(text); m != nil {
		s.layers, _ = strconv.Atoi(text[m[2]:m[3]])
		return text[:m[0]] + " " + text[m[4]:]
	}
	for _, re := range []*regexp.Regexp{layersWord, layersSaid, layersPly} {
		m := re.FindStringSubmatchIndex(text)
		if m == nil {
			continue
		}
		switch n := text[m[2]:m[3]]; n {
		case "double", "dbl":
			s.layers = 2
		case "triple":
			s.layers = 3
		default:
			s.layers, _ = strconv.Atoi(n)
		}
		return text[:m[0]] + " " + text[m[1]:]
	}
	return text
}

// takeSizes cuts the numbers out that stand for themselves, with their units.
func (s *stock) takeSizes(text string) string {
	var rest strings.Builder
	last := 0
	for _, m := range sizeText.FindAllStringSubmatchIndex(text, -1) {
		from, to := m[0], m[1]
		unit := ""
		if m[4] >= 0 && !letterAfter(text, to) { // the "in" of "inlay" is no unit
			unit = text[m[4]:m[5]]
		} else {
			to = m[3]
		}
		if letterBefore(text, from) || letterAfter(text, to) {
			continue
		}
		rest.WriteString(text[last:from] + " ")
		last = to
		if v, ok := value(text[m[2]:m[3]]); ok {
			s.sizes = append(s.sizes, newSize(strings.TrimSpace(text[from:to]), v, unit))
		}
	}
	return rest.String() + text[last:]
}

func newSize(typed string, v float64, unit string) size {
	switch unit {
	case "mm":
		return size{typed: typed, value: v, unit: "mm"}
	case "cm":
		return size{typed: typed, value: 10 * v, unit: "mm"}
	case "":
		return size{typed: typed, value: v}
	}
	return size{typed: typed, value: v, unit: "in"}
}

func letterBefore(text string, at int) bool {
	r, _ := utf8.DecodeLastRuneInString(text[:at])
	return at > 0 && (unicode.IsLetter(r) || unicode.IsDigit(r))
}

func letterAfter(text string, at int) bool {
	r, _ := utf8.DecodeRuneInString(text[at:])
	return at < len(text) && (unicode.IsLetter(r) || unicode.IsDigit(r))
}

// value reads 3/4, 1-1/8, 0.75, 1,9 and 19.
func value(text string) (float64, bool) {
	sum := 0.0
	for _, f := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '-' }) {
		over, under, fraction := strings.Cut(strings.ReplaceAll(f, ",", "."), "/")
		a, err := strconv.ParseFloat(over, 64)
		if err != nil {
			return 0, false
		}
		if fraction {
			b, err := strconv.ParseFloat(under, 64)
			if err != nil || b == 0 {
				return 0, false
			}
			a /= b
		}
		sum += a
	}
	return sum, true
}

// codeName finds the name in a code such as MDF75 or PLYM75, where one letter may follow
// the name.
func codeName(letters string, known func(string) bool) (string, bool) {
	if known(letters) {
		return letters, true
	}
	if short := letters[:len(letters)-1]; len(short) >= 3 && known(short) {
		return short, true
	}
	return "", false
}

func (s *stock) takeGlued(letters, digits string) {
	if n, err := strconv.Atoi(digits); err == nil {
		if letters == "lam" && n >= 2 && n <= 9 {
			s.layers = n
			return
		}
		s.sizes = append(s.sizes, size{typed: digits, value: float64(n), glued: true})
	}
}

// meanings lists what the size may be, the likeliest first: value and unit.
func (z size) meanings() []size {
	switch {
	case z.unit != "":
		return []size{z}
	case z.glued:
		digits := len(z.typed)
		inch := size{typed: z.typed, value: z.value / math.Pow10(digits), unit: "in"}
		if digits == 1 {
			inch.value = z.value
		}
		return []size{inch, {typed: z.typed, value: z.value, unit: "mm"}}
	}
	return []size{{typed: z.typed, value: z.value, unit: "in"}, {typed: z.typed, value: z.value, unit: "mm"}}
}
