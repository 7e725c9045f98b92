package structure

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
	"dryfit/check/infer"
)

// example is a job with one fault that one check must find, and the same job mended.
type example struct {
	name  string
	check *check.Check
	mark  string
	cause string
	want  check.Verdict
	says  string // words of the sentence
	fails func(*build) *check.Job
	mends func(*build) *check.Job
}

// build makes jobs in one system: sizes are given in inches and pounds.
type build struct{ mm bool }

func (b *build) k() float64 {
	if b.mm {
		return 25.4
	}
	return 1
}

func (b *build) job(parts ...*check.Part) *check.Job {
	for _, p := range parts {
		for _, v := range []*check.Value{&p.Length, &p.Width, &p.Thickness, &p.X, &p.Y} {
			*v = v.Scale(b.k())
		}
		for i := range p.Layers {
			l := &p.Layers[i]
			l.Thickness, l.Width = l.Thickness.Scale(b.k()), l.Width.Scale(b.k())
		}
	}
	if b.mm {
		return metric(parts...)
	}
	return inches(parts...)
}

// load is in lb/ft, or in lb.
func (b *build) load(j *check.Job, on string, per check.LoadPer, amount float64) *check.Job {
	const newton = 4.4482216152605
	k := 1.
	if per == check.PerLength {
		amount /= 12
		k = 1 / 25.4
	}
	if b.mm && per != check.Persons {
		amount *= newton
		if per == check.PerLength {
			amount *= k
		}
	}
	return carrying(j, on, "", per, amount)
}

func (b *build) join(j *check.Job, js ...*check.Joint) *check.Job {
	for _, jt := range js {
		for _, v := range []*check.Value{&jt.Width, &jt.DepthIn, &jt.DepthOf, &jt.Side, &jt.Front} {
			*v = v.Scale(b.k())
		}
		for i := range jt.At {
			jt.At[i] = jt.At[i].Scale(b.k())
		}
		if jt.Screws != nil {
			s := *jt.Screws
			s.Length = s.Length.Scale(b.k())
			jt.Screws = &s
		}
	}
	return joined(j, js...)
}

func depths(jt *check.Joint, in, of float64) *check.Joint {
	if in > 0 {
		jt.DepthIn = check.Exact(in)
	}
	if of > 0 {
		jt.DepthOf = check.Exact(of)
	}
	return jt
}

func screwed(jt *check.Joint, n float64, gauge string, long float64) *check.Joint {
	jt.Screws = &check.Screws{Count: check.Exact(n), Gauge: gauge, Length: check.Exact(long)}
	return jt
}

func fastened(jt *check.Joint, with string) *check.Joint {
	jt.Fastener = check.Text{Text: with}
	return jt
}

// plain is a case of two sides and one shelf.
func (b *build) plain(length, deep, thick float64, material string, lbPerFoot float64) *check.Job {
	j := b.job(in("A", of(part("E1", check.Side, 70, deep, .75, "birch plywood"), 2), part("S1", check.Shelf, length, deep, thick, material))...)
	return b.load(j, "A", check.PerLength, lbPerFoot)
}

func (b *build) notched(thick, side float64) *check.Job {
	j := b.job(in("A", part("S1", check.Shelf, 96, 10, 1.5, "MDF"), part("U1", check.Upright, 86, 10, thick, "birch plywood"), of(part("E1", check.Side, 86, 10, .75, "MDF"), 2))...)
	jt := depths(joint("J1", "U1", "S1", check.NotchedLap), 0, 5)
	jt.Count, jt.Side, jt.Front = check.Exact(9), check.Exact(side), check.Exact(2)
	j.Parts[0].Qty = check.Exact(9)
	return b.load(b.join(j, jt), "A", check.PerLength, 40)
}

func (b *build) dado(deep float64) *check.Job {
	j := b.plain(36, 10, 1, "MDF", 40)
	jt := depths(joint("J1", "E1", "S1", check.Dado), deep, 0)
	jt.Count = check.Exact(2)
	return b.join(j, jt)
}

func (b *build) tongue(off float64) *check.Job {
	j := b.job(in("B", part("T1", check.Seat, 48, 18, 1.5, "MDF"), of(part("E1", check.Side, 18, 18, .75, "MDF"), 2))...)
	jt := depths(joint("J1", "E1", "T1", check.Rabbet), .5, off)
	jt.Count = check.Exact(2)
	return b.load(b.join(j, jt), "B", check.Persons, 2)
}

func (b *build) cleats(n float64, gauge string, long float64) *check.Job {
	j := b.job(in("A", of(part("E1", check.Side, 70, 12, .75, "birch plywood"), 2), part("S1", check.Shelf, 36, 11, 1, "birch plywood"),
		of(part("C1", check.Cleat, 10, 1.5, .75, "yellow poplar"), 2))...)
	return b.load(b.join(j, screwed(joint("J1", "E1", "C1", check.CleatJoint), n, gauge, long)), "A", check.PerLength, 60)
}

func (b *build) butted(jt *check.Joint) *check.Job {
	j := b.job(in("A", of(part("U1", check.Upright, 70, 12, 1, "MDF"), 2), part("S1", check.Shelf, 24, 11, 1, "MDF"))...)
	jt.Count = check.Exact(2)
	return b.join(j, jt)
}

// stacked is an upright on the middle of a long shelf, with a loaded shelf on its head.
func (b *build) stacked(under bool) *check.Job {
	parts := in("A", of(part("E1", check.Side, 70, 12, 1, "MDF"), 2),
		at(part("S1", check.Shelf, 60, 12, 1, "MDF"), 0, 30), at(part("S2", check.Shelf, 60, 12, 1.5, "birch plywood"), 0, 60),
		at(part("U1", check.Upright, 32, 12, 1, "MDF"), 29.5, 31))
	if under {
		post := at(part("U2", check.Upright, 30, 12, 1, "MDF"), 29.5, 0)
		post.Case = parts[0].Case
		parts = append(parts, post)
	}
	j := b.job(parts...)
	jt := depths(joint("J1", "U1", "S2", check.CrossLap), 6, 6)
	jt.Count = check.Exact(1)
	b.join(j, jt)
	if under {
		two := depths(joint("J2", "U2", "S1", check.CrossLap), 6, 6)
		two.Count = check.Exact(1)
		b.join(j, two)
	}
	return b.load(j, "S2", check.PerLength, 80)
}

var examples = []example{
	// by hand: 5*(25/12+.25)*40^4/(384*350000*.42188) = .527, and .002 of shear
	{"a long MDF shelf under a typed load", Sag, "S1", "at once", check.Hold, "sags 17/32 in at once over 40 in; 9/32 in is allowed",
		func(b *build) *check.Job { return b.plain(40, 12, .75, "MDF", 25) }, func(b *build) *check.Job { return b.plain(40, 12, 1.25, "MDF", 25) }},
	{"an upright on the middle of a shelf", Sag, "S1", "at once", check.Hold, "at once over 60 in",
		func(b *build) *check.Job { return b.stacked(false) }, func(b *build) *check.Job { return b.stacked(true) }},
	{"too weak a board", Bending, "S1", "bending", check.Hold, "is overloaded over 60 in",
		func(b *build) *check.Job { return b.plain(60, 10, .75, "particleboard", 60) }, func(b *build) *check.Job { return b.plain(60, 10, 2.5, "particleboard", 60) }},
	{"thin tongues under a person", Shear, "T1", "shear", check.Hold, "at the end, 1/4 in of 1 1/2 in thick",
		func(b *build) *check.Job { return b.tongue(1.25) }, func(b *build) *check.Job { return b.tongue(.25) }},
	{"dados a hair deep", Bearing, "S1", "bearing J1", check.Verify, "bears on 10 in by 1/64 in of E1",
		func(b *build) *check.Job { return b.dado(1. / 64) }, func(b *build) *check.Job { return b.dado(.25) }},
	{"a neck of an eighth", Upright, "U1", "column", check.Hold, "at its neck, 1/8 in by 8 in",
		func(b *build) *check.Job { return b.notched(.75, .3125) }, func(b *build) *check.Job { return b.notched(1.5, .0625) }},
	{"a shelf on glue", Path, "S1", "path", check.Hold, "glue or friction alone at U1",
		func(b *build) *check.Job { return b.butted(fastened(joint("J1", "U1", "S1", check.Butt), "glue")) },
		func(b *build) *check.Job { return b.butted(depths(joint("J1", "U1", "S1", check.Dado), .25, 0)) }},
	{"one small screw a cleat", Cleat, "C1", "screws J1", check.Hold, "one screw No. 6 x 1 1/4 in must carry",
		func(b *build) *check.Job { return b.cleats(1, "#6", 1.25) }, func(b *build) *check.Job { return b.cleats(6, "#10", 1.5) }},
	{"a tall case and no fixing", Anchor, "E1", "tipping", check.Verify, "can tip when pulled; a fixing at the top must take",
		func(b *build) *check.Job { return b.plain(30, 12, 1, "MDF", 10) },
		func(b *build) *check.Job {
			j := b.plain(30, 12, 1, "MDF", 10)
			j.Parts[0].Note = check.Text{Text: "screw through back rail into studs"}
			return j
		}},
	{"a wall of paper on the floor", Floor, "E1", "floor", check.Verify, "a room is designed for 40 lb/ft2",
		func(b *build) *check.Job {
			j := b.plain(30, 12, 1, "MDF", 40)
			j.Parts[1].Qty = check.Exact(6)
			return j
		},
		func(b *build) *check.Job { return b.plain(30, 12, 1, "MDF", 5) }},
}

func find(t testing.TB, c *check.Check, j *check.Job, mark, cause string) *check.Result {
	for _, row := range c.Rows(j) {
		if len(row.Marks) > 0 && row.Marks[0] == mark && row.Cause == cause {
			r := c.Judge(j, row)
			if r.Broken != nil {
				t.Fatalf("%s of %s: %v", c.ID, mark, r.Broken)
			}
			r.Solve()
			return r
		}
	}
	return nil
}

func TestFaultsAndTheirMending(t *testing.T) {
	asked := map[string]bool{}
	for _, e := range examples {
		asked[e.check.ID] = true
		t.Run(e.check.ID+" "+e.name, func(t *testing.T) {
			r := find(t, e.check, e.fails(&build{}), e.mark, e.cause)
			if r == nil {
				t.Fatal("nothing was asked of the fault")
			}
			if says := e.check.Says(r); r.Verdict != e.want || !strings.Contains(says, e.says) {
				t.Errorf("%v: %s; want %v with %q", r.Verdict, says, e.want, e.says)
			}
			if after := find(t, e.check, e.mends(&build{}), e.mark, e.cause); after != nil && after.Verdict > check.NotChecked {
				t.Errorf("mended it is still %v: %s", after.Verdict, e.check.Says(after))
			}
		})
	}
	for _, c := range room {
		if !asked[c.ID] {
			t.Errorf("no fault for %s", c.ID)
		}
	}
}

func TestInchAndMillimetreAgree(t *testing.T) {
	for _, e := range examples {
		for which, of := range map[string]func(*build) *check.Job{"fails": e.fails, "mends": e.mends} {
			a, b := find(t, e.check, of(&build{}), e.mark, e.cause), find(t, e.check, of(&build{mm: true}), e.mark, e.cause)
			if (a == nil) != (b == nil) {
				t.Errorf("%s, %s: asked in one system only", e.name, which)
				continue
			}
			if a == nil {
				continue
			}
			x, y := a.Values[e.check.Value]/a.Values[e.check.Against[0]], b.Values[e.check.Value]/b.Values[e.check.Against[0]]
			same := math.Abs(x-y) <= 1e-9*math.Abs(x) || math.IsInf(x, 0) && math.IsInf(y, 0)
			if a.Verdict != b.Verdict || !same {
				t.Errorf("%s, %s: %v at %v in inches, %v at %v in millimetres", e.name, which, a.Verdict, x, b.Verdict, y)
			}
		}
	}
}

func TestOfferedFixClears(t *testing.T) {
	materials := []string{"MDF", "particleboard", "birch plywood", "red oak", "OSB", "melamine board"}
	rapid.Check(t, func(t *rapid.T) {
		b := &build{mm: rapid.Bool().Draw(t, "mm")}
		j := b.plain(rapid.Float64Range(12, 90).Draw(t, "long"), rapid.Float64Range(6, 20).Draw(t, "deep"),
			rapid.SampledFrom([]float64{.5, .75, 1, 1.5}).Draw(t, "thick"), rapid.SampledFrom(materials).Draw(t, "material"), rapid.Float64Range(1, 90).Draw(t, "load"))
		jt := depths(joint("J1", "E1", "S1", check.Dado), rapid.Float64Range(.01, .3).Draw(t, "dado"), rapid.Float64Range(.05, .45).Draw(t, "off the end"))
		b.join(j, jt)
		for _, c := range room {
			for _, row := range c.Rows(j) {
				r := c.Judge(j, row)
				r.Solve()
				if r.Fix == nil || r.Fix.Measure != "" {
					continue
				}
				v := row.In[r.Fix.Symbol]
				moved := check.Between(r.Fix.To+v.Low-v.Nominal, r.Fix.To, r.Fix.To+v.High-v.Nominal)
				if v.Guessed {
					moved = check.Exact(r.Fix.To)
				}
				row.In[r.Fix.Symbol] = moved
				if again := c.Judge(j, row); again.Verdict != check.Clear {
					t.Fatalf("%s: %s leaves %v", c.ID, r.Fix.Text, again.Verdict)
				}
			}
		}
	})
}

// A cut of nothing is no cut: a neck that only a whole side could save is made thicker.
func TestNoCutOfNothingIsOffered(t *testing.T) {
	r := find(t, Upright, (&build{}).notched(.75, .3125), "U1", "column")
	if r.Fix == nil || r.Fix.Symbol != "t" {
		t.Errorf("a neck of an eighth is offered %+v, want a thickness", r.Fix)
	}
	r = find(t, Shear, (&build{}).tongue(1.4), "T1", "shear")
	if r.Fix != nil && r.Fix.To == 0 {
		t.Errorf("a tongue of a tenth is offered %+v", r.Fix)
	}
}

func TestHowMuchIsUsed(t *testing.T) {
	for use, want := range map[float64]string{.804: "80 % of", 1.02: "just over", 4.519: "4.5 times", 7.02: "7 times", 42.4: "42 times"} {
		if got := howMuch(use); got != want {
			t.Errorf("%v: %q, want %q", use, got, want)
		}
	}
}

// soundJobs are sound and have nothing but a schedule.
func soundJobs() map[string]*check.Job {
	b := &build{}
	grid := b.job(in("Study library", of(part("K1", check.Side, 90, 13, .75, "MDF"), 2), of(part("K2", check.Deck, 80, 13, .75, "MDF"), 2),
		of(part("K3", check.Shelf, 79.75, 12, 1.75, "MDF"), 5), of(part("K4", check.Upright, 88, 12, 1.75, "MDF"), 3))...)
	two := b.job(append(in("North", of(part("N1", check.Side, 82, 14, .75, "birch plywood"), 4), of(part("N2", check.Adjustable, 27, 13, .75, "birch plywood"), 9)),
		in("South", of(part("Z1", check.Side, 82, 14, .75, "birch plywood"), 2), of(part("Z2", check.Shelf, 31, 13, .75, "birch plywood"), 4))...)...)
	bench := b.job(in("Bench", part("W1", check.Seat, 64, 18, 1.5, "hardwood plywood"), part("W2", check.Front, 64, 15, .75, "MDF"),
		of(part("W3", check.Divider, 16, 15, .75, "hardwood plywood"), 3), part("W4", check.Ledger, 62, 1.5, .75, "yellow poplar"))...)
	solid := b.job(in("Hall", of(part("H1", check.Side, 40, 11, .75, "white oak"), 2), of(part("H2", check.Shelf, 30, 10.5, .875, "white oak"), 3))...)
	return map[string]*check.Job{"lapped grid": grid, "two cases": two, "window seat": bench, "low oak case": solid}
}

func TestSoundJobsAreQuiet(t *testing.T) {
	for name, j := range soundJobs() {
		infer.Complete(j)
		rep := reported(j)
		if len(rep.Findings) > 2 || rep.Counts.Hold > 0 {
			t.Errorf("%s: %d lines, 2 at most:\n%s", name, len(rep.Findings), strings.Join(texts(rep), "\n"))
		}
	}
}

func TestAGuessAloneNeverHolds(t *testing.T) {
	b := &build{}
	// nobody said what stands there, nor of what board: 38 in of 3/4 with up to 40 psf
	j := b.job(in("A", of(part("E1", check.Side, 70, 12, .75, "plywood"), 2), of(part("S1", check.Shelf, 40, 12, .75, "plywood"), 3), of(part("S2", check.Shelf, 42, 12, .75, "plywood"), 3))...)
	rep := reported(j)
	lines := 0
	for _, f := range rep.Findings {
		if f.Verdict == check.Hold {
			t.Errorf("a guess stopped a cut: %s", f.Text)
		}
		if f.ID == "structure.sag" {
			lines++
		}
	}
	if lines != 1 {
		t.Errorf("%d lines of sag for one cause:\n%s", lines, strings.Join(texts(rep), "\n"))
	}
}

func TestBelowHalfNothingIsSaid(t *testing.T) {
	b := &build{}
	j := b.plain(18, 12, .75, "MDF", 8)
	for _, c := range []*check.Check{Sag, Bending, Shear} {
		for _, r := range asked(t, c, j) {
			if r.Verdict != check.Clear {
				t.Errorf("%s %s is %v with %s of %s", c.ID, r.Row.Cause, r.Verdict, r.Print(c.Value), r.Print(c.Against[0]))
			}
		}
	}
}

func TestWhatIsMissingIsOneLine(t *testing.T) {
	b := &build{}
	j := b.plain(30, 12, .75, "unobtainium", 10)
	j.Parts[1].Qty = check.Exact(4)
	var lines []string
	for _, s := range texts(reported(j)) {
		if !strings.Contains(s, "structure.anchor") && !strings.Contains(s, "structure.floor") {
			lines = append(lines, s)
		}
	}
	if len(lines) != 1 || !strings.Contains(lines[0], "NOT CHECKED structure.sag") {
		t.Errorf("want one line that asks for the material, got:\n%s", strings.Join(lines, "\n"))
	}
}

func TestWhatAJobDoesNotHaveIsNotAsked(t *testing.T) {
	b := &build{}
	j := b.plain(20, 12, .75, "MDF", 5)
	for _, c := range []*check.Check{Bearing, Upright, Path, Cleat} {
		if rows := c.Rows(j); len(rows) != 0 {
			t.Errorf("%s asks %d rows of a case without joints, uprights or cleats", c.ID, len(rows))
		}
	}
}

// A shelf that breaks also sags: one cause, one line.
func TestBendingStandsUnderSag(t *testing.T) {
	b := &build{}
	n := 0
	for _, s := range texts(reported(b.plain(60, 10, .75, "particleboard", 60))) {
		if strings.Contains(s, "structure.sag") || strings.Contains(s, "structure.bending") || strings.Contains(s, "structure.shear") {
			n++
		}
	}
	if n != 1 {
		t.Errorf("%d lines for one shelf, want 1", n)
	}
}

// By hand: 27 in of 60 lb/ft and of 11 by 3/4 MDF bring 71 lb to an end and 35 to a pin; a pin of 5 mm
// that reaches 3/8 in and touches by three quarters holds .197*.375*.75*1000 = 55 lb. At 110 lb/ft
// 63 lb come. A load of 34 lb/ft is more than half of what it holds, and nothing is said.
func TestShelvesOnPins(t *testing.T) {
	for _, mm := range []bool{false, true} {
		b := &build{mm: mm}
		adjustable := func(lb float64) *check.Job {
			j := b.job(in("A", of(part("E1", check.Side, 70, 12, .75, "birch plywood"), 2), of(part("S1", check.Adjustable, 27, 11, .75, "birch plywood"), 4))...)
			return b.load(j, "A", check.PerLength, lb)
		}
		for _, row := range []struct {
			load float64
			want check.Verdict
			says string
		}{
			{60, check.Clear, ""}, {34, check.Clear, ""}, {110, check.Verify, "each of its pins gets"},
		} {
			r := one(t, Bearing, adjustable(row.load), "S1", "bearing pins")
			if r.Verdict != row.want || !strings.Contains(Bearing.Says(r), row.says) {
				t.Errorf("%v lb/ft, mm %v: %v, %s", row.load, mm, r.Verdict, Bearing.Says(r))
			}
			own := 42. / 1728 * 11 * .75 * 27
			near(t, "share of what a pin holds", r.Values["p"]/r.Values["A"], (row.load/12*27+own)/4/(.197*.375*.75*1000), 1e-6)
		}
	}
	b := &build{}
	j := b.butted(fastened(joint("J1", "U1", "S1", check.Butt), "4 shelf pins"))
	if s := step(t, j, "S1", "U1"); s.Governs != "pins" || math.Abs(s.Capacity-2*.197*.375*.75*1000) > 1e-6 {
		t.Errorf("two pins an end: %+v", s)
	}
}

// By hand: a dado 1/4 deep in a side of 3/4: its load stands 1/2 - 1/6 of the thickness off the
// middle; of four shelves each moves a quarter. Between uprights the standard's figure stays.
func TestASideIsLoadedOnOneFace(t *testing.T) {
	b := &build{}
	j := b.job(in("A", of(part("E1", check.Side, 70, 12, .75, "birch plywood"), 2), of(part("S1", check.Shelf, 36, 11, .75, "birch plywood"), 4))...)
	jt := depths(joint("J1", "E1", "S1", check.Dado), .25, 0)
	jt.Count = check.Exact(8)
	b.load(b.join(j, jt), "A", check.PerLength, 30)
	r := one(t, Upright, j, "E1", "column")
	near(t, "off the middle", r.Values["o"], (.5-1./6)/4, 1e-12)
	near(t, "off the middle at most", r.Row.In["o"].High, .5-1./6, 1e-12)
	near(t, "four ends, and the side", r.Values["N"], 4*(2.5+42./1728*11*.75)*18+42./1728*70*12*.75, 1e-9)
	if o := one(t, Upright, b.notched(1.5, .0625), "U1", "column").Row.In["o"]; o.Nominal != .15 {
		t.Errorf("an upright among shelves: %v off its middle", o.Nominal)
	}
}
