package length

import (
	"strings"
)

// Size is a compound size as read: 95-1/2 x 12 x 3/4, 24"L x 24"W x 18"H.
type Size struct {
	Axes  []Axis // in the order typed
	Count int    // pieces typed with the size (8×700mm), 0 where none is
	More  []Size // further sizes of a list: 0.25mx2, 0.4mx1
	// Doubt and Other speak of the size as a whole; each axis carries its own besides.
	Doubt string
	Other []Size
	Spans []Span // the bytes of the text that were the size, in order
}

// Axis is one length of a size, with the letter of its axis where one was typed.
type Axis struct {
	Letter byte // 'L' length, 'W' width, 'H' height, 'D' depth, 'T' thickness, or 0
	Length
}

// Span is a piece of a text, in bytes.
type Span struct{ From, To int }

// By finds the length of an axis by its letter.
func (s Size) By(letter byte) (Length, bool) {
	for _, a := range s.Axes {
		if a.Letter == letter {
			return a.Length, true
		}
	}
	return Length{}, false
}

// In expresses every axis in another unit, as [Length.In] does.
func (s Size) In(unit Unit) Size {
	s.Axes = append([]Axis(nil), s.Axes...)
	for i := range s.Axes {
		s.Axes[i].Length = s.Axes[i].Length.In(unit)
	}
	s.More, s.Other = allIn(s.More, unit), allIn(s.Other, unit)
	return s
}

func allIn(sizes []Size, unit Unit) []Size {
	var out []Size
	for _, s := range sizes {
		out = append(out, s.In(unit))
	}
	return out
}

// Doubts joins the doubt of the size and those of its axes, each once; empty where there
// is none.
func (s Size) Doubts() string {
	all := s.Doubt
	for _, a := range s.Axes {
		if !strings.Contains(all, a.Doubt) {
			all = join(all, a.Doubt)
		}
	}
	return all
}

// Rest is the text without the size: the description of "Shelf 34 1/2 x 11 1/4 x 3/4 ply"
// is "Shelf ply".
func (s Size) Rest(text string) string {
	var kept []string
	at := 0
	for _, span := range s.Spans {
		kept = append(kept, text[at:span.From])
		at = span.To
	}
	kept = append(kept, text[at:])
	words := strings.Join(strings.Fields(strings.Join(kept, " ")), " ")
	return strings.Trim(strings.ReplaceAll(words, " ,", ","), " ,;:-–—/=")
}

// String prints the size for messages.
func (s Size) String() string {
	var parts []string
	for _, a := range s.Axes {
		text := a.Length.String()
		if a.Letter != 0 {
			text += " " + string(rune(a.Letter))
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, " x ")
}

// ParseSize finds the size in a text that may hold other words: 7'-8" x 12" x 3/4",
// "Shelf 34 1/2 x 11 1/4 x 3/4 ply", "MDF 16mm 610x930", 1/2", 18" X 24". A text with one
// length and no x gives a size of one axis; a bare whole number among words is no size. The
// error is an *[Error].
func ParseSize(text string, ctx Context) (Size, error) {
	p := newReader(text, ctx, true)
	if p.failed() {
		return Size{}, p.err
	}
	if absent := Nothing(text); absent != Something {
		p.fail(Absent, "it says %s", absentWords[absent])
		return Size{}, p.sizeError()
	}
	if p.startsWithNumber() && !p.holds(times) {
		if s, err := p.lone(); err != nil || len(s.Axes) > 0 {
			return s, err
		}
	}
	f := &finder{reader: p, used: make([]bool, len(p.tokens))}
	f.find()
	if f.refusal != nil {
		p.err = f.refusal
		return Size{}, p.sizeError()
	}
	s, ok := f.assemble()
	if !ok {
		return p.noSize()
	}
	if f.missing() {
		p.fail(NoNumber, "a number is missing beside the x")
		return Size{}, p.sizeError()
	}
	s.Spans = f.spans()
	s.Doubt = join(s.Doubt, f.caution())
	return s, nil
}

// lone reads a cell that begins with a number and holds no x: "72 VIF", "600 +0/-1". It
// gives no size and no error where other words stand in it, for them the finder looks.
func (p *reader) lone() (Size, error) {
	wordy := p.holds(comma)
	for _, t := range p.tokens {
		if t.kind == word && isAxis(t.text) {
			return Size{}, nil
		}
		wordy = wordy || t.kind == word && !isUnit(t.text)
	}
	l, err := Parse(p.text, p.ctx)
	switch {
	case err == nil:
		all := Span{p.tokens[0].from, p.tokens[len(p.tokens)-1].to}
		return Size{Axes: []Axis{{Length: l}}, Count: l.Count, Spans: []Span{all}}, nil
	case wordy:
		return Size{}, nil
	}
	return Size{}, err
}

func (p *reader) noSize() (Size, error) {
	if n := len(p.tokens); n > 0 && p.startsWithNumber() && p.tokens[n-1].kind == times {
		p.fail(NoNumber, "a number is missing beside the x")
	}
	if !p.holds(digits) && !p.holds(vulgar) {
		p.fail(NoNumber, "it holds no number")
	}
	p.fail(StrayText, "it holds no size")
	return Size{}, p.sizeError()
}

func (p *reader) startsWithNumber() bool {
	if len(p.tokens) == 0 {
		return false
	}
	switch t := p.tokens[0]; t.kind {
	case digits, vulgar, about, plusMinus:
		return true
	default:
		return t.kind == word && (nearWords[t.text] || boundWords[t.text])
	}
}

func (p *reader) sizeError() error {
	p.err.Want = "write a size such as 34 1/2 x 11 1/4 x 3/4 or 880 x 285 x 19 mm"
	return p.err
}
