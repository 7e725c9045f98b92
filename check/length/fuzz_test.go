package length

import (
	"errors"
	"math"
	"testing"
)

func seeds(f *testing.F) {
	for _, r := range table(f) {
		f.Add(r.text, uint8(r.ctx.Unit), uint8(r.ctx.Decimal))
	}
}

func fuzzContext(unit, mark uint8) Context {
	return Context{Unit: Unit(unit % 7), Decimal: Mark(mark % 3), Plain: mark > 127}
}

// sound fails unless the numbers of a reading are in order and finite.
func sound(t *testing.T, text string, l Length) {
	if !(0 <= l.Low && l.Low <= l.Nominal && l.Nominal <= l.High) || math.IsInf(l.High, 0) {
		t.Fatalf("%q reads %v .. %v .. %v", text, l.Low, l.Nominal, l.High)
	}
	if len(l.Other) > 0 && l.Doubt == "" {
		t.Fatalf("%q has a second reading and no doubt", text)
	}
	for _, o := range l.Other {
		if !(o.Low <= o.Nominal && o.Nominal <= o.High) {
			t.Fatalf("%q reads %v .. %v .. %v", text, o.Low, o.Nominal, o.High)
		}
	}
	inch, mm := l.In(Inch), l.In(Millimetre)
	if l.Unit != Unsaid && math.Abs(inch.Nominal*25.4-mm.Nominal) > 1e-9*mm.Nominal {
		t.Fatalf("%q is %v in and %v mm", text, inch.Nominal, mm.Nominal)
	}
}

func refusal(t *testing.T, text string, err error) {
	var refused *Error
	if !errors.As(err, &refused) || refused.Reason.String() == "unknown" || refused.Why == "" || refused.Want == "" {
		t.Fatalf("%q is refused without a reason: %v", text, err)
	}
}

func FuzzParse(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text string, unit, mark uint8) {
		l, err := Parse(text, fuzzContext(unit, mark))
		if err != nil {
			refusal(t, text, err)
			return
		}
		if Nothing(text) != Something {
			t.Fatalf("%q holds nothing and reads %v", text, l)
		}
		sound(t, text, l)
	})
}

func FuzzParseSize(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text string, unit, mark uint8) {
		s, err := ParseSize(text, fuzzContext(unit, mark))
		if err != nil {
			refusal(t, text, err)
			return
		}
		if len(s.Axes) == 0 || len(s.Spans) == 0 {
			t.Fatalf("%q is a size without numbers", text)
		}
		for _, a := range s.Axes {
			sound(t, text, a.Length)
		}
		at := 0
		for _, span := range s.Spans {
			if span.From < at || span.To <= span.From || span.To > len(text) {
				t.Fatalf("%q has a size at %v", text, s.Spans)
			}
			at = span.To
		}
		_ = s.Rest(text)
	})
}
