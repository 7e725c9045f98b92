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

// total is a check of a sum of two weights against 5.
func total() *Check {
	return &Check{
		ID:     "structure.total",
		Inputs: []Input{{Symbol: "W", Name: "weight", Unit: Weight}, {Symbol: "Q", Name: "load", Unit: Weight}},
		Steps:  []Step{{Symbol: "m", Name: "margin", Formula: "5-(W+Q)", Unit: Weight}},
		Value:  "W", Against: []string{"Q"},
		Says: func(r *Result) string { return "weighs " + r.Print("W") },
	}
}

// By hand: what is left of weight and load without what the faulty cells add to them stands
// against 5.
func TestASumFoldsUnderTheFaultOfItsTerm(t *testing.T) {
	faulty, sound, poor := Cell{Tab: "Parts", Addr: "K7"}, Cell{Tab: "Parts", Addr: "K8"}, Cell{Tab: "Parts", Addr: "K9"}
	root := use("schedule.typed", "")
	root.Root = true
	at := func(c Cell, u float64) Row {
		row := useRow(c.Addr, u, u, u)
		row.Cells = []Cell{c}
		return row
	}
	speaks := solved(root, at(faulty, 2), func() Row { r := at(poor, 2); r.Most = Verify; return r }())
	guessed := Guess(-1, 0, 1, "nobody said")
	term := func(symbol string, by float64, from ...Cell) Term {
		return Term{Symbol: symbol, From: from, Share: Exact(by)}
	}
	for _, row := range []struct {
		name  string
		w     float64
		q     Value
		terms []Term
		want  int // findings beside the two of the root
	}{
		{"10 - 5 = 5, and a guess of 1 more is asked when the cell is right", 10, guessed, []Term{term("W", 5, faulty)}, 0},
		{"10 - 4 = 6, with the guess 5 at the least", 10, guessed, []Term{term("W", 4, faulty)}, 1},
		{"10 - 9 = 1", 10, Exact(0), []Term{term("W", 9, sound, faulty), term("W", 1, sound)}, 0},
		{"10 - 1 = 9", 10, Exact(0), []Term{term("W", 9, sound), term("W", 1, faulty)}, 1},
		{"it weighs and it carries: 4 + 4 - 3 - 2 = 3", 4, Exact(4), []Term{term("W", 3, faulty), term("Q", 2, faulty)}, 0},
		{"of the load alone: 4 + 4 - 2 = 6", 4, Exact(4), []Term{term("Q", 2, faulty)}, 1},
		{"both cells: 12 - 4 - 4 = 4, and the more urgent explains it", 12, Exact(0), []Term{term("W", 4, poor), term("W", 4, faulty)}, 0},
		{"10 - 9 = 1, but the root is less urgent", 10, Exact(0), []Term{term("W", 9, poor)}, 1},
		{"no cell of the root", 10, Exact(0), []Term{term("W", 10, sound)}, 1},
		{"of no cell at all", 10, Exact(0), []Term{term("W", 10, Cell{})}, 1},
	} {
		sum := Row{Name: "case", Marks: []string{"case"}, Cells: []Cell{sound}, Terms: row.terms,
			In: map[string]Value{"W": Exact(row.w), "Q": row.q}}
		fs := Fold(append(solved(total(), sum), speaks...))
		if len(fs) != 2+row.want {
			t.Errorf("%s: %d findings, want %d", row.name, len(fs), 2+row.want)
		}
	}
}

// Two checks that rest on one thing nobody measured are one line, and so are two that ask for
// one thing; a root check keeps its own line.
func TestOneThingMissingIsOneLine(t *testing.T) {
	missing := func(what string) Row {
		r := useRow("A", 1, 1, 1)
		r.In["u"] = Missing(Ask{What: what})
		return r
	}
	rests := func(mark string, most float64, speaks bool) Row {
		r := useRow(mark, .6, .8, most)
		r.Rests, r.Speaks = "the readings", speaks
		return r
	}
	root := use("structure.below", "")
	root.Root = true
	for _, row := range []struct {
		name        string
		over, below Row
		second      *Check
		want        int
		speaks      string
	}{
		{"the same", missing("the bay"), missing("the bay"), use("structure.below", ""), 1, "structure.over"},
		{"two things", missing("the bay"), missing("the load"), use("structure.below", ""), 2, "structure.over"},
		{"a root of its own", missing("the bay"), missing("the bay"), root, 2, "structure.over"},
		{"the worst speaks", rests("A", 1.2, false), rests("B", 1.1, false), use("structure.below", ""), 1, "structure.over"},
		{"the one that names it speaks", rests("A", 1.2, false), rests("B", 1.1, true), use("structure.below", ""), 1, "structure.below"},
	} {
		t.Run(row.name, func(t *testing.T) {
			fs := Fold(append(solved(use("structure.over", ""), row.over), solved(row.second, row.below)...))
			if len(fs) != row.want || fs[0].ID != row.speaks {
				t.Errorf("%d lines, first %s; want %d, %s", len(fs), fs[0].ID, row.want, row.speaks)
			}
		})
	}
}
