package check

import (
	"testing"
)

// use is a check of a use against 1, quiet under half, with one guess that no number settles.
func use(id, under string) *Check {
	return &Check{
		ID:     id,
		Inputs: []Input{{Symbol: "u", Name: "use", Unit: Ratio}, {Symbol: "h", Name: "share below which nothing is said", Unit: Ratio}},
		Steps: []Step{
			{Symbol: "z", Name: "room below half", Formula: "h-u", Unit: Ratio, Aside: true},
			{Symbol: "m", Name: "margin", Formula: "1-u", Unit: Ratio},
		},
		Ways:  map[string]string{"u": "say what stands there"},
		Quiet: "z", Under: under, Value: "u",
		Says: func(r *Result) string { return "use " + r.Print("u") },
	}
}

func useRow(mark string, low, nominal, high float64) Row {
	return Row{Name: mark, Marks: []string{mark}, In: map[string]Value{"u": Guess(low, nominal, high, "nobody said "+mark), "h": Exact(.5)}}
}

// By hand: the margin at the high end is -.2 in all three; only the nominal differs.
func TestQuietBelowHalf(t *testing.T) {
	for nominal, want := range map[float64]Verdict{.5: Clear, .51: Verify, .4: Clear} {
		if got := use("structure.use", "").Judge(inches(), useRow("A", .3, nominal, 1.2)).Verdict; got != want {
			t.Errorf("use %v: %v, want %v", nominal, got, want)
		}
	}
	if got := use("structure.use", "").Judge(inches(), useRow("A", 1.1, 1.2, 1.3)).Verdict; got != Hold {
		t.Errorf("over the limit at the kindest is %v, want HOLD", got)
	}
}

func solved(c *Check, rows ...Row) []*Result {
	var out []*Result
	for _, row := range rows {
		r := c.Judge(inches(), row)
		r.Solve()
		out = append(out, r)
	}
	return out
}

func TestWayInsteadOfATurn(t *testing.T) {
	fs := Fold(solved(use("structure.use", ""), useRow("A", .6, .8, 1.2)))
	if len(fs) != 1 || fs[0].Fix != "say what stands there" {
		t.Errorf("got %+v, want one finding with the way of its input", fs)
	}
}

func TestFoldsUnderTheCheckItNames(t *testing.T) {
	over, below := use("structure.over", ""), use("structure.below", "structure.over")
	for _, row := range []struct {
		name        string
		over, below []Row
		want        int
	}{
		{"same mark, as urgent", []Row{useRow("A", .6, .8, 1.2)}, []Row{useRow("A", .6, .8, 1.2)}, 1},
		{"same mark, more urgent", []Row{useRow("A", .6, .8, 1.2)}, []Row{useRow("A", 1.1, 1.2, 1.3)}, 2},
		{"another mark", []Row{useRow("A", .6, .8, 1.2)}, []Row{useRow("B", .6, .8, 1.2)}, 2},
		{"the other is clear", []Row{useRow("A", .1, .2, .3)}, []Row{useRow("A", .6, .8, 1.2)}, 1},
	} {
		if got := Fold(append(solved(over, row.over...), solved(below, row.below...)...)); len(got) != row.want {
			t.Errorf("%s: %d findings, want %d", row.name, len(got), row.want)
		}
	}
}

func TestRowsWithTheSameWordsAreOneVerify(t *testing.T) {
	a, b := useRow("A", .6, .8, 1.2), useRow("B", .6, .9, 1.3)
	if got := Fold(solved(use("structure.use", ""), a, b)); len(got) != 2 {
		t.Errorf("two guesses are %d findings, want 2", len(got))
	}
	a.Folds, b.Folds = "use", "use"
	got := Fold(solved(use("structure.use", ""), a, b))
	if len(got) != 1 || len(got[0].Marks) != 2 || got[0].Marks[0] != "B" {
		t.Errorf("got %+v, want one finding that names the worst first", got)
	}
}

// A mark that is held is not asked about once more beside others that are not.
func TestVerifyOfAHeldMarkFoldsUnderIt(t *testing.T) {
	held, again, other := useRow("A", 1.1, 1.2, 1.3), useRow("A", .6, .8, 1.2), useRow("B", .6, .8, 1.2)
	for _, r := range []*Row{&held, &again, &other} {
		r.Folds = "use"
	}
	again.Cause, other.Cause = "for years", "for years"
	for _, f := range Fold(solved(use("structure.use", ""), held, again, other)) {
		if f.Verdict == Verify && len(f.Marks) != 1 {
			t.Errorf("VERIFY names %v, want B alone", f.Marks)
		}
	}
}
