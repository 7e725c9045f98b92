package shape

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// room is an opening with level floor and head.
func room(t testing.TB, heights, lefts, widths []float64) Opening {
	t.Helper()
	left, right, err := Sides(heights, lefts, widths)
	if err != nil {
		t.Fatal(err)
	}
	top := heights[len(heights)-1]
	return Opening{left, right, Profile{{0, 0}, {100, 0}}, Profile{{0, top}, {100, top}}}
}

func TestLevel(t *testing.T) {
	for _, row := range []struct {
		name          string
		lefts, widths []float64
		width         float64
		gapsLeft      []float64
		source        string
	}{
		{"bows in on the left", []float64{0, .375, 0}, []float64{94, 93.75, 94}, 93.625, []float64{.375, 0, .375}, "by hand; reference case O03: the least width 93.75 is unsafe"},
		{"both sides lean right", []float64{0, .375, .75}, []float64{94, 94, 94}, 93.25, []float64{.75, .375, 0}, "by hand: MIN(94, 94.75)-.75"},
		{"left side leans", []float64{0, .25, .5}, []float64{94, 93.75, 93.5}, 93.5, []float64{.5, .25, 0}, "by hand"},
	} {
		t.Run(row.name, func(t *testing.T) {
			o := room(t, []float64{0, 48, 96}, row.lefts, row.widths)
			r, err := o.Level(Doubt{})
			if err != nil {
				t.Fatal(err)
			}
			near(t, row.source, r.Width(), row.width, 1e-12)
			near(t, row.source, r.Height(), 96, 1e-12)
			for i, g := range o.Gaps(r).Left {
				near(t, row.source, g, row.gapsLeft[i], 1e-12)
			}
		})
	}
}

func TestLevelHeight(t *testing.T) {
	// By hand: up 60, 59.75, 60.25 and down 36, 36.25, 35.875 from one level line leave
	// 59.75+35.875; the least height at one place, 96, is unsafe.
	o := room(t, []float64{-40, 60}, []float64{0, 0}, []float64{90, 90})
	o.Head = Profile{{0, 60}, {45, 59.75}, {90, 60.25}}
	o.Floor = Profile{{0, -36}, {45, -36.25}, {90, -35.875}}
	r, err := o.Level(Doubt{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand", r.Height(), 95.625, 1e-12)
	g := o.Gaps(r)
	near(t, "by hand", slices.Max(g.Floor), .375, 1e-12)
	near(t, "by hand", slices.Max(g.Head), .5, 1e-12)
}

func TestGapsOfACaseWithPlay(t *testing.T) {
	// By hand: a case 1/16 clear of the furthest reading of a wall that leans 1/2.
	o := room(t, []float64{0, 48, 96}, []float64{0, .25, .5}, []float64{94, 94, 94})
	g := o.Gaps(Rect{.5625, 93, 0, 96})
	for i, want := range []float64{.5625, .3125, .0625} {
		near(t, "by hand", g.Left[i], want, 1e-12)
	}
	for i, want := range []float64{1, 1.25, 1.5} {
		near(t, "by hand", g.Right[i], want, 1e-12)
	}
}

func TestBoxWithDepth(t *testing.T) {
	heights := []float64{0, 48, 96}
	front, err := room(t, heights, []float64{0, .125, .25}, []float64{94, 94.125, 94}).Level(Doubt{})
	if err != nil {
		t.Fatal(err)
	}
	back, err := room(t, heights, []float64{.375, .25, .125}, []float64{93.75, 93.75, 94}).Level(Doubt{})
	if err != nil {
		t.Fatal(err)
	}
	box, err := Common(front, back)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand: MIN(x+w) 94 less MAX(x) .375; the least width says 93.75", box.Width(), 93.625, 1e-12)
	low, err := Common(Rect{0, 60, 0, 95}, Rect{-1, 59, .5, 96})
	if err != nil {
		t.Fatal(err)
	}
	if want := (Rect{0, 59, .5, 95}); low != want {
		t.Errorf("by hand: got %+v, want %+v", low, want)
	}
}

func TestBowCountsWhereItIs(t *testing.T) {
	// By hand: a bow of 1/2 in 100 stands off .5*4*.25*.75 at a quarter of its length.
	wall := Profile{{0, 0}, {100, 0}}
	d := Doubt{Bow: Bow{.5, 100}}
	near(t, "by hand, up to a quarter", wall.most(0, 25, d), .375, 1e-12)
	near(t, "by hand, over the middle", wall.most(0, 60, d), .5, 1e-12)
	near(t, "by hand, from the other side", wall.least(75, 100, d), -.375, 1e-12)
	near(t, "by hand, beyond the last reading", wall.most(100, 110, d), .5*4*1.1*.1, 1e-12)
	near(t, "by hand, an error of the reading beyond it", wall.most(100, 110, Doubt{Reading: .1}), .12, 1e-12)
}

func TestDoubtMovesTheSidesIn(t *testing.T) {
	o := room(t, []float64{0, 48, 96}, []float64{0, 0, 0}, []float64{94, 94, 94})
	r, err := o.Level(Doubt{Reading: 1. / 16, Bow: Bow{.5, 96}})
	if err != nil {
		t.Fatal(err)
	}
	// By hand: a bow of 1/2 in 96 hides 1/8 in a gap of 48, on either side, and a reading 1/16.
	near(t, "by hand", r.Width(), 94-2*(.125+.0625), 1e-12)
	more := room(t, []float64{0, 24, 48, 72, 96}, make([]float64, 5), []float64{94, 94, 94, 94, 94})
	r, err = more.Level(Doubt{Bow: Bow{.5, 96}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand: a quarter of it in half the gap", r.Width(), 94-2*.03125, 1e-12)
}

func TestLeanFromDiagonals(t *testing.T) {
	for _, row := range []struct {
		upRight, upLeft, bottom, top, lean, off float64
		source                                  string
	}{
		{134.7080, 134.0084, 94, 94, .5, 1e-4, "parallelogram"},
		{134.7957, 134.0956, 94, 94.25, .375, 1e-3, "two right triangles: hypot(94.625,96), hypot(93.625,96)"},
		{97.3789, 96.6522, 94, 94, .375, 2e-3, "in plan, 24 deep"},
	} {
		got, err := LeanFromDiagonals(row.upRight, row.upLeft, row.bottom, row.top)
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.source, got, row.lean, row.off)
	}
}

func TestTurnedGainsWhereBothSidesLean(t *testing.T) {
	// By hand: sides that lean alike by 3/4 in 96 admit a case that leans with them, 94 wide
	// less the cosine of its lean; plumb it is 93.25 at full height.
	o := room(t, []float64{0, 48, 97}, []float64{0, .375, .75 * 97 / 96}, []float64{94, 94, 94})
	width, lean, err := o.Turned(96, .02)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand", lean, .75/96, 1e-4)
	near(t, "by hand", width, 94*math.Cos(math.Atan(.75/96)), 5e-3)
	width, lean, err = o.Turned(96, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand: no lean", width, 93.25, 1e-9)
	near(t, "by hand: no lean", lean, 0, 0)
	// A case as high as the room cannot lean at all.
	width, lean, err = o.Turned(97, .02)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand: full height", width, 94-.75*97/96, 1e-9)
	near(t, "by hand: full height", lean, 0, 0)
}

// crooked draws an opening whose four faces are read at two to five places.
func crooked(t *rapid.T) Opening {
	face := func(name string, from, to, off float64) Profile {
		n := rapid.IntRange(2, 5).Draw(t, name+" readings")
		p := make(Profile, n)
		for i := range p {
			along := from + (to-from)*float64(i)/float64(n-1)
			p[i] = Reading{along, off + rapid.Float64Range(-1.5, 1.5).Draw(t, name)}
		}
		return p
	}
	return Opening{
		Left:  face("left", -3, 99, 0),
		Right: face("right", -3, 99, 60),
		Floor: face("floor", -2, 62, 0),
		Head:  face("head", -2, 62, 96),
	}
}

// straight is where a profile stands, straight from reading to reading.
func straight(p Profile, along float64) float64 {
	for i := range len(p) - 1 {
		if a, b := p[i], p[i+1]; along <= b.Along || i == len(p)-2 {
			return a.Off + (b.Off-a.Off)*(along-a.Along)/(b.Along-a.Along)
		}
	}
	return math.NaN()
}

// outside is how far a rectangle reaches out of the opening, at many places of its edges.
func outside(o Opening, r Rect) float64 {
	const n = 200
	most := math.Inf(-1)
	for i := range n + 1 {
		y := r.Bottom + r.Height()*float64(i)/n
		x := r.Left + r.Width()*float64(i)/n
		most = max(most, straight(o.Left, y)-r.Left, r.Right-straight(o.Right, y))
		most = max(most, straight(o.Floor, x)-r.Bottom, r.Top-straight(o.Head, x))
	}
	return most
}

func TestLevelIsInside(t *testing.T) {
	for range 100 { // 100 checks each: 10,000 openings
		rapid.Check(t, func(t *rapid.T) {
			o := crooked(t)
			r, err := o.Level(Doubt{})
			if err != nil {
				t.Fatal(err)
			}
			if out := outside(o, r); out > 1e-9 {
				t.Fatalf("%+v reaches %g out of %+v", r, out, o)
			}
			// Both sides touch: a wider one would reach out.
			touch := math.Inf(1)
			for _, p := range o.Left {
				if p.Along >= r.Bottom && p.Along <= r.Top {
					touch = min(touch, r.Left-p.Off)
				}
			}
			touch = min(touch, r.Left-straight(o.Left, r.Bottom), r.Left-straight(o.Left, r.Top))
			if touch > 1e-9 {
				t.Fatalf("%+v stays %g off the left side of %+v", r, touch, o)
			}
		})
	}
}

func TestMirroredRoomsAgree(t *testing.T) {
	mirror := func(p Profile, along bool) Profile {
		m := make(Profile, len(p))
		for i, r := range p {
			if along {
				m[len(p)-1-i] = Reading{-r.Along, r.Off}
			} else {
				m[i] = Reading{r.Along, -r.Off}
			}
		}
		return m
	}
	rapid.Check(t, func(t *rapid.T) {
		o := crooked(t)
		m := Opening{mirror(o.Right, false), mirror(o.Left, false), mirror(o.Floor, true), mirror(o.Head, true)}
		d := Doubt{Reading: .0625, Bow: Bow{.25, 96}}
		one, err := o.Level(d)
		if err != nil {
			t.Fatal(err)
		}
		other, err := m.Level(d)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(one.Width()-other.Width()) > 1e-9 || math.Abs(one.Height()-other.Height()) > 1e-9 {
			t.Fatalf("%+v and mirrored %+v", one, other)
		}
		width, lean, err := o.Turned(90, .01)
		if err != nil {
			t.Fatal(err)
		}
		mirrored, back, err := m.Turned(90, .01)
		if err != nil {
			t.Fatal(err)
		}
		// Two leans may be as good as each other; the width must agree within its tolerance.
		if math.Abs(width-mirrored) > 5e-3 {
			t.Fatalf("turned %g at %g, mirrored %g at %g", width, lean, mirrored, back)
		}
	})
}

func TestOpeningInInchesAndMillimetresAgrees(t *testing.T) {
	scaled := func(p Profile) Profile {
		m := make(Profile, len(p))
		for i, r := range p {
			m[i] = Reading{r.Along * 25.4, r.Off * 25.4}
		}
		return m
	}
	rapid.Check(t, func(t *rapid.T) {
		o := crooked(t)
		m := Opening{scaled(o.Left), scaled(o.Right), scaled(o.Floor), scaled(o.Head)}
		inch, err := o.Level(Doubt{.0625, Bow{.25, 96}})
		if err != nil {
			t.Fatal(err)
		}
		mm, err := m.Level(Doubt{.0625 * 25.4, Bow{.25 * 25.4, 96 * 25.4}})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(inch.Width()*25.4-mm.Width()) > 1e-7 || math.Abs(inch.Height()*25.4-mm.Height()) > 1e-7 {
			t.Fatalf("%+v in inches, %+v in millimetres", inch, mm)
		}
	})
}

// wavy is a wall with a known sharpest bend.
type wavy struct{ off, lean, swell, pace, phase float64 }

func (w wavy) at(along float64) float64 {
	return w.off + w.lean*along + w.swell*math.Sin(w.pace*along+w.phase)
}

func drawWavy(t *rapid.T, name string, off float64) wavy {
	return wavy{
		off:   off,
		lean:  rapid.Float64Range(-.01, .01).Draw(t, name+" lean"),
		swell: rapid.Float64Range(-.3, .3).Draw(t, name+" swell"),
		pace:  rapid.Float64Range(.02, .1).Draw(t, name+" pace"),
		phase: rapid.Float64Range(0, 6).Draw(t, name+" phase"),
	}
}

// read reads the wall at the places, each reading a little off.
func (w wavy) read(t *rapid.T, name string, places []float64) Profile {
	p := make(Profile, len(places))
	for i, y := range places {
		p[i] = Reading{y, w.at(y) + rapid.Float64Range(-.0625, .0625).Draw(t, name+" error")}
	}
	return p
}

// However few the readings and whichever are added, the sure rectangle goes into the true
// opening, and so is never wider than what the opening admits.
func TestSureRectangleGoesIntoTheTruth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		left, right := drawWavy(t, "left", 0), drawWavy(t, "right", 60)
		places := []float64{12, 80} // the wall runs on beyond both
		bend := max(math.Abs(left.swell)*left.pace*left.pace, math.Abs(right.swell)*right.pace*right.pace)
		d := Doubt{Reading: .0625, Bow: Bow{Rise: bend * 96 * 96 / 8, Over: 96}}
		o := Opening{
			Left: left.read(t, "left", places), Right: right.read(t, "right", places),
			Floor: Profile{{0, 0}, {60, 0}}, Head: Profile{{0, 96}, {60, 96}},
		}
		for range 5 {
			r, err := o.Level(d)
			if err != nil {
				t.Skip("the doubt leaves nothing")
			}
			inner, outer := math.Inf(1), math.Inf(-1)
			for i := range 1001 {
				y := r.Bottom + r.Height()*float64(i)/1000
				outer, inner = max(outer, left.at(y)), min(inner, right.at(y))
			}
			if r.Left < outer-1e-9 || r.Right > inner+1e-9 || r.Width() > inner-outer+1e-9 {
				t.Fatalf("%+v does not go between %g and %g with readings %v and %v", r, outer, inner, o.Left, o.Right)
			}
			more := rapid.Float64Range(.1, 95.9).Draw(t, "one more place")
			if slices.Contains(places, more) {
				continue
			}
			places = append(places, more)
			o.Left = insert(o.Left, left.read(t, "left", []float64{more})[0])
			o.Right = insert(o.Right, right.read(t, "right", []float64{more})[0])
		}
	})
}

func insert(p Profile, r Reading) Profile {
	more := append(slices.Clone(p), r)
	slices.SortFunc(more, func(a, b Reading) int {
		if a.Along < b.Along {
			return -1
		}
		return 1
	})
	return more
}

// A leaning case must stand inside, at every place of its sides.
func TestTurnedStandsInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := crooked(t)
		level, err := o.Level(Doubt{})
		if err != nil {
			t.Fatal(err)
		}
		const height = 88
		width, lean, err := o.Turned(height, .02)
		if err != nil {
			t.Fatal(err)
		}
		plumb, _, err := o.Turned(height, 0)
		if err != nil {
			t.Fatal(err)
		}
		if width < plumb || plumb < level.Width()-1e-9 {
			t.Fatalf("leaning %g, plumb %g, plumb and of full height %g", width, plumb, level.Width())
		}
		if room := freeRoom(o, level, height, width, lean); room < -1e-7 {
			t.Fatalf("%g wide at %g overlaps by %g in %+v", width, lean, -room, o)
		}
		// No lean tried at random does better.
		other := rapid.Float64Range(-.02, .02).Draw(t, "other lean")
		if room := freeRoom(o, level, height, width+5e-3, other); room > 0 {
			t.Fatalf("%g wide goes in at %g with %g to spare; found only %g", width+5e-3, other, room, width)
		}
	})
}

// freeRoom is how much a leaning case could move sideways in the opening, below zero where it
// overlaps; its highest corner must stay under the head.
func freeRoom(o Opening, level Rect, height, width, lean float64) float64 {
	sin, cos := math.Sincos(math.Atan(-lean)) // turned to the left above zero
	// Corners from the left foot, moved up so that the lowest stands on the floor.
	up := level.Bottom + max(0, -width*sin)
	if top := up + max(0, width*sin) + height*cos; top > level.Top+1e-9 {
		return math.Inf(-1)
	}
	places := []float64{0, height} // along the sides of the case: both ends and level with each reading
	for _, r := range o.Left {
		places = append(places, (r.Along-up)/cos)
	}
	for _, r := range o.Right {
		places = append(places, (r.Along-up-width*sin)/cos)
	}
	toLeft, toRight := math.Inf(1), math.Inf(1)
	for _, s := range places {
		if s < 0 || s > height {
			continue
		}
		x, y := -s*sin, up+s*cos
		toLeft = min(toLeft, x-straight(o.Left, y))
		toRight = min(toRight, straight(o.Right, y+width*sin)-(x+width*cos))
	}
	return toLeft + toRight
}

func TestOpeningOutsideTheRange(t *testing.T) {
	good := func() Opening {
		return room(t, []float64{0, 96}, []float64{0, 0}, []float64{60, 60})
	}
	with := func(change func(*Opening)) error {
		o := good()
		change(&o)
		return second(o.Level(Doubt{}))
	}
	for name, err := range map[string]error{
		"one reading":         with(func(o *Opening) { o.Left = o.Left[:1] }),
		"out of order":        with(func(o *Opening) { o.Right = Profile{{96, 60}, {0, 60}} }),
		"read twice":          with(func(o *Opening) { o.Right = Profile{{0, 60}, {0, 61}} }),
		"no number":           with(func(o *Opening) { o.Floor = Profile{{0, math.NaN()}, {60, 0}} }),
		"no height":           with(func(o *Opening) { o.Head = Profile{{0, -1}, {60, 96}} }),
		"no width":            with(func(o *Opening) { o.Left = Profile{{0, 61}, {96, 0}} }),
		"doubt below zero":    second(good().Level(Doubt{Reading: -1})),
		"bow over no length":  second(good().Level(Doubt{Bow: Bow{Rise: 1}})),
		"nothing to join":     second(Common()),
		"nothing in common":   second(Common(Rect{0, 1, 0, 1}, Rect{2, 3, 0, 1})),
		"widths missing":      third(Sides([]float64{0, 96}, []float64{0, 0}, []float64{60})),
		"diagonal of nothing": second(LeanFromDiagonals(0, 1, 1, 1)),
		"case too high":       third(good().Turned(97, .01)),
		"lean too far":        third(good().Turned(90, .3)),
		"side of a pyramid":   third(Opening{Profile{{0, -50}, {40, 0}, {96, 0}}, Profile{{0, 60}, {96, 60}}, Profile{{0, 0}, {60, 0}}, Profile{{0, 96}, {60, 96}}}.Turned(90, .01)),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func BenchmarkTurned(b *testing.B) {
	o := room(b, []float64{0, 48, 97}, []float64{0, .375, .75}, []float64{94, 94, 94.25})
	for b.Loop() {
		if _, _, err := o.Turned(96, .02); err != nil {
			b.Fatal(err)
		}
	}
}
