package structure

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/standard"
)

// bare are the inputs of a plain shelf of one bay, without own weight or shear.
func bare(l, b, t, e, q float64) map[string]float64 {
	return map[string]float64{"L": l, "b": b, "t": t, "E": e, "y": 1, "s": 1e-9, "e": 0, "a": 0, "c": 0, "h": 1, "v": 0,
		"K": 5. / 384, "q": q, "g": 0, "p": 1. / 48, "P": 0, "o": 1. / 48, "N": 0, "C": 1, "n": 144, "u": .5}
}

func work(t *testing.T, c *check.Check, in map[string]float64) map[string]float64 {
	t.Helper()
	got, err := c.Work(in)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func near(t *testing.T, what string, got, want, off float64) {
	t.Helper()
	if math.Abs(got-want) > off || math.IsNaN(got) {
		t.Errorf("%s: got %.9g, want %.9g within %.2g", what, got, want, off)
	}
}

// longest is the largest value of an input at which the margin is not below zero.
func longest(t *testing.T, c *check.Check, in map[string]float64, symbol string, most float64) float64 {
	low, high := 0., most
	for range 80 {
		in[symbol] = (low + high) / 2
		got := work(t, c, in)
		if got[c.Steps[len(c.Steps)-1].Symbol] >= 0 {
			low = in[symbol]
		} else {
			high = in[symbol]
		}
	}
	return low
}

// The published table cuts its spans down to whole inches, so it may lie an inch below and,
// where it rounds up, a hair above. Shear as in the check, E over G 16, takes .1 in at most.
func TestSpansOfThePublishedTable(t *testing.T) {
	for _, row := range []struct {
		id             string
		e, thick, load float64
		span           float64
	}{
		{"ST01", 950000, .75, 40, 40}, {"ST02", 950000, .75, 50, 37}, {"ST03", 950000, 1, 40, 53}, {"ST04", 950000, 1, 50, 49},
		{"ST05", 1800000, .75, 40, 49}, {"ST06", 1800000, .75, 50, 46}, {"ST07", 1800000, 1, 40, 66}, {"ST08", 1800000, 1, 50, 61},
		{"ST24", 1820000, .75, 40, 49}, {"ST25", 1820000, .75, 50, 46}, {"ST26", 1820000, 1, 40, 66}, {"ST27", 1820000, 1, 50, 61},
	} {
		in := bare(1, 12, row.thick, row.e, row.load/144*12)
		in["s"] = 16
		near(t, row.id+", AWS 1st ed. 2009 p. 279, span/144", longest(t, Sag, in, "L", 200), row.span, 1)
	}
}

func TestSagSteps(t *testing.T) {
	st23 := bare(36, 11.25, .75, 350000, 25./12)
	si := bare(800, 300, 18, 2500, 25*9.81/800)
	creep := bare(1, 1, 1, 12, 1) // S = 1
	creep["K"], creep["P"], creep["p"], creep["C"] = .1, 1, .04, 1.5
	strip := bare(36, 11, .75, 330000, 1)
	strip["e"], strip["a"], strip["c"] = 1580000, .75, 1.5
	flush := map[string]float64{}
	for k, v := range strip {
		flush[k] = v
	}
	flush["h"] = 0
	thick := bare(10, 10, 1, 1200, 10)
	thick["s"] = 16
	person := bare(48, 12, 1, 1e6, 0)
	person["P"] = 300
	for _, row := range []struct {
		name, symbol string
		in           map[string]float64
		want, off    float64
	}{
		{"ST23: worked, 5wL^4/384EI", "D", st23, .3291, 1e-4},
		{"ST47: European MDF pages, 5WL^3*9.81/32Ebt^3, mm", "D", si, 4.485597, 1e-5},
		{"ST18: NDS 3.5.2, 1.5*.1+.04", "D", creep, .19, 1e-9},
		{"ST40: strip and panel glued", "S", strip, 612125, 6.2},
		{"ST40: strip counted down to the underside", "S", flush, 169277, 1.7},
		{"by hand: 1.2*16*10*100/8/(1200*10) + 5*10*1e4/(384*1200*10/12)", "d", thick, 0, 0},
		{"by hand: 300*48^3/(48*1e6*1)", "D", person, .6912, 1e-6},
		{"by hand: the bound of the person is the plain formula", "B", person, .6912, 1e-6},
	} {
		got := work(t, Sag, row.in)
		if row.symbol == "d" {
			near(t, row.name, got["f"], 1.2*16*10*100/8/12000+5*10*1e4/(384*1000), 1e-9)
			continue
		}
		near(t, row.name, got[row.symbol], row.want, row.off)
	}
}

// Three edges held, one free, even load, Poisson's ratio .3: S. Timoshenko and S.
// Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., Table 40 (from memory): sag at the
// free edge .00710 qa^4/D at b/a 1/2, .01286 at 1, with D = Et^3/10.92. Ours leaves out the
// stiffening of Poisson's ratio and turns the section as one, so it lies above by up to a
// sixth and never below.
func TestBackHeldAgainstThePlate(t *testing.T) {
	for _, row := range []struct{ deep, coefficient float64 }{{.5, .00710}, {1, .01286}} {
		in := bare(100, 100*row.deep, 1, 1e6, 100*row.deep)
		in["v"], in["s"] = 1, 2.6 // isotropic: E/G = 2(1+.3)
		got := work(t, Sag, in)
		plate := row.coefficient * 1e8 * 10.92 / 1e6
		if bent := got["f"] - got["x"]; bent < plate || bent > plate*7/6 {
			t.Errorf("depth %v: sag %v, plate %v", row.deep, bent, plate)
		}
	}
}

func TestSlotsTakenOut(t *testing.T) {
	for _, row := range []struct {
		id                         string
		l, at, slot, b, kept, want float64
	}{
		{"ST34", 40, 20, 2.3125, 11.25, 5.625, 1.134586},
		{"ST35", 36, 9, 1.5625, 12, 6, 1.039093},
		{"ST36", 48, 24, 2.3125, 14, 9, 1.062645},
	} {
		l := layout{supports: []float64{0, row.l}, cuts: []cut{{at: row.at, wide: row.slot, soft: row.slot, kept: row.kept / row.b, depth: row.b - row.kept, width: row.kept}}}
		got, err := l.work(row.l)
		if err != nil {
			t.Fatal(err)
		}
		off := 1e-5
		if row.at != row.l/2 {
			off = 5e-4 // the published ratio is that at midspan; a slot off the middle moves the largest sag
		}
		near(t, row.id+": by quadrature, sag with over without the slot", got.sag/(5./384), row.want, off)
		edge := math.Min(row.at+row.slot/2, row.l/2)
		if row.at == row.l/2 {
			edge = row.at
		}
		near(t, row.id+": moment at the slot, x(L-x)/2 at its inner edge", got.slotMoment*row.l*row.l, edge*(row.l-edge)/2, 1e-9)
	}
}

// Beam tables: ST43, ST44 and section 1 of the handbook formulas for equal spans.
func TestRunsOfBays(t *testing.T) {
	for _, row := range []struct {
		bays                         int
		sag, moment, reaction, atEnd float64
		source                       string
	}{
		{1, .0130208, .125, .5, .5, "plain span"},
		{2, .00915, .125, 1.25, .4375, "ST43, ST15: one loaded for sag and end, both for moment and middle"},
		{3, .009917, .116667, 1.2, .45, "ST44: outer two loaded for sag and end, two adjacent for moment and inner"},
	} {
		got, err := layout{supports: equal(float64(row.bays), row.bays)}.work(float64(row.bays))
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.source+": sag", got.sag, row.sag, 1e-5)
		near(t, row.source+": moment", got.moment, row.moment, 1e-5)
		near(t, row.source+": reaction", got.reaction, row.reaction, 1e-5)
		near(t, row.source+": end reaction", got.atEnd, row.atEnd, 1e-5)
	}
}

func TestLayersOfTwoMaterials(t *testing.T) {
	p := part("S", check.Shelf, 36, 10, 1.5, "make up")
	p.Layers = []check.Layer{
		{Count: check.Exact(1), Thickness: check.Exact(.75), Material: "hardwood plywood"},
		{Count: check.Exact(1), Thickness: check.Exact(.75), Material: "MDF"},
	}
	s := stuffOf(inches(p), p)
	near(t, "ST39: E 1,100,000 over 350,000, bonded", s.build.Nominal*s.E.Nominal*10*3.375/12, 1629916, 17)
	// by hand: neutral axis .556034 from the plywood face, so .943966 above it in MDF and
	// .556034 in plywood; stress E*y/EI; strength 5000 and 3100
	ply, mdf := 1.1e6*.556034/162991.6, .35e6*.943966/162991.6*5000/3100
	near(t, "by hand: worst layer against its strength", s.stress.Nominal*6/(1.5*1.5), math.Max(ply, mdf), 1e-5)
}

func TestBooksOfTheStandardAreCapped(t *testing.T) {
	p := part("S", check.Shelf, 46, 14, .75, "MDF")
	j := carrying(inches(p), "", "books", check.ByKind, 0)
	l := loadOn(j, p)
	near(t, "ST48: 50 psf on 46 x 14 is 223.6 lb, 200 on one shelf", l.standard.Nominal*46, 200, 1e-9)
	near(t, "real load: 25 lb/ft", l.line.Nominal*12, 25, 1e-9)
	p.Length = check.Exact(30)
	near(t, "by hand: 50*14/144 a foot short of the cap", loadOn(j, p).standard.Nominal, 50./144*14, 1e-9)
}

func TestPersons(t *testing.T) {
	seat := part("B", check.Seat, 40, 18, 1.5, "plywood")
	j := inches(seat)
	for _, row := range []struct {
		persons, point, line float64
		why                  string
	}{
		{0, 300, 0, "room for two at 20 in: one may stand in the middle"},
		{2, 300, 0, "two sitting weigh as one who stands"},
		{6, 0, 22.5, "six sitting at 150 lb over 40 in"},
	} {
		l := persons(j, seat, row.persons)
		near(t, row.why, l.point.Nominal, row.point, 1e-9)
		near(t, row.why, l.line.Nominal, row.line, 1e-9)
	}
}

func TestWhatKeepsAStripFromTurning(t *testing.T) {
	shelf := func() *check.Job {
		p := part("S", check.Shelf, 44, 11.75, .75, "MDF")
		p.Layers = []check.Layer{{Strip: true, Count: check.Exact(1), Thickness: check.Exact(.75), Width: check.Exact(2), Material: "poplar"}}
		return carrying(inches(p, part("C", check.Cleat, 42, 1.5, .75, "poplar"), part("E", check.Side, 80, 12, .75, "MDF")), "", "books", check.ByKind, 0)
	}
	screws := &check.Screws{Count: check.Exact(3), Gauge: "#8", Length: check.Exact(2)}
	held := joint("J1", "S", "C", check.CleatJoint)
	held.Screws = screws
	dado := joint("J2", "E", "S", check.Dado)
	for _, row := range []struct {
		name        string
		j           *check.Job
		h, hHigh, v float64
	}{
		{"nothing said", shelf(), 0, 1, 0},
		{"back screwed to a cleat as long", joined(shelf(), held), 1, 1, 1},
		{"a cleat without screws holds nothing", joined(shelf(), joint("J1", "S", "C", check.CleatJoint)), 0, 1, 0},
		{"ends housed", joined(shelf(), dado), 1, 1, 0},
	} {
		r := one(t, Sag, row.j, "S", "at once")
		if got := r.Row.In["h"]; got.Nominal != row.h || got.High != row.hHigh {
			t.Errorf("%s: share that counts %+v, want %v to %v", row.name, got, row.h, row.hHigh)
		}
		if got := r.Row.In["v"].Nominal; got != row.v {
			t.Errorf("%s: back held %v, want %v", row.name, got, row.v)
		}
	}
	// the strip below decides, and the finding says what would hold it
	r := one(t, Sag, shelf(), "S", "at once")
	if r.Verdict != check.Verify {
		t.Fatalf("a strip that may turn is %v, want VERIFY", r.Verdict)
	}
}

// Positions of the uprights along a shelf, in every way in which they are typed.
func TestWhereUprightsStand(t *testing.T) {
	shelf := part("S", check.Shelf, 90, 12, 1.5, "MDF")
	three := func(change func(*check.Joint)) *check.Job {
		jt := joint("J", "S", "U", check.CrossLap)
		jt.Width = check.Exact(2)
		change(jt)
		return joined(inches(shelf, of(part("U", check.Upright, 80, 12, 1.5, "MDF"), 2), of(part("E", check.Side, 80, 12, .75, "MDF"), 2)), jt)
	}
	vs := func(xs ...float64) (out []check.Value) {
		for _, x := range xs {
			out = append(out, check.Exact(x))
		}
		return out
	}
	for _, row := range []struct {
		name string
		j    *check.Job
		want []float64
	}{
		{"centres", three(func(jt *check.Joint) { jt.At, jt.Centres = vs(20, 60), true }), []float64{20, 60}},
		{"left edges", three(func(jt *check.Joint) { jt.At = vs(19, 59) }), []float64{20, 60}},
		{"right edges", three(func(jt *check.Joint) { jt.At, jt.Far = vs(21, 61), true }), []float64{20, 60}},
		{"from the right", three(func(jt *check.Joint) { jt.At, jt.Centres, jt.From = vs(30, 70), true, "right" }), []float64{20, 60}},
		{"clear bays, the last is the balance", three(func(jt *check.Joint) { jt.Bays = append(vs(19, 38), check.Value{}) }), []float64{20, 60}},
		{"the same crossings typed from the upright too", joined(three(func(jt *check.Joint) { jt.At, jt.Centres = vs(20, 60), true }), joint("K", "U", "S", check.CrossLap)), []float64{20, 60}},
		{"nothing typed, two of them", three(func(jt *check.Joint) {}), []float64{30, 60}},
	} {
		got := crossings(row.j, shelf)
		if len(got) != len(row.want) {
			t.Errorf("%s: %d crossings, want %v", row.name, len(got), row.want)
			continue
		}
		var at []float64
		for _, c := range got {
			at = append(at, c.at)
		}
		slices.Sort(at)
		for i, x := range row.want {
			near(t, row.name, at[i], x, 1e-9)
		}
	}
}

func TestUprightsAtTypedPositions(t *testing.T) {
	shelf := at(part("S", check.Shelf, 90, 12, 1.5, "MDF"), .75, 40)
	u1, u2 := at(part("U1", check.Upright, 80, 12, 1.5, "MDF"), 20, 0), at(part("U2", check.Upright, 80, 12, 1.5, "MDF"), 60, 0)
	j := joined(inches(shelf, u1, u2), joint("J", "U1", "S", check.CrossLap), joint("K", "U2", "S", check.CrossLap))
	got := crossings(j, shelf)
	if len(got) != 2 || !got[0].typed {
		t.Fatalf("got %+v, want two typed crossings", got)
	}
	near(t, "by hand: 20+.75-.75", got[0].at, 20, 1e-9)
	near(t, "by hand: 60+.75-.75", got[1].at, 60, 1e-9)
}

// The published table as jobs of a shop that knows its panels: the span it gives passes, one
// two inches longer does not. The table knows no own weight and no shear.
func TestPublishedSpansAsJobs(t *testing.T) {
	sure := func(property, unit string, x float64) standard.Entry {
		return standard.Entry{Group: "material", Item: "softwood plywood", Property: property, Low: x, Nominal: x, High: x, Unit: unit,
			Source: "makers sheet", Known: standard.KnownShop, From: "shop standards"}
	}
	for _, row := range []struct {
		id                string
		e, thick, psf, ok float64
	}{
		{"ST01", 950000, .75, 40, 40}, {"ST02", 950000, .75, 50, 37}, {"ST03", 950000, 1, 40, 53}, {"ST04", 950000, 1, 50, 49},
		{"ST24", 1820000, .75, 40, 49}, {"ST26", 1820000, 1, 40, 66}, {"ST27", 1820000, 1, 50, 61},
	} {
		for over, want := range map[float64]check.Verdict{0: check.Clear, 2: check.Hold} {
			p := part("S", check.Shelf, row.ok+over, 12, row.thick, "softwood plywood")
			j := carrying(inches(p), "S", "", check.PerArea, row.psf/144)
			j.Shop = j.Shop.With([]standard.Entry{sure("E", "psi", row.e), sure("density", "lb/ft3", 1e-6), sure("E over G", "1", 1e-6)})
			if r := one(t, Sag, j, "S", "at once"); r.Verdict != want {
				t.Errorf("%s: %v in is %v, want %v", row.id, row.ok+over, r.Verdict, want)
			}
		}
	}
}

func TestWhatSagAsksFor(t *testing.T) {
	for name, change := range map[string]func(p *check.Part){
		"no thickness":        func(p *check.Part) { p.Thickness = check.Value{} },
		"a thickness of 0":    func(p *check.Part) { p.Thickness = check.Exact(0).At(p.Thickness.From) },
		"no length":           func(p *check.Part) { p.Length = check.Value{} },
		"no width":            func(p *check.Part) { p.Width = check.Value{} },
		"an unknown material": func(p *check.Part) { p.Material.Text = "unobtainium" },
	} {
		p := part("S", check.Shelf, 36, 12, .75, "MDF")
		j := inches(p)
		change(p)
		r := one(t, Sag, j, "S", "at once")
		if r.Verdict != check.NotChecked || r.Row.In[r.Decides].Ask.Cell == (check.Cell{}) || r.Row.In[r.Decides].Ask.What == "" {
			t.Errorf("%s: %v, asks %+v; want NOT CHECKED and the cell to fill", name, r.Verdict, r.Row.In[r.Decides].Ask)
		}
	}
	if rows := Sag.Rows(inches(part("D", check.Door, 36, 12, .75, "MDF"))); len(rows) != 0 {
		t.Errorf("a door is asked %d times whether it sags", len(rows))
	}
}

// books is the shelf of the page: between two sides, full of books.
func books(length, thick float64) *check.Job {
	b := &build{}
	j := b.job(in("A", of(part("E1", check.Side, 70, 12, .75, "birch plywood"), 2), part("S1", check.Shelf, length, 12, thick, "MDF"))...)
	return carrying(j, "A", "books", check.ByKind, 0)
}

// loudest is the loudest verdict on a shelf of the three checks that a thickness mends.
func loudest(t *testing.T, j *check.Job) check.Verdict {
	t.Helper()
	most := check.Clear
	for _, c := range []*check.Check{Sag, Bending, Shear} {
		for _, r := range asked(t, c, j) {
			most = max(most, r.Verdict)
		}
	}
	return most
}

// The example of the page is the case in hand: what is offered at once also holds for years,
// and so do the sizes that the page gives.
func TestTheFixOfASagHoldsForYears(t *testing.T) {
	r := one(t, Sag, books(40, .75), "S1", "at once")
	if r.Verdict != check.Hold || r.Fix == nil || r.Fix.Symbol != "t" || r.Fix.Leaves != "" {
		t.Fatalf("%v, %+v; want HOLD and a thickness", r.Verdict, r.Fix)
	}
	if v := loudest(t, books(40, r.Fix.To)); v != check.Clear {
		t.Errorf("%s leaves %v", r.Fix.Text, v)
	}
	if v := loudest(t, books(40, r.Fix.To-.25)); v == check.Clear {
		t.Errorf("a quarter less than %s would do", r.Fix.Text)
	}
	if v := one(t, Sag, books(40, 1.25), "S1", "at once").Verdict; !strings.Contains(r.Fix.Text, "; at 1 1/4 in still open: sag after years") || v != check.Clear {
		t.Errorf("%q; 1 1/4 leaves %v", r.Fix.Text, v)
	}
	if v := loudest(t, books(32, 2.25)); v != check.Clear {
		t.Errorf("the page says that it is mended: %v", v)
	}
}
