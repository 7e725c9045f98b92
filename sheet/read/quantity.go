package read

import (
	"regexp"
	"strconv"
	"strings"
)

// tally is how many a cell says.
type tally struct {
	n      float64
	low    float64 // of a range such as 3-4; else n
	high   float64
	spare  float64 // the 1 of "4+1"
	perSet bool    // "per case", "each": counts for one case, not for the job
	note   string  // words that stood beside the number: "ea.", "L & R"
	doubt  string  // why the reading is doubtful
}

var (
	plainCount = regexp.MustCompile(`^[(\[]?\s*(\d{1,5})(?:[.,]0+)?\s*[)\]]?\s*$`)
	wordCount  = regexp.MustCompile(`^[(\[x×]?\s*(\d{1,5})\s*[)\]]?\s*[x×*]?\s*[-–.:]?\s*([^\d+]*)$`)
	spareCount = regexp.MustCompile(`^(\d{1,4})\s*(?:[a-z. ]{0,6})?\+\s*(\d{1,3})\b\s*([^\d]*)$`)
	handCount  = regexp.MustCompile(`^(\d{1,3})\s*(l|lh|left|r|rh|right|li|re|g|d|sx|dx|izq|der)\.?\s*[,/&+ ]+\s*(\d{1,3})\s*(l|lh|left|r|rh|right|li|re|g|d|sx|dx|izq|der)\.?$`)
	rangeCount = regexp.MustCompile(`^(\d{1,4})\s*(?:-|–|to|or|bis|/)\s*(\d{1,4})$`)
	aboutCount = regexp.MustCompile(`^(?:~|ca\.?|about|approx\.?|c\.|±|\+/-)\s*(\d{1,4})\b\s*(.*)$`)
	timesCount = regexp.MustCompile(`^(\d{1,3})\s*[x×*]\s*(\d{1,3})(?:\s*=\s*(\d{1,5}))?$`)
	eachSide   = regexp.MustCompile(`^(?:l\s*[&+/]\s*r|lh\s*[&+/]\s*rh|l\s*and\s*r|1\s*ea\.?\s*l\s*[&/+]\s*r)$`)
)

var numberWords = map[string]float64{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "twelve": 12,
	"a dozen": 12, "dozen": 12, "a": 1, "single": 1, "eins": 1, "zwei": 2, "drei": 3, "vier": 4, "deux": 2, "dos": 2, "due": 2, "dwa": 2, "twee": 2, "tva": 2,
}

// units of counting. A pair is two; a set, a kit and a lot count as themselves.
var pairWords = set(`pr prs pair pairs paar paire paires par pares paio paia para pary paren`)

var countWords = set(`ea each pc pcs pce pces piece pieces no nos off set sets req reqd required rqd x of total tot only nr unit units
	stk stck stuck st stueck szt sztuk sztuka sztuki pz pezzi pezzo ud uds unidad unidades un pieza piezas u p pzs pzas stks pcses
	stuks stuk antal qty lot lots kit kits needed thus panels pnls shelves doors boards ens jeu`)

// readTally reads a quantity: 4, "2 ea.", "3 pcs", "pr", "1 set", "4+1", "2 L, 2 R", "3-4".
// ok is false where the text is no quantity.
func readTally(text string) (t tally, ok bool) {
	s := strings.ToLower(strings.TrimSpace(Tidy(text)))
	if s == "" || len(s) > 40 {
		return t, false
	}
	if m := plainCount.FindStringSubmatch(s); m != nil {
		return exactly(m[1]), true
	}
	if n, found := numberWords[strings.Trim(s, " .")]; found {
		return tally{n: n, low: n, high: n, note: text}, true
	}
	if m := handCount.FindStringSubmatch(s); m != nil && m[2][0] != m[4][0] {
		t = exactly(m[1])
		more := exactly(m[3])
		t.n += more.n
		t.low, t.high, t.note = t.n, t.n, text
		return t, true
	}
	if eachSide.MatchString(s) {
		return tally{n: 2, low: 2, high: 2, note: text}, true
	}
	if m := spareCount.FindStringSubmatch(s); m != nil {
		t = exactly(m[1])
		t.spare, _ = strconv.ParseFloat(m[2], 64)
		t.note = text
		return t, true
	}
	if m := timesCount.FindStringSubmatch(s); m != nil {
		a, b := exactly(m[1]), exactly(m[2])
		n := a.n * b.n
		t = tally{n: n, low: n, high: n, note: text}
		if m[3] != "" && exactly(m[3]).n != n {
			t.doubt = m[1] + " times " + m[2] + " is not " + m[3]
		}
		return t, true
	}
	if m := rangeCount.FindStringSubmatch(s); m != nil {
		a, b := exactly(m[1]), exactly(m[2])
		if a.n < b.n {
			return tally{n: b.n, low: a.n, high: b.n, note: text, doubt: "a range, not a count"}, true
		}
		return t, false
	}
	if m := aboutCount.FindStringSubmatch(s); m != nil {
		t = exactly(m[1])
		t.note, t.doubt = text, "about, not a count"
		return t, true
	}
	return wordedTally(s, text)
}

func exactly(digits string) tally {
	n, _ := strconv.ParseFloat(digits, 64)
	return tally{n: n, low: n, high: n}
}

// wordedTally reads a number with words of counting behind it, or a pair without one.
func wordedTally(s, text string) (t tally, ok bool) {
	if pairWords[fold(s)] {
		return tally{n: 2, low: 2, high: 2, note: text}, true
	}
	m := wordCount.FindStringSubmatch(s)
	if m == nil {
		if strings.HasPrefix(s, "1/") || !strings.HasPrefix(s, "qty") {
			return t, false
		}
		return readTally(strings.Trim(strings.TrimPrefix(s, "qty"), " :.="))
	}
	t = exactly(m[1])
	t.note = text
	words := strings.Fields(fold(m[2]))
	for i, w := range words {
		switch {
		case pairWords[w] && i == 0:
			t.n *= 2
			t.low, t.high = t.n, t.n
		case w == "per" || w == "je" || w == "pro" || w == "par" || w == "por" || w == "na":
			t.perSet = true
			return t, true
		case countWords[w], pairWords[w]:
		case handWords[w]:
		default:
			return t, i > 0
		}
	}
	return t, true
}

var handWords = set("l r lh rh left right and opp hand hands li re links rechts")
