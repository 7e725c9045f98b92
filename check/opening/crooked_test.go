package opening

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
	_ "dryfit/check/steady"
)

// niche is an opening as it was measured, with a tape: widths from the floor up, heights from
// the left.
func niche(widths, heights []float64, leans ...check.Lean) *check.Opening {
	o := &check.Opening{Row: cell("Site", "A1"), Name: check.Text{Text: "NOOK"}, By: check.Text{Text: "K."},
		Settled: []string{"floor"}, Leans: leans, Depths: readings(30, 30)}
	for i, w := range widths {
		o.Widths = append(o.Widths, check.Reading{At: []string{"floor", "middle", "top"}[i], Value: check.Exact(w).At(cell("Site", "B2"))})
	}
	for i, h := range heights {
		o.Heights = append(o.Heights, check.Reading{At: []string{"left", "middle", "right"}[i], Value: check.Exact(h).At(cell("Site", "B3"))})
	}
	return o
}

func bare() *check.Job {
	return &check.Job{Name: "t", Unit: length.Inch, Shop: standard.BuiltIn()}
}

// The level size is the overlap of the sides, never the least width.
func TestLevelSize(t *testing.T) {
	flush := []float64{96, 96}
	for _, c := range []struct {
		name, source string
		place        *check.Opening
		of           direction
		want, off    float64
	}{
		{"both sides lean .75 right", "basis FX26: 93.250; the least width says 94",
			niche([]float64{94, 94, 94}, flush, lean("left", -.75, 96), lean("right", .75, 96)), inWidth, 93.25, 1e-9},
		{"the same from one side alone", "basis FX26", niche([]float64{94, 94, 94}, flush, lean("left", -.75, 96)), inWidth, 93.25, 1e-9},
		{"and from the other", "basis FX26", niche([]float64{94, 94, 94}, flush, lean("right", .75, 96)), inWidth, 93.25, 1e-9},
		{"plumb", "by hand: the least width", niche([]float64{94, 93.75, 94}, flush, lean("left", 0, 96), lean("right", 0, 96)), inWidth, 93.75, 1e-9},
		{"sides apart at the top", "by hand: 94 at the floor is the least", niche([]float64{94, 94.5}, flush, lean("left", .25, 96), lean("right", .25, 96)), inWidth, 94, 1e-9},
		{"a short level carried on", "by hand: 3/8 over 48 is 3/4 in 96", niche([]float64{94, 94}, flush, lean("left", -.375, 48), lean("right", .375, 48)), inWidth, 93.25, 1e-9},
		{"by the diagonals", "basis FX51: left side .3750 right at the top, level width 93.6250",
			crossed(niche([]float64{94, 94.25}, flush), 134.7957, 134.0956, "LB-RT", "RB-LT"), inWidth, 93.625, 1e-3},
		{"floor falls to the right, head level", "by hand: heights 96, 96.5; the level height is 96",
			niche([]float64{94, 94}, []float64{96, 96.5}, lean("floor", .5, 94), lean("head", 0, 94)), inHeight, 96, 1e-9},
		{"floor and head fall alike", "by hand: 96 less the .5 that both fall",
			niche([]float64{94, 94}, []float64{96, 96}, lean("floor", .5, 94), lean("head", .5, 94)), inHeight, 95.5, 1e-9},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, ok := levelOf(bare(), c.place, c.of)
			if !ok || math.Abs(l.nominal-c.want) > c.off {
				t.Errorf("%v %v, want %v (%s)", l.nominal, ok, c.want, c.source)
			}
			if l.low > l.nominal || l.high < l.nominal || l.sure > l.low {
				t.Errorf("range %v %v %v", l.low, l.nominal, l.high)
			}
		})
	}
}

func crossed(o *check.Opening, first, second float64, a, b string) *check.Opening {
	o.Diagonals = []check.Reading{{At: a, Value: check.Exact(first)}, {At: b, Value: check.Exact(second)}}
	return o
}

// Nobody said which diagonal is which: the opening leans one way or the other, and the level
// width is the same for both.
func TestDiagonalsWithoutNamesStillTellTheLevelWidth(t *testing.T) {
	named, _ := levelOf(bare(), crossed(niche([]float64{94, 94}, []float64{96, 96}), 134.7080, 134.0084, "LB-RT", "RB-LT"), inWidth)
	unnamed, ok := levelOf(bare(), crossed(niche([]float64{94, 94}, []float64{96, 96}), 134.7080, 134.0084, "X1", "X2"), inWidth)
	if !ok || !unnamed.guessed {
		t.Fatalf("%+v %v, want a guess", unnamed, ok)
	}
	if math.Abs(named.nominal-93.5) > 1e-3 || math.Abs(named.sure-unnamed.sure) > 1e-9 { // basis FX27: .5 in the height
		t.Errorf("named %v surely %v, unnamed surely %v, want 93.5 and the same sure size", named.nominal, named.sure, unnamed.sure)
	}
}

func TestOneReadingTellsNothingOfTheLevel(t *testing.T) {
	if l, ok := levelOf(bare(), niche([]float64{94}, []float64{96}, lean("left", .25, 96)), inWidth); ok {
		t.Errorf("%+v, want nothing", l)
	}
	if l, ok := levelOf(bare(), niche([]float64{94, 94}, []float64{96, 96}), inWidth); ok {
		t.Errorf("no lean was read: %+v, want nothing", l)
	}
}

// A back wall that leans in by 9 over 2000 takes 10.8 from the depth over a height of 2400, by
// hand; one that leans out takes nothing.
func TestLevelDepth(t *testing.T) {
	o := niche([]float64{94, 94}, []float64{96, 96}, lean("back", -.45, 100))
	o.Depths = readings(24.25, 24.5)
	l, ok := levelDepth(bare(), o)
	if want := 24.25 - .45*.96; !ok || math.Abs(l.nominal-want) > 1e-9 {
		t.Errorf("%v, want %v", l.nominal, want)
	}
	o.Leans[0].Offset = check.Exact(.45)
	if l, _ := levelDepth(bare(), o); l.nominal != 24.25 {
		t.Errorf("leaning out: %v, want 24.25", l.nominal)
	}
}

// basis FX89: plan diagonals 97.3789 and 96.6522 at W 94, D 24 say that a side wall runs 3/8
// off square over the depth; a box then loses 3/8.
func TestCornersCloseTowardsTheBack(t *testing.T) {
	o := niche([]float64{94, 94}, []float64{96, 96}, lean("left corner", -.375, 24), lean("right corner", .375, 24))
	if c := closing(bare(), o, 24); c.Nominal != .375 {
		t.Errorf("closes %v, want .375: the right corner opens and gives nothing back", c.Nominal)
	}
}

// crookedRoom is a true opening: corners, and a belly or hollow in the middle that is of one
// side, of the other, or of both. Sides that bow the same way show in no width; the limits of
// the check say so.
type crookedRoom struct {
	left, right [3]float64 // off plumb at the floor, the middle and the top
	wide, high  float64
}

func drawRoom(t *rapid.T) crookedRoom {
	f := rapid.Float64Range(-1, 1)
	r := crookedRoom{wide: rapid.Float64Range(24, 140).Draw(t, "wide"), high: rapid.Float64Range(60, 108).Draw(t, "high")}
	for i := range 3 {
		r.left[i], r.right[i] = f.Draw(t, "left"), r.wide+f.Draw(t, "right")
	}
	belly, share := f.Draw(t, "belly"), rapid.Float64Range(0, 1).Draw(t, "share")
	r.left[1] = (r.left[0]+r.left[2])/2 + belly*share
	r.right[1] = (r.right[0]+r.right[2])/2 - belly*(1-share)
	return r
}

// level is the true level width: the overlap of the sides.
func (r crookedRoom) level() float64 {
	return min(r.right[0], r.right[1], r.right[2]) - max(r.left[0], r.left[1], r.left[2])
}

// measured reads the room with some error of each reading, and some of the readings.
func (r crookedRoom) measured(t *rapid.T) *check.Opening {
	off := func(most float64, what string) float64 { return rapid.Float64Range(-most, most).Draw(t, what) }
	o := niche(nil, []float64{r.high, r.high})
	for i, at := range []string{"floor", "middle", "top"} {
		if i != 1 || rapid.Bool().Draw(t, "middle read") {
			o.Widths = append(o.Widths, check.Reading{At: at, Value: check.Exact(r.right[i] - r.left[i] + off(.0625, "tape"))})
		}
	}
	o.Leans = []check.Lean{lean("left", r.left[0]-r.left[2]+off(.0625, "plumb"), r.high), lean("right", r.right[2]-r.right[0]+off(.0625, "plumb"), r.high)}
	if n := rapid.IntRange(0, 2).Draw(t, "leans"); n < 2 {
		o.Leans = o.Leans[n : n+1]
	}
	return o
}

// The sure rectangle lies inside the true opening, whatever was read of it: 10,000 of them,
// each wall straight between its readings and each reading off by no more than it may be. Where
// the middle was not read the walls are straight.
func TestSureRectangleLiesInside(t *testing.T) {
	j := bare()
	inside := func(t *rapid.T) {
		r := drawRoom(t)
		o := r.measured(t)
		if len(o.Widths) < 3 {
			r.left[1], r.right[1] = (r.left[0]+r.left[2])/2, (r.right[0]+r.right[2])/2
		}
		l, ok := levelOf(j, o, inWidth)
		if !ok || l.sure > r.level()+1e-9 {
			t.Fatalf("surely %v, truly %v: widths %+v, leans %+v", l.sure, r.level(), o.Widths, o.Leans)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		for range 100 { // of each of the 100 draws of a run
			inside(t)
		}
	})
}

// A room seen in a mirror has the same level width, and turned a quarter its height is a width.
func TestTurnedAndMirroredRoomsAgree(t *testing.T) {
	j := bare()
	rapid.Check(t, func(t *rapid.T) {
		o := drawRoom(t).measured(t)
		m := *o
		m.Leans = nil
		for _, l := range o.Leans {
			l.Of = map[string]string{"left": "right", "right": "left"}[l.Of]
			m.Leans = append(m.Leans, l)
		}
		a, _ := levelOf(j, o, inWidth)
		b, _ := levelOf(j, &m, inWidth)
		if math.Abs(a.nominal-b.nominal) > 1e-9 || math.Abs(a.low-b.low) > 1e-9 || math.Abs(a.sure-b.sure) > 1e-9 || math.Abs(a.high-b.high) > 1e-9 {
			t.Fatalf("%+v, in the mirror %+v", a, b)
		}
		turned := *o
		turned.Widths, turned.Heights, turned.Leans = o.Heights, nil, nil
		turned.Widths = []check.Reading{{At: "floor", Value: o.Heights[0].Value}, {At: "top", Value: o.Heights[0].Value}}
		for i, r := range o.Widths {
			r.At = []string{"left", "middle", "right"}[i]
			if len(o.Widths) == 2 && i == 1 {
				r.At = "right"
			}
			turned.Heights = append(turned.Heights, r)
		}
		for _, l := range o.Leans { // outward of the left side becomes down at the floor
			if l.Of == "right" {
				l.Offset = check.Exact(-l.Offset.Nominal)
			}
			l.Of = map[string]string{"left": "floor", "right": "head"}[l.Of]
			turned.Leans = append(turned.Leans, l)
		}
		if c, ok := levelOf(j, &turned, inHeight); !ok || math.Abs(a.nominal-c.nominal) > 1e-9 {
			t.Fatalf("%v, turned %v", a.nominal, c.nominal)
		}
	})
}

// A reading more never makes the sure rectangle larger than the truth, and one that is left
// out never makes it wrong: a middle reading of a bulge only takes away.
func TestAnotherWidthOnlyTakesAway(t *testing.T) {
	two, _ := levelOf(bare(), niche([]float64{94, 94}, []float64{96, 96}, lean("left", .25, 96)), inWidth)
	o := niche([]float64{94, 93.5, 94}, []float64{96, 96}, lean("left", .25, 96))
	three, _ := levelOf(bare(), o, inWidth)
	if three.low >= two.low {
		t.Errorf("with a belly of 1/2 %v, without %v", three.low, two.low)
	}
}
