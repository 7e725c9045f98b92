package check

import (
	"maps"
	"math"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check/length"
	"dryfit/check/standard"
	_ "dryfit/check/steady"
)

// slot is a two-sided check with one guess, small enough to be worked by hand.
func slot() *Check {
	return &Check{
		ID: "fit.slot",
		Inputs: []Input{{Symbol: "s", Name: "slot as cut", Unit: Length}, {Symbol: "t", Name: "part", Unit: Length},
			{Symbol: "f", Name: "film on one face", Unit: Film}, {Symbol: "a", Unit: Length}, {Symbol: "b", Unit: Length}},
		Steps: []Step{
			{Symbol: "c", Name: "clearance after finish", Formula: "s-2*f-(t+2*f)", Unit: Length},
			{Symbol: "m", Name: "margin", Formula: "MIN(c-a,b-c)", Unit: Length},
		},
		Mends: []Mend{{Symbol: "s", Order: "cut the slot {}", Step: 1.0 / 32}},
		Value: "c", Against: []string{"a", "b"},
		Says: func(r *Result) string { return "clearance " + r.Print("c") },
	}
}

func inches() *Job { return &Job{Unit: length.Inch, Shop: standard.BuiltIn()} }

func bind(s, t, f, a, b Value) map[string]Value {
	return map[string]Value{"s": s, "t": t, "f": f, "a": a, "b": b}
}

func film(low, nominal, high float64) Value { return Guess(low, nominal, high, "shop figure") }

func TestJudge(t *testing.T) {
	const none = -1
	const in = 1.0 / 32
	cases := []struct {
		name, hand string
		in         map[string]Value
		want       Verdict
		fix        float64
	}{
		{"four films close a bare fit", "by hand: .75-.75-4*.006 = -.024; 25/32-.774 = .007",
			bind(Exact(.75), Exact(.75), Exact(.006), Exact(0), Exact(.03)), Hold, 25 * in},
		{"just passes", "by hand: .774-.75-.024 = 0",
			bind(Exact(.774), Exact(.75), Exact(.006), Exact(0), Exact(.03)), Clear, none},
		{"just fails", "by hand: .7739-.774 = -.0001",
			bind(Exact(.7739), Exact(.75), Exact(.006), Exact(0), Exact(.03)), Hold, 25 * in},
		{"rattles", "by hand: .8125-.774 = .0385 over .03; 25/32 leaves .007",
			bind(Exact(.8125), Exact(.75), Exact(.006), Exact(0), Exact(.03)), Hold, 25 * in},
		{"a guess alone never stops a cut", "by hand: .002 at .004, -.014 at .008; 25/32 binds at .008, 26/32 rattles at .004",
			bind(Exact(.768), Exact(.75), film(.004, .006, .008), Exact(0), Exact(.03)), Verify, none},
		{"a guess that cannot save the part never softens the word", "by hand: .75-.75-4*.004 = -.016 at the kindest",
			bind(Exact(.75), Exact(.75), film(.004, .006, .008), Exact(0), Exact(.03)), Hold, none},
		{"kindest inside the range", "by hand: window .001 to .002 is met only at f = .005625 +- .000125",
			bind(Exact(.774), Exact(.75), film(.004, .0075, .008), Exact(.001), Exact(.002)), Verify, none},
		{"wide range fails on both sides", "by hand: 4*.001 = .004 and 4*.009 = .036 around .03: -.006 to .026",
			bind(Exact(.78), Exact(.75), film(.001, .005, .009), Exact(0), Exact(.03)), Verify, none},
		{"missing is not zero", "a slot nobody typed is asked for",
			bind(Missing(Ask{What: "the slot width"}), Exact(.75), Exact(.006), Exact(0), Exact(.03)), NotChecked, none},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := slot().Judge(inches(), Row{Name: "J1", In: c.in})
			r.Solve()
			if r.Verdict != c.want {
				t.Errorf("verdict %v, want %v (%s)", r.Verdict, c.want, c.hand)
			}
			switch {
			case c.fix == none && r.Fix != nil && r.Fix.Measure == "":
				t.Errorf("offers %q, want nothing (%s)", r.Fix.Text, c.hand)
			case c.fix != none && (r.Fix == nil || math.Abs(r.Fix.To-c.fix) > 1e-12):
				t.Errorf("fix %+v, want %v (%s)", r.Fix, c.fix, c.hand)
			}
		})
	}
}

// By hand: corners of s in .775..785 and f in .005..007 are .775-.75-.028 = -.003 at the
// worst; the single losses are .005 and .004 from .006.
func TestJudgeCombinesUpToThreeRangesAtTheirCorners(t *testing.T) {
	in := bind(Between(.775, .78, .785), Exact(.75), film(.005, .006, .007), Exact(0), Exact(.05))
	r := slot().Judge(inches(), Row{In: in})
	if math.Abs(r.Worst-(-.003)) > 1e-12 || r.Verdict != Verify {
		t.Errorf("worst %v, verdict %v; want -.003, VERIFY", r.Worst, r.Verdict)
	}
	if r.Decides != "s" {
		t.Errorf("decides %q, want s, which costs .005 against .004", r.Decides)
	}
}

// By hand: five equal ranges of .001 around a margin of .0025: corners would be -.0025,
// the root of the sum of squares is sqrt(5)*.001 = .002236.
func TestJudgeCombinesMoreThanThreeByRootSumSquare(t *testing.T) {
	c := &Check{ID: "fit.sum", Steps: []Step{{Symbol: "m", Formula: "p+q+r+s+u-0.0025", Unit: Length}}, Value: "m"}
	in := map[string]Value{}
	for _, s := range []string{"p", "q", "r", "s", "u"} {
		c.Inputs = append(c.Inputs, Input{Symbol: s, Unit: Length})
		in[s] = Between(0, .001, .002)
	}
	r := c.Judge(inches(), Row{In: in})
	if want := .0025 - math.Sqrt(5)*.001; math.Abs(r.Worst-want) > 1e-12 || r.Verdict != Clear {
		t.Errorf("worst %v, verdict %v; want %v, CLEAR", r.Worst, r.Verdict, want)
	}
}

// By hand: with the slot at .78 +- .002 the clearance is c = .03-4f +- .002; at or above zero
// for every slot needs 4f <= .028, so f at most .007.
func TestTurnOfAGuessIsWhatToMeasure(t *testing.T) {
	in := bind(Between(.778, .78, .782), Exact(.75), film(.004, .006, .009), Exact(0), Exact(.05))
	r := slot().Judge(inches(), Row{In: in})
	r.Solve()
	if r.Turns == nil || r.Turns.Symbol != "f" || r.Turns.Least || !r.Turns.Alone || math.Abs(r.Turns.At-.007) > 1e-9 {
		t.Fatalf("turns %+v, want f at most .007", r.Turns)
	}
}

// By hand: a slot measured .775 +- .004 with everything else exact wants .774 at its low end:
// read again, it must be at least .778.
func TestTurnOfAReadingKeepsItsTolerance(t *testing.T) {
	in := bind(Between(.771, .775, .779).At(Cell{Tab: "Joints", Addr: "F2"}), Exact(.75), Exact(.006), Exact(0), Exact(.05))
	r := slot().Judge(inches(), Row{In: in})
	r.Solve()
	if r.Turns == nil || !r.Turns.Least || math.Abs(r.Turns.At-.778) > 1e-9 {
		t.Fatalf("turns %+v, want the slot at least .778", r.Turns)
	}
}

func anyValue(t *rapid.T, name string, low, high float64) Value {
	x := rapid.Float64Range(low, high).Draw(t, name)
	u := rapid.SampledFrom([]float64{0, 0, .001, .004}).Draw(t, name+" range")
	v := Between(x-u, x, x+u)
	v.Guessed = rapid.Bool().Draw(t, name+" guessed")
	return v
}

func anyRow(t *rapid.T) map[string]Value {
	return bind(anyValue(t, "s", .7, .85), anyValue(t, "t", .7, .8), anyValue(t, "f", .002, .008),
		Exact(0), Exact(rapid.Float64Range(.01, .06).Draw(t, "b")))
}

// with is some inputs with one of them changed.
func with(in map[string]Value, symbol string, v Value) map[string]Value {
	out := maps.Clone(in)
	out[symbol] = v
	return out
}

func TestWiderRangeNeverClears(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyRow(t)
		before := slot().Judge(inches(), Row{In: in}).Verdict
		s := rapid.SampledFrom([]string{"s", "t", "f"}).Draw(t, "widened")
		wide := with(in, s, in[s].PlusMinus(rapid.Float64Range(0, .01).Draw(t, "by")))
		after := slot().Judge(inches(), Row{In: wide}).Verdict
		if before != Clear && after == Clear {
			t.Fatalf("%v became CLEAR when %s was widened to %+v", before, s, wide[s])
		}
	})
}

func TestOfferedFixClears(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyRow(t)
		r := slot().Judge(inches(), Row{In: in})
		r.Solve()
		if r.Fix == nil || r.Fix.Measure != "" {
			return
		}
		moved := in[r.Fix.Symbol]
		u := moved.High - moved.Nominal
		if moved.Guessed {
			u = 0
		}
		again := slot().Judge(inches(), Row{In: with(in, r.Fix.Symbol, Between(r.Fix.To-u, r.Fix.To, r.Fix.To+u))})
		if again.Verdict != Clear {
			t.Fatalf("%s leaves %v", r.Fix.Text, again.Verdict)
		}
	})
}

func TestInchAndMillimetreAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyRow(t)
		metric := map[string]Value{}
		for s, v := range in {
			metric[s] = v.Scale(25.4)
		}
		a := slot().Judge(inches(), Row{In: in})
		b := slot().Judge(&Job{Unit: length.Millimetre, Shop: standard.BuiltIn()}, Row{In: metric})
		if math.Abs(a.Worst) > 1e-7 && math.Abs(a.Margin()) > 1e-7 && a.Verdict != b.Verdict {
			t.Fatalf("inch %v, millimetre %v", a.Verdict, b.Verdict)
		}
	})
}
