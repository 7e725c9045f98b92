package read

import (
	"math"
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

// numberWords spell small counts, folded.
var numberWords = map[string]float64{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
	"single": 1, "eins": 1, "ein": 1, "eine": 1, "zwei": 2, "drei": 3, "vier": 4, "funf": 5, "sechs": 6, "sieben": 7, "acht": 8, "neun": 9, "zehn": 10,
	"un": 1, "une": 1, "deux": 2, "trois": 3, "quatre": 4, "cinq": 5, "sept": 7, "huit": 8, "dix": 10,
	"uno": 1, "una": 1, "dos": 2, "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "siete": 7, "ocho": 8, "diez": 10,
	"due": 2, "tre": 3, "quattro": 4, "cinque": 5, "sei": 6, "sette": 7, "otto": 8, "dieci": 10,
	"jeden": 1, "jedna": 1, "dwa": 2, "dwie": 2, "trzy": 3, "cztery": 4, "piec": 5, "szesc": 6,
	"een": 1, "twee": 2, "drie": 3, "vijf": 5, "zes": 6, "zeven": 7, "tien": 10,
	"en": 1, "ett": 1, "tva": 2, "fyra": 4, "fem": 5, "sex": 6, "sju": 7, "atta": 8, "tio": 10,
}

// inDigits is a word of a count with its digits behind it, or the other way round: "2 (two)".
var inDigits = regexp.MustCompile(`^(?:\pL+\s*\((\d{1,3})\)|(\d{1,3})\s*\(\pL+\))$`)

// spelled reads a count in words: "six", "a single", "one pair", "half a dozen", "two only".
func spelled(text string) (float64, bool) {
	n, k, said, article := 1.0, 1.0, false, false
	for _, w := range strings.Fields(fold(text)) {
		x, number := numberWords[w]
		switch {
		case number && !said:
			n, said = x, true
		case w == "half" && !said:
			k *= .5
		case w == "a" || w == "only" || w == "each" || w == "just":
			article = article || w == "a"
		case w == "dozen" || w == "dutzend" || w == "douzaine" || w == "docena" || w == "tuzin":
			k, said = k*12, true
		case pairWords[w]:
			k, said = k*2, true
		case countWords[w] && (said || article):
		default:
			return 0, false
		}
	}
	return n * k, (said || article) && n*k == float64(int(n*k))
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
	s = inDigits.ReplaceAllString(s, "$1$2")
	if m := plainCount.FindStringSubmatch(s); m != nil {
		return exactly(m[1]), true
	}
	if m := remarked.FindStringSubmatch(s); m != nil {
		return withRemark(m[1], m[2], text)
	}
	if n, found := spelled(s); found {
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

// remarked is a count with a remark behind it: "2 (1 L, 1 R)", "3 pcs (spare incl.)".
var remarked = regexp.MustCompile(`^(\d{1,4})\s*(?:ea|pcs|off|no|stk|st|szt|pz|uds?)?\.?\s*[(\[]([^)\]]+)[)\]]$`)

// withRemark reads a remark that splits the count by hands, or one of words alone.
func withRemark(digits, remark, text string) (tally, bool) {
	t := exactly(digits)
	t.note = text
	if parts, ok := readTally(remark); ok && handCount.MatchString(strings.TrimSpace(remark)) {
		if parts.n != t.n {
			t.low, t.high = min(t.n, parts.n), max(t.n, parts.n)
			t.doubt = remark + " is not " + digits
		}
		return t, true
	}
	if m := sharedOut.FindStringSubmatch(remark); m != nil {
		each := exactly(m[1])
		if each.n > 0 && math.Mod(t.n, each.n) == 0 { // 8, 4 on each side
			return t, true
		}
		t.doubt = remark + " does not go into " + digits
		return t, true
	}
	return t, !strings.ContainsAny(remark, "0123456789")
}

// sharedOut is the share of each place in a count: "4 ea. side", "2 per bay".
var sharedOut = regexp.MustCompile(`^(\d{1,3})\s*(?:ea|each|per|par|je|pro|por|na|a)\b[^\d]*$`)

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
