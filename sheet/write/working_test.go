package write

import (
	"slices"
	"testing"

	"dryfit/check"
)

// Zeros that nobody typed and nothing is held against are folded away; a zero that was typed, one
// that is the limit, one that has a range and one alone of its kind are not.
func TestZerosThatTakeNoPart(t *testing.T) {
	c := &check.Check{ID: "fit.test", Against: []string{"f"}, Value: "a",
		Inputs: []check.Input{{Symbol: "z"}, {Symbol: "a"}, {Symbol: "y"}, {Symbol: "f"}, {Symbol: "q"}, {Symbol: "r"}},
		Steps:  []check.Step{{Symbol: "m", Name: "margin", Formula: "a+z+y+f+q+r"}}}
	in := map[string]check.Value{"z": check.Exact(0), "a": check.Exact(2), "y": check.Exact(0), "f": check.Exact(0),
		"q": check.Exact(0).At(check.Cell{Tab: "Parts", Addr: "B2"}), "r": check.Between(0, 0, 1)}
	job := &check.Job{}
	if got := symbolsOf(ordered(c.Judge(job, check.Row{In: in})).idle); !slices.Equal(got, []string{"z", "y"}) {
		t.Errorf("folded away: %v, want z and y", got)
	}
	in["y"] = check.Exact(1)
	o := ordered(c.Judge(job, check.Row{In: in}))
	if len(o.idle) > 0 || !slices.Equal(symbolsOf(o.taking), []string{"z", "a", "y", "f", "q", "r"}) {
		t.Errorf("with one zero left: folded %v, shown %v", symbolsOf(o.idle), symbolsOf(o.taking))
	}
}

func symbolsOf(lines []check.Line) []string {
	var out []string
	for _, l := range lines {
		out = append(out, l.Symbol)
	}
	return out
}

// Strokes by hand: a twentieth each, so 14 % is 2.8, three; more than the column holds is cut, and
// what is on the other side of the line is none.
func TestStrokes(t *testing.T) {
	for _, c := range []struct {
		share float64
		most  int
		want  int
	}{{0.14, 40, 3}, {1, 40, 20}, {32, 40, 40}, {-0.5, 40, 0}, {5.8, 13, 13}} {
		if got := stroked(c.share, c.most); got != c.want {
			t.Errorf("%v of the limit: %d strokes, want %d", c.share, got, c.want)
		}
	}
}

// Counts have no share of a limit, ratios are one, and a limit in another unit is none.
func TestWhatAMarginIsAShareOf(t *testing.T) {
	for _, c := range []struct {
		name         string
		margin, held check.Unit
		symbol       string
		ok           bool
	}{
		{"a length against a length", check.Length, check.Film, "b", true},
		{"a ratio by itself", check.Ratio, check.Pressure, "", true},
		{"a count", check.Count, check.Count, "", false},
		{"a weight against a length", check.Weight, check.Length, "", false},
	} {
		r := (&check.Check{ID: "fit.test", Value: "a", Against: []string{"b"},
			Inputs: []check.Input{{Symbol: "a", Unit: c.held}, {Symbol: "b", Unit: c.held}},
			Steps:  []check.Step{{Symbol: "m", Name: "margin", Formula: "b-a", Unit: c.margin}}}).
			Judge(&check.Job{}, check.Row{In: map[string]check.Value{"a": check.Exact(1), "b": check.Exact(4)}})
		if _, symbol, ok := nearness(r); symbol != c.symbol || ok != c.ok {
			t.Errorf("%s: %q, %v; want %q, %v", c.name, symbol, ok, c.symbol, c.ok)
		}
	}
}
