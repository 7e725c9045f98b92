package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

const degree = math.Pi / 180

func TestTurned(t *testing.T) {
	const two = "minimum over the angle by two methods"
	for _, row := range []struct {
		name         string
		corner       Corner
		depth        float64
		longest, off float64
		source       string
	}{
		{"ladder, 3 and 4 ft", Corner{3, 4}, 0, 9.87, .005, "question and answer page, two decimals"},
		{"ladder, 8 and 4 ft", Corner{8, 4}, 0, math.Pow(4+math.Pow(4, 2./3), 1.5), 1e-9, "(a^(2/3)+b^(2/3))^1.5"},
		{"board", Corner{36, 36}, .75, 100.32337649086286, 1e-9, "bounded minimum, reference case G01"},
		{"board, unequal halls", Corner{36, 32}, .75, 94.6098, 5e-5, two},
		{"piece", Corner{36, 32}, 11.25, 73.5858, 5e-5, two},
		{"case", Corner{44, 30}, 24, 54.9369107860305, 1e-9, "bounded minimum, reference case G03"},
		{"case in unequal halls", Corner{30, 60}, 24, 73.8564, 5e-5, two},
		{"as deep as the hall", Corner{36, 36}, 36, 72 * (math.Sqrt2 - 1), 1e-6, "by hand: (72-36*sqrt 2)*sqrt 2 at 45 degrees"},
	} {
		t.Run(row.name, func(t *testing.T) {
			longest, angle, err := row.corner.Turned(row.depth)
			if err != nil {
				t.Fatal(err)
			}
			near(t, row.source, longest, row.longest, row.off)
			back, turned, err := Corner{row.corner.To, row.corner.From}.Turned(row.depth)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "the way back", back, longest, 1e-12)
			near(t, "angle of the way back", turned, math.Pi/2-angle, 1e-7)
		})
	}
	_, angle, err := Corner{44, 30}.Turned(24)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "reference case G03", angle/degree, 55.049202, .001)
}

func TestTurnedLive(t *testing.T) {
	for _, row := range []struct {
		corner Corner
		depth  float64
		steps  int
		length float64
	}{
		{Corner{36, 32}, 11.25, 0, 73.5937},
		{Corner{36, 32}, 11.25, 3, 73.5858},
		{Corner{60, 30}, 24, 0, 75.5712},
		{Corner{30, 60}, 24, 3, 73.8712},
	} {
		got, err := row.corner.TurnedLive(row.depth, row.steps)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "fixed point worked apart, four decimals", got, row.length, 5.1e-5)
	}
}

func TestLiveIsNeverShort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Corner{rapid.Float64Range(28, 96).Draw(t, "from"), rapid.Float64Range(28, 96).Draw(t, "to")}
		depth := rapid.Float64Range(0, 24).Draw(t, "depth")
		longest, _, err := c.Turned(depth)
		if err != nil {
			t.Fatal(err)
		}
		live, err := c.TurnedLive(depth, 3)
		if err != nil {
			t.Fatal(err)
		}
		if live < longest-1e-9 || live > longest+.1 {
			t.Fatalf("%+v with %g: live %g, exact %g", c, depth, live, longest)
		}
	})
}

func TestPass(t *testing.T) {
	for _, row := range []struct {
		name          string
		corner        Corner
		length, depth float64
		way           Way
		source        string
	}{
		{"slid", Corner{36, 30}, 24, 14, SlidWay, "by hand: 24 <= 30 and 14 <= 36"},
		{"slid the other way", Corner{36, 30}, 35, 28, SlidWay, "by hand: 35 <= 36 and 28 <= 30"},
		{"turned", Corner{36, 36}, 100.3, .75, TurningWay, "reference case G01"},
		{"too long", Corner{36, 36}, 100.4, .75, NoWay, "reference case G01"},
		{"length and depth swapped", Corner{36, 36}, .75, 100.3, TurningWay, "reference case G01"},
		{"deeper than the hall", Corner{36, 30}, 40, 31, NoWay, "by hand: slid it wants 40 of 36"},
	} {
		t.Run(row.name, func(t *testing.T) {
			way, err := row.corner.Pass(row.length, row.depth)
			if err != nil {
				t.Fatal(err)
			}
			if way != row.way {
				t.Errorf("%s: got way %d, want %d", row.source, way, row.way)
			}
		})
	}
}

// Pass against a search of all angles: at each, the plan is pushed into the outer corner,
// where it is furthest from the inner one.
func TestPassAgainstSearch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Corner{rapid.Float64Range(20, 60).Draw(t, "from"), rapid.Float64Range(20, 60).Draw(t, "to")}
		length := rapid.Float64Range(10, 120).Draw(t, "length")
		depth := rapid.Float64Range(1, 60).Draw(t, "depth")
		way, err := c.Pass(length, depth)
		if err != nil {
			t.Fatal(err)
		}
		const hair = .02
		if way != NoWay && !search(c, length, depth, -hair) {
			t.Fatalf("%+v: %g x %g is said to pass by way %d; the search finds none", c, length, depth, way)
		}
		if way == NoWay && search(c, length, depth, hair) {
			t.Fatalf("%+v: %g x %g is said not to pass; the search finds a way", c, length, depth)
		}
	})
}

// search says whether one stretch of angles, with the halls narrower by tight, joins one at
// which the plan fits across the first hall to one at which it fits along the second.
func search(c Corner, length, depth, tight float64) bool {
	const steps = 4000
	a, b := c.From-tight, c.To-tight
	enters, leaves := false, false
	for i := range 2 * steps { // twice round half a turn, since a stretch may begin in the middle
		v := math.Pi * float64(i) / steps
		sin, cos := math.Abs(math.Sin(v)), math.Abs(math.Cos(v))
		across, along := length*cos+depth*sin, length*sin+depth*cos
		if !clears(v, length, depth, a, b) {
			enters, leaves = false, false
			continue
		}
		enters, leaves = enters || across <= a, leaves || along <= b
		if enters && leaves {
			return true
		}
	}
	return false
}

// clears says whether the rectangle at the angle, pushed into the outer corner at the origin,
// leaves the quadrant beyond (a, b) alone.
func clears(v, length, depth, a, b float64) bool {
	e, f := Point{length * math.Cos(v), length * math.Sin(v)}, Point{-depth * math.Sin(v), depth * math.Cos(v)}
	corners := []Point{{0, 0}, e, {e.X + f.X, e.Y + f.Y}, f}
	low := Point{math.Inf(1), math.Inf(1)}
	for _, p := range corners {
		low = Point{min(low.X, p.X), min(low.Y, p.Y)}
	}
	for i := range corners {
		p, q := corners[i], corners[(i+1)%4]
		from, to := Point{p.X - low.X, p.Y - low.Y}, Point{q.X - low.X, q.Y - low.Y}
		if reaches(from, to, a, b) {
			return false
		}
	}
	return true
}

// reaches says whether a side passes through the quadrant beyond (a, b). The rectangle holds
// no part of it without one of its sides doing so, since it begins at the origin.
func reaches(p, q Point, a, b float64) bool {
	from, to := 0.0, 1.0
	for _, edge := range [2][2]float64{{p.X - a, q.X - a}, {p.Y - b, q.Y - b}} {
		switch u, w := edge[0], edge[1]; {
		case u <= 0 && w <= 0:
			return false
		case u < 0:
			from = max(from, u/(u-w))
		case w < 0:
			to = min(to, u/(u-w))
		}
	}
	return from < to
}

func TestDoor(t *testing.T) {
	slanted, err := Slanted(2.25, 78, 30)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "root of the balance, reference case G09", slanted, 82.11513598207267, 1e-9)
	width, upright, err := WidestPanel(2.25, 30, 78)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "reference case G09", width, 82.11513598207267, 1e-9)
	if upright {
		t.Error("reference case G09: upright is said to be better")
	}
	width, upright, err = WidestPanel(14, 80, 28)
	if err != nil {
		t.Fatal(err)
	}
	if near(t, "by hand: a thick one gains nothing by a slant", width, 80, 0); !upright {
		t.Error("a thick panel is said to pass better on the slant")
	}
	slanted, err = Slanted(2, 10, 10)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand: the diagonal of a square less the thickness", slanted, 10*math.Sqrt2-2, 1e-12)
}

func TestLeastHole(t *testing.T) {
	for _, row := range []struct {
		p, q, a, b, off float64
		source          string
	}{
		{80, 4, 78.5, 23.6805, 5e-5, "theorem worked apart, checked by turning"},
		{80, 12, 78.5, 41.710, 5e-4, "theorem worked apart, checked by turning"},
		{66, 11.25, 54, 55.2341, 5e-5, "lift car 54 wide, theorem worked apart"},
		{60, 11.25, 54, 46.0988, 5e-5, "lift car 54 wide, theorem worked apart"},
		{70, 4, 78.5, 4, 0, "by hand: straight through"},
	} {
		got, err := LeastHole(row.p, row.q, row.a)
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.source, got, row.b, row.off)
	}
}

func TestThrough(t *testing.T) {
	for _, row := range []struct {
		p, q, a, b float64
		goes       bool
		source     string
	}{
		{80, 4, 78.5, 28.5, true, "least hole 23.68"},
		{12, 80, 28.5, 78.5, false, "least hole 41.71, sides either way round"},
		{10, 10, 8, 8, false, "by hand; the theorem without its q <= b says yes"},
		{8, 8, 8, 8, true, "by hand"},
		{9, 9, 10, 8, false, "by hand: the lesser side is too much"},
	} {
		got, err := Through(row.p, row.q, row.a, row.b)
		if err != nil {
			t.Fatal(err)
		}
		if got != row.goes {
			t.Errorf("%g x %g in %g x %g, %s: got %v", row.p, row.q, row.a, row.b, row.source, got)
		}
	}
}

// Through against turning the section by small angles.
func TestThroughAgainstTurning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string) float64 { return rapid.Float64Range(1, 100).Draw(t, name) }
		p, q, a, b := side("p"), side("q"), side("a"), side("b")
		goes, err := Through(p, q, a, b)
		if err != nil {
			t.Fatal(err)
		}
		found, nearly := false, false
		for i := range 20_001 {
			v := math.Pi / 2 * float64(i) / 20_000
			across, up := p*math.Cos(v)+q*math.Sin(v), p*math.Sin(v)+q*math.Cos(v)
			found = found || across <= a && up <= b
			nearly = nearly || across <= a+.01 && up <= b+.01
		}
		if found && !goes || goes && !nearly {
			t.Fatalf("%g x %g in %g x %g: said %v, turned %v", p, q, a, b, goes, found)
		}
	})
}

func TestStandUp(t *testing.T) {
	for _, row := range []struct {
		name         string
		height, deep float64
		cut          Cuts
		needed, tilt float64
		off          float64
		source       string
	}{
		{"plain", 94, 14, Cuts{}, 95.03683496413377, 8.4712, 1e-9, "pair distance, reference case G05"},
		{"base left off", 90, 24, Cuts{}, 93.14504817756014, 14.9314, 1e-9, "pair distance, reference case G07"},
		{"base off the root", 86, 24, Cuts{}, 89.286, 15.593, 5e-4, "by hand: sqrt(86^2+24^2)"},
		{"crown off", 94, 14, Cuts{TopHeight: 4, TopDepth: 2.5}, 94.7008, 6.975, 5e-5, "by hand: sqrt(94^2+11.5^2), checked by turning the outline"},
		{"shallow relief", 94, 14, Cuts{TopHeight: .5, TopDepth: 6}, math.Hypot(93.5, 14), 8.516, 1e-9, "by hand: sqrt(93.5^2+14^2)"},
		{"back notched", 90, 24, Cuts{BottomHeight: 4, BottomDepth: 3}, 92.4175, 13.134, 5e-5, "by hand: sqrt(90^2+21^2)"},
	} {
		t.Run(row.name, func(t *testing.T) {
			outline, err := Case(row.height, row.deep, row.cut)
			if err != nil {
				t.Fatal(err)
			}
			needed, tilt, err := outline.StandUp()
			if err != nil {
				t.Fatal(err)
			}
			near(t, row.source, needed, row.needed, row.off)
			near(t, "angle of the pair", tilt/degree, row.tilt, .001)
		})
	}
}

func TestStandUpOfOddOutlines(t *testing.T) {
	// By hand: no pair that is furthest apart passes the vertical, so an end of the turn decides.
	for _, row := range []struct {
		name         string
		outline      Outline
		needed, tilt float64
	}{
		{"leans back", Outline{{20, 0}, {0, 90}, {20, 10}}, 90, 0},
		{"lies long", Outline{{0, 10}, {90, 0}, {10, 20}}, 90, math.Pi / 2},
	} {
		needed, tilt, err := row.outline.StandUp()
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.name, needed, row.needed, 1e-12)
		near(t, row.name, tilt, row.tilt, 1e-12)
	}
}

func TestSticks(t *testing.T) {
	outline, err := Case(92, 24, Cuts{})
	if err != nil {
		t.Fatal(err)
	}
	from, to, sticks, err := outline.Sticks(94)
	if err != nil || !sticks {
		t.Fatalf("got sticks %v, error %v", sticks, err)
	}
	near(t, "atan(24/92)+acos(94/95.0789)", from/degree, 23.261, 5e-4)
	near(t, "atan(24/92)-acos(94/95.0789)", to/degree, 5.981, 5e-4)
	if _, _, sticks, _ = outline.Sticks(95.08); sticks {
		t.Error("sticks under a ceiling above its diagonal")
	}
	if _, to, sticks, _ = outline.Sticks(91); !sticks || to != 0 {
		t.Errorf("taller than the ceiling: sticks %v down to %g, want down to upright", sticks, to)
	}
}

func TestStandUpAgainstTurning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var outline Outline
		for range rapid.IntRange(3, 8).Draw(t, "corners") {
			outline = append(outline, Point{rapid.Float64Range(0, 30).Draw(t, "x"), rapid.Float64Range(0, 100).Draw(t, "y")})
		}
		needed, _, err := outline.StandUp()
		if err != nil {
			t.Fatal(err)
		}
		most := 0.0
		for i := range 2001 {
			tilt := math.Pi / 2 * float64(i) / 2000
			low, high := math.Inf(1), math.Inf(-1)
			for _, p := range outline {
				up := p.X*math.Sin(tilt) + p.Y*math.Cos(tilt)
				low, high = min(low, up), max(high, up)
			}
			most = max(most, high-low)
		}
		if needed < most-1e-9 || needed > most+1e-4*most {
			t.Fatalf("%v: computed %g, turned %g", outline, needed, most)
		}
	})
}

func TestPlainFigures(t *testing.T) {
	for name, row := range map[string]struct {
		got       float64
		err       error
		want, off float64
	}{
		"tallest under 96 with 24, by hand":         valued(TallestUnder(96, 24)).near(92.9516, 5e-5),
		"shelf swung in plan, by hand":              valued(Swept(91.875, 11.25)).near(92.5612, 5e-5),
		"shelf dropped in by one end, by hand":      valued(Swept(91.875, 2.25)).near(91.9025, 5e-5),
		"stair 80 over 7 3/4 and 10, by hand":       valued(StairHeadroom(80, 7.75, 10)).near(63.2332, 5e-5),
		"rod in a lift car, by hand":                valued(LongRod(42, 54, 84)).near(108.333, 5e-4),
		"1/4 cutter, snug square edge, sampled arc": valued(StandOff(.125, 0, .025)).near(.07051, 5e-6),
		"the same with the edge eased 1/16":         valued(StandOff(.125, .0625, .025)).near(.02500, 5e-6),
		"edge eased as the cutter, seats, by hand":  valued(StandOff(.125, .125, .025)).near(0, 0),
	} {
		if row.err != nil {
			t.Fatalf("%s: %v", name, row.err)
		}
		near(t, name, row.got, row.want, row.off)
	}
	spare, lift, err := Raise(95.375, 95.625, 95.625, .125)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand", spare, .125, 1e-12)
	near(t, "by hand", lift, .25, 1e-12)
}

type value struct {
	got float64
	err error
}

func valued(got float64, err error) value { return value{got, err} }

func (v value) near(want, off float64) (row struct {
	got       float64
	err       error
	want, off float64
}) {
	row.got, row.err, row.want, row.off = v.got, v.err, want, off
	return row
}

func TestCarryOutsideTheRange(t *testing.T) {
	nan := math.NaN()
	for name, err := range map[string]error{
		"no hall":               third(Corner{0, 36}.Turned(1)),
		"deeper than the hall":  third(Corner{36, 30}.Turned(31)),
		"live, deeper":          second(Corner{36, 30}.TurnedLive(31, 3)),
		"live, steps below 0":   second(Corner{36, 30}.TurnedLive(3, -1)),
		"plan of nothing":       second(Corner{36, 30}.Pass(0, 0)),
		"side of nothing":       second(Through(1, 0, 2, 2)),
		"slanted too thick":     second(Slanted(31, 78, 30)),
		"widest too thick":      third(WidestPanel(31, 78, 30)),
		"hole too narrow":       second(LeastHole(80, 50, 40)),
		"cut past the case":     second(Case(90, 24, Cuts{TopDepth: 24})),
		"cut below zero":        second(Case(90, 24, Cuts{BottomHeight: -1})),
		"case of nothing":       second(Case(0, 24, Cuts{})),
		"two corners":           third(Outline{{0, 0}, {1, 1}}.StandUp()),
		"corner no number":      third(Outline{{0, 0}, {1, 1}, {nan, 0}}.StandUp()),
		"deeper than the room":  second(TallestUnder(24, 96)),
		"swept below zero":      second(Swept(-1, 1)),
		"stair without a tread": second(StairHeadroom(80, 7.75, 0)),
		"rod in no box":         second(LongRod(1, 0, 1)),
		"play below zero":       third(Raise(90, 95, 95, -1)),
		"clearance below zero":  second(StandOff(.125, 0, -1)),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func second[T any](_ T, err error) error        { return err }
func third[T, U any](_ T, _ U, err error) error { return err }

func near(t *testing.T, what string, got, want, off float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > off {
		t.Errorf("%s: got %.12g, want %.12g within %.3g", what, got, want, off)
	}
}
