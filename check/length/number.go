package length

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// number is a number as typed, before its unit is known. The unit decides whether 1,200
// may be twelve hundred and whether a fraction stands in the wrong unit.
type number struct {
	typed    string
	value    float64
	step     float64 // one of the last place typed: 0.001 for 0.190, 1/16 for 3/16, 1 for 24
	whole    bool    // digits only
	fraction bool
	den      int      // of the fraction
	grouped  *float64 // the value if the lone mark before three digits parts thousands
	comma    bool     // that mark is a comma
	quarter  int      // n of an n/4 that may be rough lumber
	rivals   []float64
	doubt    string
}

// longest is the number of characters beyond which nothing is a length; a cell shows a
// fraction of an inch with up to 17 digits.
const longest = 20

// decimal reads digits with full stops and commas, as one typed token.
func decimal(typed string, mark Mark) (number, bool) {
	n := number{typed: typed, whole: !strings.ContainsAny(typed, ".,"), step: 1}
	if len(typed) > longest {
		return n, false
	}
	at := strings.LastIndexAny(typed, ".,")
	if at < 0 {
		return n.set(typed)
	}
	sign := typed[at : at+1]
	head, tail := typed[:at], typed[at+1:]
	switch {
	case strings.ContainsAny(head, ".,"):
		return n.groups(head, tail, sign)
	case len(tail) == 3 && len(head) >= 1 && len(head) <= 3 && head[0] != '0':
		return n.oneMark(head, tail, sign, mark)
	}
	return n.decimals(head, tail)
}

func (n number) set(text string) (number, bool) {
	v, err := strconv.ParseFloat(text, 64)
	n.value = v
	return n, err == nil && v < 1e9
}

func (n number) decimals(head, tail string) (number, bool) {
	n.step = math.Pow10(-len(tail))
	return n.set(head + "." + tail)
}

// groups reads a number with several marks: 1,234.5 or 1.234.567.
func (n number) groups(head, tail, sign string) (number, bool) {
	inner := "."
	if sign == "." {
		inner = ","
	}
	if strings.Contains(head, sign) { // 1.234.567: the marks part thousands, or nothing
		if strings.Contains(head, inner) {
			return n, false
		}
		head, tail, inner = head+sign+tail, "", sign
	}
	parts := strings.Split(head, inner)
	for i, part := range parts {
		if len(part) != 3 && (i > 0 || len(part) == 0 || len(part) > 3) {
			return n, false
		}
	}
	joined := strings.Join(parts, "")
	if tail == "" {
		return n.set(joined)
	}
	return n.decimals(joined, tail)
}

// oneMark reads 1,200 and 1.200, which are two numbers unless the workbook's mark is known.
func (n number) oneMark(head, tail, sign string, mark Mark) (number, bool) {
	known := map[Mark]string{Point: ".", Comma: ","}[mark]
	if known != "" && known != sign {
		return n.set(head + tail)
	}
	out, ok := n.decimals(head, tail)
	if known == "" && ok {
		all, err := strconv.ParseFloat(head+tail, 64)
		ok = err == nil
		out.grouped, out.comma = &all, sign == ","
	}
	return out, ok
}

// ruled reports whether a denominator stands on a rule or tape.
func ruled(den int) bool { return den >= 2 && den <= 128 && den&(den-1) == 0 }

// ratio makes a fraction without whole part: 3/4, 5/4, 11/2.
func ratio(num, den int, typed string) number {
	n := number{typed: typed, value: float64(num) / float64(den), step: 1 / float64(den), fraction: true, den: den}
	switch {
	case !ruled(den):
		n.doubt = fmt.Sprintf("%s is on no rule", typed)
	case num < den:
	case den == 4 && num <= 16 && (num == 5 || num%2 == 0):
		n.quarter = num
	default:
		n.unglue(num, den)
	}
	return n
}

// unglue doubts an improper fraction: 11/2 is more often 1 1/2 without its space.
func (n *number) unglue(num, den int) {
	var splits []float64
	text := strconv.Itoa(num)
	for cut := 1; cut < len(text); cut++ {
		whole, _ := strconv.Atoi(text[:cut])
		part, _ := strconv.Atoi(text[cut:])
		if text[cut] != '0' && part < den {
			splits = append(splits, float64(whole)+float64(part)/float64(den))
		}
	}
	n.doubt = n.typed + " is more than a whole"
	if len(splits) > 0 {
		n.doubt = n.typed + " may be a whole number and a fraction without their space"
		n.value, n.rivals = splits[0], append(splits[1:], n.value)
	}
}

// mixed adds a proper fraction to a whole number.
func mixed(whole number, part number, typed string) number {
	return number{
		typed: typed, value: whole.value + part.value, step: part.step,
		fraction: true, den: part.den, doubt: part.doubt,
	}
}

// number reads one number at the reader's place: decimal, fraction, mixed.
func (p *reader) number() (number, bool) {
	start := p.at
	if p.kind() == vulgar {
		return p.vulgar(), true
	}
	if p.kind() != digits {
		return number{}, false
	}
	if n, ok := p.ratio(); ok {
		return n, true
	}
	if p.failed() {
		return number{}, false
	}
	t := p.take()
	n, ok := decimal(t.text, p.ctx.Decimal)
	if !ok {
		p.fail(BadNumber, "%s is no number", quote(t.text))
		return number{}, false
	}
	if n.whole {
		if m, ok := p.fractionBehind(n, start); ok {
			return m, true
		}
		n = p.thousands(n)
	}
	return n, !p.failed()
}

func (p *reader) vulgar() number {
	t := p.take()
	return ratio(t.num, t.den, fmt.Sprintf("%d/%d", t.num, t.den))
}

// ratio reads n/d typed without spaces, and the slip 2.1/4 for 2 1/4.
func (p *reader) ratio() (number, bool) {
	if p.ahead(1).kind != slash || p.ahead(2).kind != digits {
		return number{}, false
	}
	if p.ahead(1).spaced || p.ahead(2).spaced {
		return p.looseRatio()
	}
	top, bar, bottom := p.ahead(0), p.ahead(1), p.ahead(2)
	den, err := strconv.Atoi(bottom.text)
	typed := top.text + "/" + bottom.text
	num, errNum := strconv.Atoi(top.text)
	odd := !ruled(den) && (den > 12 || errNum == nil && num >= den) // 18/19 are two boards
	if err != nil || len(bottom.text) > 3 || den == 0 || odd {
		if p.free {
			return number{}, false
		}
		p.fail(Fraction, "%s is a fraction that no rule has", typed)
		return number{}, false
	}
	if whole, part, ok := slip(top.text); ok && part < den && ruled(den) {
		p.at += 3
		n := mixed(number{value: float64(whole)}, ratio(part, den, typed), typed)
		n.doubt = fmt.Sprintf("%s is read as %d %d/%d", typed, whole, part, den)
		return n, true
	}
	if errNum != nil || len(top.text) > 5 {
		if !p.free {
			p.fail(Fraction, "%s is no fraction", typed)
		}
		return number{}, false
	}
	p.at += 3
	n := ratio(num, den, typed)
	if bar.text == "⁄" && n.rivals != nil {
		n.doubt = fmt.Sprintf("%s may be a whole number and a fraction run together", typed)
	}
	return n, true
}

// looseRatio reads 3 / 4, where it can be a fraction and the text holds nothing but a length.
func (p *reader) looseRatio() (number, bool) {
	num, err1 := strconv.Atoi(p.ahead(0).text)
	den, err2 := strconv.Atoi(p.ahead(2).text)
	if p.free || err1 != nil || err2 != nil || !ruled(den) || num >= den {
		return number{}, false
	}
	p.at += 3
	n := ratio(num, den, fmt.Sprintf("%d/%d", num, den))
	n.doubt = "the slash stands apart, read as " + n.typed
	return n, true
}

// slip takes the 2.1 of 2.1/4 apart.
func slip(text string) (whole, part int, ok bool) {
	head, tail, found := strings.Cut(text, ".")
	if !found {
		head, tail, found = strings.Cut(text, ",")
	}
	if !found || head == "" || len(head) > 4 || len(tail) > 2 {
		return 0, 0, false
	}
	whole, err1 := strconv.Atoi(head)
	part, err2 := strconv.Atoi(tail)
	return whole, part, err1 == nil && err2 == nil && part > 0
}

// fractionBehind reads the fraction of a mixed number: 2 1/4, 2-1/4, 2½, 2 and 1/4.
func (p *reader) fractionBehind(whole number, start int) (number, bool) {
	back := p.at
	joint := p.ahead(0)
	if joint.kind == dash || joint.kind == word && (joint.text == "and" || joint.text == "und") {
		p.at++
	}
	loose := joint.kind == dash && joint.spaced && p.ahead(0).spaced
	part, ok := number{}, false
	switch {
	case p.kind() == vulgar:
		part, ok = p.vulgar(), true
	case p.kind() == digits && (p.at > back || p.ahead(0).spaced || p.ahead(0).raised):
		part, ok = p.ratio()
	}
	if !ok || part.value >= 1 || part.rivals != nil || part.typed == "" {
		p.at = back
		return number{}, false
	}
	n := mixed(whole, part, p.typed(start, p.at))
	if loose {
		n.rivals = []float64{whole.value - part.value}
		n.doubt = join(n.doubt, fmt.Sprintf("%s is read as one number, the dash may take away", n.typed))
	}
	return n, true
}

// thousands joins 1 200: a space parts thousands in French, Polish and Swedish.
func (p *reader) thousands(n number) number {
	next := p.ahead(0)
	if next.kind != digits || !next.spaced || len(n.typed) > 3 || n.value == 0 || next.raised || n.typed[0] == '0' {
		return n
	}
	head, _, _ := strings.Cut(strings.ReplaceAll(next.text, ",", "."), ".")
	if len(head) != 3 || p.ahead(1).kind == slash || p.ahead(1).kind == vulgar {
		return n
	}
	if p.free && !next.wide && len(n.typed) > 1 {
		return n
	}
	if !next.wide && !p.metricAhead(1) {
		return n
	}
	joined, ok := decimal(n.typed+next.text, p.ctx.Decimal)
	if !ok {
		return n
	}
	p.at++
	if p.free && !next.wide {
		joined.doubt = fmt.Sprintf("%s %s is read as one number with a space before the hundreds", n.typed, next.text)
	}
	return joined
}

// metricAhead reports whether the number whose last token is n ahead is metric.
func (p *reader) metricAhead(n int) bool {
	t := p.ahead(n)
	for i := n + 1; t.kind == digits; i++ {
		t = p.ahead(i)
	}
	if t.kind == word {
		if unit, ok := unitWords[t.text]; ok {
			return unit.Metric()
		}
	}
	if t.kind == footMark || t.kind == inchMark {
		return false
	}
	return p.ctx.Unit.Metric() || p.free && p.metricBehind()
}

// metricBehind reports whether the next unit in the text is metric.
func (p *reader) metricBehind() bool {
	for _, t := range p.tokens[p.at:] {
		switch unit := unitWords[t.text]; {
		case t.kind == footMark, t.kind == inchMark:
			return false
		case t.kind == word && unit != Unsaid:
			return unit.Metric()
		}
	}
	return false
}

// plain prints a number as short as it can be.
func plain(v float64) string { return strconv.FormatFloat(v, 'g', 10, 64) }
