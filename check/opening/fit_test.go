package opening

import (
	"math"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/lift"
	"dryfit/check/shape"
)

// By hand: a liner 58 + 2 x 3/4 = 59 1/2 outside, 58 inside, .008 of film on its ends. 1/8 a
// side is the least to shim; what is missing of it is lean, and the shelf must play for it.
func TestLiner(t *testing.T) {
	liner := func(shelf float64) *check.Job {
		j := job(piece{"L1", check.Side, 2, 80, 12, .75, "liner"}, piece{"L2", check.Head, 2, 58, 12, .75, "btwn sides"},
			piece{"L3", check.Shelf, 3, shelf, 11, .75, ""})
		return j
	}
	run(t, Liner, []trial{
		{"room to shim", "60.25 - 59.508 = .742, 1/4 wanted and 1/16 of tape", in(niche([]float64{60.25, 60.25}, []float64{81, 81}), liner(57.875)), check.Clear},
		{"too tight to shim, shelves play enough", "59.75 - 59.508 = .242: .07 of lean at the worst, 1/2 of play",
			in(niche([]float64{59.75, 59.75}, []float64{81, 81}), liner(57.5)), check.Clear},
		{"too tight to shim, shelves bind", "59.5625 - 59.508 = .054: .196 of lean, 1/16 of play", in(niche([]float64{59.5625, 59.5625}, []float64{81, 81}), liner(57.9375)), check.Hold},
		{"does not go in", "59.25 < 59.508", in(niche([]float64{59.25, 59.25}, []float64{81, 81}), liner(57.5)), check.Hold},
		{"a leaning opening", "60 - .375 = 59.625 level, .117 to shim: .13 of lean, 1/8 of play less film", in(niche([]float64{60, 60}, []float64{81, 81}, lean("left", -.375, 81)), liner(57.875)), check.Hold},
		{"nobody measured", "no site tab", liner(57.5), check.NotChecked},
		{"no liner", "sides that are no liner", in(niche([]float64{60, 60}, []float64{81, 81}), job(piece{"S", check.Side, 2, 80, 12, .75, ""}, piece{"D", check.Deck, 2, 58, 12, .75, "btwn"})), asleep},
	})
}

// ceilinged puts a measured ceiling over the nook, and says how the case goes up.
func ceilinged(ceiling float64, note string, j *check.Job) *check.Job {
	o := niche([]float64{60, 60}, []float64{100, 100})
	if ceiling > 0 {
		o.Ceiling = check.Exact(ceiling).At(cell("Site", "B7"))
	}
	if note != "" {
		j.Carry = &check.Carry{Note: check.Text{Text: note}}
	}
	return in(o, j)
}

// The diagonals are those of basis FX30, FX31 and FX85. Play of 1/4 is the least, 1 the most.
func TestStand(t *testing.T) {
	tall := func(h, d float64, base ...piece) *check.Job {
		return job(append([]piece{{"S1", check.Side, 2, h, d, .75, ""}, {"S2", check.Deck, 2, 40, d, .75, "between sides"}}, base...)...)
	}
	under := piece{"S3", check.Base, 1, 40, 4, .75, "ladder base, loose"}
	const said = "assembled lying, stood up"
	run(t, Stand, []trial{
		{"goes up", "FX30: 92.9516 is the tallest for 24 deep under 96; 91.5 takes 94.595 and 1 of play", ceilinged(96, said, tall(91.5, 24)), check.Clear},
		{"sticks", "FX85: 92 x 24 takes 95.0789 under 94", ceilinged(94, said, tall(92, 24)), check.Hold},
		{"within the play", "95.0789 and .75 under 95.85", ceilinged(95.85, said, tall(92, 24)), check.Verify},
		{"with its base", "FX31: 90 on its base x 24 takes 93.145 under 92", ceilinged(92, said, tall(86, 24, under)), check.Hold},
		{"nobody said how it goes up", "as the second, but VERIFY at most", ceilinged(94, "", tall(92, 24)), check.Verify},
		{"put together in the opening", "nothing is stood up", ceilinged(94, "put together in the opening", tall(92, 24)), asleep},
		{"low enough for any room", "60 x 24 takes 64.6", ceilinged(0, said, tall(60, 24)), check.Clear},
		{"nobody measured the ceiling", "no lower than the 100 of the opening; 99 x 24 takes 101.9", ceilinged(0, said, tall(99, 24)), check.Verify},
		{"no site measure", "92 x 24 takes 95.1, a low room has 90", tall(92, 24), check.NotChecked},
		{"no box", "sides without a bottom", ceilinged(94, said, job(piece{"S1", check.Side, 2, 92, 24, .75, ""})), asleep},
	})
	f := check.Examine([]*check.Check{Stand}, ceilinged(92, said, tall(86, 24, under)), nil).Findings[0]
	if !strings.HasPrefix(f.Fix, "leave the base of 4 in off") { // FX31: 86 by itself takes 89.286
		t.Errorf("offers %q, want the base left off", f.Fix)
	}
	f = check.Examine([]*check.Check{Stand}, ceilinged(94, said, tall(92, 24)), nil).Findings[0]
	if !strings.Contains(f.Text, "95 5/64 in") || !strings.Contains(f.Text, "23 degrees") {
		t.Errorf("says %q, want 95.0789 and 23.261 degrees (FX85)", f.Text)
	}
}

// basis FX91: least height 95.625, case 95.375, play .125: spare .125, lift 0 to .25.
func TestSlide(t *testing.T) {
	on := func(side, base float64) *check.Job {
		return job(piece{"S1", check.Side, 2, side, 24, .75, ""}, piece{"S2", check.Deck, 2, 40, 24, .75, "between"}, piece{"S3", check.Base, 1, 40, base, .75, "ladder base, loose"})
	}
	exact := func(h ...float64) *check.Opening {
		o := niche([]float64{60, 60}, h)
		o.Within = check.Exact(1. / 64)
		return o
	}
	run(t, Slide, []trial{
		{"goes in and up", "84.5 - 80 = 4.5, lift of 4 1/8", in(exact(84.5, 84.5), on(80, 4)), check.Clear},
		{"too little to slip the base under", "84 1/32 - 80 = 4.031, lift of 4 1/16 at least", in(exact(84.03125, 84.03125), on(80, 4)), check.Hold},
		{"less play than wished", "84.1 - 80 = 4.1: over 4 1/16, under 4 1/8", in(exact(84.1, 84.1), on(80, 4)), check.Verify},
		{"does not pass the head", "FX91: a case of 80.6 never enters 80.625 with play", in(exact(80.625, 80.625), on(80.6, .01)), check.Hold},
		{"nobody measured", "no site tab", on(80, 4), check.NotChecked},
		{"no base of its own", "nothing to raise it onto", in(exact(84, 84), job(piece{"S1", check.Side, 2, 80, 24, .75, ""})), asleep},
	})
	spare, lifted, err := shape.Raise(95.375, 95.625, 95.625, .125)
	at, err2 := Slide.Work(map[string]float64{"H": 95.375, "b": 0, "i": 95.625, "o": 95.625, "h": 0, "p": .125, "q": 0})
	if err != nil || err2 != nil || math.Abs(at["s"]-spare) > 1e-12 || at["a"] != lifted || spare != .125 || lifted != .25 {
		t.Errorf("spare %v and %v, lift %v and %v, want .125 and .25", at["s"], spare, at["a"], lifted)
	}
}

// The floor that nobody answered for, and the thickness that nobody typed.
func TestLater(t *testing.T) {
	tall := func(h float64) *check.Job {
		return job(piece{"S1", check.Side, 2, h, 24, .75, ""}, piece{"S2", check.Deck, 2, 40, 24, .75, "between sides"})
	}
	floor := func(settled bool, come ...check.Value) *check.Opening {
		o := niche([]float64{60, 60}, []float64{90, 90})
		if !settled {
			o.Settled = nil
		}
		for _, v := range come {
			o.ToCome = append(o.ToCome, check.ToCome{On: "floor", Thickness: v, Text: check.Text{Text: "FLOOR IN N"}})
		}
		return o
	}
	run(t, Later, []trial{
		{"floor in", "90 - 89.5 = .5", in(floor(true), tall(89.5)), check.Clear},
		{"nobody said, room for it", "90 - 89 = 1, 3/4 of oak and 1/16 of tape", in(floor(false), tall(89)), check.Clear},
		{"nobody said, no room for it", "90 - 89.5 = .5 < 3/4", in(floor(false), tall(89.5)), check.Verify},
		{"said to come, no thickness, no room at all", "90 - 89.75 = .25, a floor is 1/2 at least", in(floor(false, check.Missing(check.Ask{})), tall(89.75)), check.Hold},
		{"said to come, no thickness, perhaps", "90 - 89.3 = .7: more than 1/2, less than 1", in(floor(false, check.Missing(check.Ask{})), tall(89.3)), check.Verify},
		{"said with its thickness", "90 - .75 - 89.5 < 0", in(floor(false, check.Exact(.75)), tall(89.5)), check.Hold},
		{"said with its thickness, room for it", "90 - .75 - 89 = .25", in(floor(false, check.Exact(.75)), tall(89)), check.Clear},
		{"nobody measured", "no site tab", tall(89), check.NotChecked},
	})
	// what it says it holds up to is right when it is typed
	f := check.Examine([]*check.Check{Later}, in(floor(false), tall(89.5)), nil).Findings[0]
	for off, want := range map[float64]check.Verdict{0: check.Clear, .001: check.Verify} {
		if v := check.Examine([]*check.Check{Later}, in(floor(false, check.Exact(f.Turns.At+off)), tall(89.5)), nil).Verdict; v != want {
			t.Errorf("with %v of floor: %v, want %v", f.Turns.At+off, v, want)
		}
	}
}

// A rough opening whose plaster nobody gave: plaster is .25 to .875 on each wall.
func TestPlasterStillToCome(t *testing.T) {
	o := niche([]float64{42, 42}, []float64{90, 90})
	o.ToCome = []check.ToCome{{On: "walls", Text: check.Text{Text: "R.O."}, Thickness: check.Missing(check.Ask{Cell: cell("Site", "A1")})}}
	j := in(o, job(piece{"S1", check.Side, 2, 80, 24, .75, ""}, piece{"S2", check.Deck, 2, 39.75, 24, .75, "between sides"}))
	rep := check.Examine([]*check.Check{Later}, j, nil)
	if rep.Verdict != check.Verify || !strings.Contains(rep.Findings[0].Text, "walls") { // by hand: 42 - 41.25 = .75: between .5 and 1.75
		t.Errorf("%v %+v", rep.Verdict, rep.Findings)
	}
}

func way(stops ...check.Stop) *check.Carry { return &check.Carry{Stops: stops} }

func door(w, h float64) check.Stop {
	return check.Stop{Kind: "door", Name: check.Text{Text: "Room door"}, Width: check.Exact(w), Height: check.Exact(h)}
}

// Sizes that pass by the published rows of basis FX33 to FX39 and FX82, with a tape's 1/16 and
// 3/4 for hands.
func TestCarry(t *testing.T) {
	panel := func(l, w, thick float64, stops ...check.Stop) *check.Job {
		j := job(piece{"P1", check.Front, 1, l, w, thick, ""})
		if len(stops) > 0 {
			j.Carry = way(stops...)
		}
		return j
	}
	corner := func(a, b float64) check.Stop {
		return check.Stop{Kind: "corner", Width: check.Exact(a), Length: check.Exact(b), Height: check.Exact(96)}
	}
	car := check.Stop{Kind: "lift", Width: check.Exact(42), Length: check.Exact(54), Height: check.Exact(84)}
	truck := check.Stop{Kind: "vehicle", Name: check.Text{Text: "Truck"}, Length: check.Exact(120), Width: check.Exact(76), Height: check.Exact(72)}
	stair := check.Stop{Kind: "stair", Width: check.Exact(36), Height: check.Exact(80)}
	run(t, Carry, []trial{
		{"through the door on the slant", "FX38: 80 x 4 in a hole 78.5 high takes 23.6805; 28.5 does", panel(90, 80, 4, door(28.5, 78.5)), check.Clear},
		{"slant too wide", "FX38: the same 12 deep takes 41.710", panel(90, 80, 12, door(28.5, 78.5)), check.Hold},
		{"passes bare, hands do not", "24.5 - 23.68 = .82 < 1.5", panel(90, 80, 4, door(24.5, 78.5)), check.Verify},
		{"round the corner", "FX35: 36/36 turns 100.323 of .75", panel(98, 95, .75, corner(36, 36)), check.Clear},
		{"too long for the corner", "FX35", panel(102, 97, .75, corner(36, 36)), check.Hold},
		{"on end round the corner", "102 long but 30 wide: stood on edge 102 > 100.3, nor on end under 96", panel(102, 30, .75, corner(36, 36)), check.Hold},
		{"on end under the ceiling", "95 under 96, 97 wide turned round 100.3", panel(97, 95, .75, corner(36, 36)), check.Clear},
		{"in the lift", "stood on end 80 in 84, 40 in 54", panel(80, 40, 1, car), check.Clear},
		{"not in the lift", "FX82: a foot of 66 x 11.25 wants 55.2 by 54; 100 > 84 on end", panel(100, 66, 11.25, car), check.Hold},
		{"in the truck", "100 in 120", panel(100, 30, 1, truck), check.Clear},
		{"longer than the truck", "130 in 120", panel(130, 30, 1, truck), check.Hold},
		{"up the stair", "FX39: 63.23 square to the slope; 60 wide", panel(90, 60, 1, stair), check.Clear},
		{"too wide for the stair", "FX39: 90 wide on the slant takes 64.1 by 63.23", panel(92, 90, 1, stair), check.Hold},
		{"nobody gave the way, it is small", "30 x 20 through any door", panel(30, 20, 1), check.Clear},
		{"nobody gave the way, it is huge", "by hand: 100 on the slant of 79 takes 62", panel(110, 100, 2), check.Verify},
	})
}

// The turning width of a door is right when the door is that wide.
func TestTurningDoorIsRightWhenPutBack(t *testing.T) {
	through := func(w float64) *check.Report {
		j := job(piece{"P1", check.Front, 1, 90, 60, 12, ""})
		d := door(w, 78.5)
		d.Width.From = cell("Carry", "B2")
		j.Carry = way(d)
		return check.Examine([]*check.Check{Carry}, j, nil)
	}
	r := through(13.52).Findings[0].Results[0] // 12 and twice 3/4 leave .02; a tape may be 1/16 off
	if r.Turns == nil || r.Turns.Symbol != "w" || math.Abs(r.Turns.At-13.5625) > 1e-6 {
		t.Fatalf("turns %+v, want the door at 13 9/16", r.Turns)
	}
	for off, want := range map[float64]check.Verdict{0: check.Clear, -.001: check.Verify} {
		if v := through(r.Turns.At + off).Verdict; v != want {
			t.Errorf("a door of %v: %v, want %v", r.Turns.At+off, v, want)
		}
	}
}

// The live step and the exact engine agree on the slant; the live corner is a bound, never
// shorter than the exact one.
func TestLiveStepsAgreeWithTheEngine(t *testing.T) {
	for _, c := range []struct{ p, q, h float64 }{{80, 4, 78.5}, {66, 11.25, 54}, {60, 11.25, 54}, {100, .75, 79}} {
		want, err := shape.LeastHole(c.p, c.q, c.h)
		at, err2 := passage.Work(map[string]float64{"l": 200, "p": c.p, "q": c.q, "w": 40, "h": c.h, "c": 0, "A": 40, "N": 36, "f": 1, "v": 0})
		if err != nil || err2 != nil || math.Abs(at["i"]-want) > 1e-9 {
			t.Errorf("%+v: %v, engine %v (%v %v)", c, at["i"], want, err, err2)
		}
	}
	for _, c := range []struct{ a, b, q float64 }{{36, 36, .75}, {36, 32, .75}, {60, 30, 24}} {
		want, _, err := shape.Corner{From: c.a, To: c.b}.Turned(c.q)
		at, err2 := passage.Work(map[string]float64{"l": 1, "p": 1, "q": c.q, "w": c.b, "h": 90, "c": want, "A": c.a, "N": c.b, "f": 0, "v": 0})
		if err != nil || err2 != nil || at["B"] < want-1e-9 || at["B"] > want+.2 {
			t.Errorf("%+v: bound %v, exact %v (%v %v)", c, at["B"], want, err, err2)
		}
	}
}

// basis FX41: 91.875 x 11.25 x 2.25 at 48 lb/ft3 is 64.6 lb; FX42: two people at 50. MDF is 45
// to 50 lb/ft3 in the standards.
func TestLift(t *testing.T) {
	slab := func(l float64, people float64) *check.Job {
		j := job(piece{"T1", check.Seat, 1, l, 30, 2.25, ""})
		if people > 0 {
			j.Carry = &check.Carry{Crew: check.Exact(people).At(cell("Carry", "A3"))}
		}
		return j
	}
	stood := job(piece{"S1", check.Side, 2, 96, 24, .75, ""}, piece{"S2", check.Deck, 2, 90, 24, .75, "between"}, piece{"S3", check.Shelf, 4, 90, 23, .75, ""}, piece{"S4", check.Back, 1, 96, 90, .25, ""})
	stood.Carry = &check.Carry{Crew: check.Exact(2), Note: check.Text{Text: "assembled lying, stood up"}}
	run(t, Lift, []trial{
		{"two lift it", "44 x 30 x 2.25 at 48 = 82 lb of 100", slab(44, 2), check.Clear},
		{"two do not", "96 x 30 x 2.25 at 48 = 180 lb, two of 60 lift 120", slab(96, 2), check.Hold},
		{"four do", "180 of 200 lb, 188 at the heaviest", slab(96, 4), check.Clear},
		{"no crew named", "180 lb: two, or three that can be called", slab(96, 0), check.Verify},
		{"stood up by two", "half of 96 x 24 x .75 twice, 90 x 24 x .75 twice, 90 x 23 x .75 four times, a back: about 176 lb", stood, check.Hold},
		{"no size", "cannot be weighed", job(piece{"T1", check.Seat, 1, 0, 30, 2, ""}), asleep},
	})
	at, err := Lift.Work(map[string]float64{"l": 91.875, "b": 11.25, "t": 2.25, "r": 48. / 1728, "j": 1, "G": 0, "n": 2, "P": 50, "u": 1, "y": 1, "H": 12, "V": 36, "D": 12})
	niosh, err2 := lift.RecommendedPounds(lift.Task{Reach: 12, Height: 36, Travel: 12, Frequency: 1, Grip: 1})
	if err != nil || err2 != nil || math.Abs(at["W"]-64.5996) > .001 || at["N"] != 2 || math.Abs(at["RWL"]-39.3699) > .001 || math.Abs(at["RWL"]-niosh) > 1e-9 {
		t.Errorf("%v, want 64.5996 lb, 2 people, 39.3699 lb by NIOSH (FX41, FX42, FX92)", at)
	}
	mm, err := Lift.Work(map[string]float64{"l": 0, "b": 0, "t": 0, "r": 0, "j": gravity, "G": 20, "n": 2, "P": 22, "u": 25.4, "y": .45359237, "H": 12 * 25.4, "V": 36 * 25.4, "D": 12 * 25.4})
	if err != nil || math.Abs(mm["RWL"]-niosh*.45359237) > 1e-9 {
		t.Errorf("in millimetres %v kg, want %v", mm["RWL"], niosh*.45359237)
	}
}

func TestObstruct(t *testing.T) {
	box := func(back bool, note string) *check.Job {
		ps := []piece{{"S1", check.Side, 2, 83.25, 13, .75, ""}, {"S2", check.Deck, 2, 40, 13, .75, "between sides"}}
		if back {
			ps = append(ps, piece{"S3", check.Back, 1, 83, 41, .25, note})
		}
		return job(ps...)
	}
	outlet := func(x, y float64) *check.Opening {
		o := niche([]float64{42, 42}, []float64{90, 90})
		o.Obstacles = []check.Obstacle{{Kind: "outlet", X: check.Exact(x), Y: check.Exact(y), Text: check.Text{Text: "Outlet"}}}
		return o
	}
	register := niche([]float64{42, 42}, []float64{90, 90})
	register.Obstacles = []check.Obstacle{{Kind: "vent", On: "floor", X: check.Exact(10), FromRight: true, Width: check.Exact(12), Height: check.Exact(4), Text: check.Text{Text: "Reg."}}}
	nowhere := outlet(22, 14)
	nowhere.Obstacles[0].X, nowhere.Obstacles[0].Y = check.Value{}, check.Value{}
	room := niche([]float64{42, 42}, []float64{90, 90})
	room.Ceiling, room.Crown = check.Exact(90), check.Exact(4)
	lower := niche([]float64{42, 42}, []float64{90, 90})
	lower.Ceiling, lower.Crown = check.Exact(96), check.Exact(4)
	shelf := func() *check.Job {
		j := box(false, "")
		j.Parts = append(j.Parts, job(piece{"S4", check.Shelf, 1, 40, 12, .75, ""}).Parts...)
		j.Parts[2].Y = check.Exact(14.5)
		return j
	}
	run(t, Obstruct, []trial{
		{"behind the back", "22 from the left, 14 up: inside 42 x 83", in(outlet(22, 14), box(true, "")), check.Verify},
		{"above the case", "86.5 - 2.25 - 83.25 = 1: clear by 1", in(outlet(22, 86.5), box(true, "")), check.Clear},
		{"the note cuts it out", "S3 says so", in(outlet(22, 14), box(true, "cut out for outlet")), asleep},
		{"no back, no shelf at its height", "nothing is known to be in the way", in(outlet(22, 14), box(false, "")), asleep},
		{"a shelf across it", "a plate from 11.75 to 16.25, the shelf from 14.5", in(outlet(22, 14), shelf()), check.Verify},
		{"a shelf above it", "a plate from 1.75 to 6.25, the shelf from 14.5", in(outlet(22, 4), shelf()), check.Clear},
		{"a register under the bottom", "in the floor under the case", in(register, box(true, "")), check.Verify},
		{"crown in a recess up to the ceiling", "crown from 86, the case up to 83.25", in(room, box(true, "")), check.Clear},
		{"no crown in a recess below the ceiling", "head at 90 under 96", in(lower, box(true, "")), asleep},
		{"nobody read where", "it may be anywhere", in(nowhere, box(true, "")), asleep},
		{"nothing in the way", "", in(niche([]float64{42, 42}, []float64{90, 90}), box(true, "")), asleep},
	})
	room.Crown = check.Exact(7.5) // from 82.5: behind the top 3/4 of the sides
	if rep := check.Examine([]*check.Check{Obstruct}, in(room, box(true, "")), nil); rep.Verdict != check.Verify || !strings.Contains(rep.Findings[0].Text, "crown") {
		t.Errorf("%v %+v, want the crown in the way", rep.Verdict, rep.Findings)
	}
}

func TestEnter(t *testing.T) {
	const mouth = 58.0
	shelf := func(l, high float64) *check.Job {
		o := niche([]float64{61.5, 61.5}, []float64{high, high})
		o.Widths = append(o.Widths, check.Reading{At: "front", Value: check.Exact(mouth)})
		j := in(o, job(piece{"E1", check.Side, 2, high - 1, 11, .75, ""}, piece{"E3", check.Shelf, 4, l, 11, .75, ""}))
		j.Carry = &check.Carry{Note: check.Text{Text: "put together in the opening"}}
		return j
	}
	lapped := func(j *check.Job, kind check.JointKind, pairs ...[2]string) *check.Job {
		j.Parts = append(j.Parts, job(piece{"E4", check.Upright, 3, 80, 11, 1.5, ""}).Parts...)
		for _, p := range pairs {
			j.Joints = append(j.Joints, &check.Joint{Kind: kind, Into: check.Text{Text: p[0]}, Enters: check.Text{Text: p[1]}, Count: check.Exact(12)})
		}
		return j
	}
	run(t, Enter, []trial{
		{"straight in", "57.5 in a mouth of 58", shelf(57.5, 90), check.Clear},
		{"on the slant", "61 is turned on end through 58 by 90; turned level it sweeps 61.005 in 61.5", shelf(61, 90), check.Clear},
		{"too low to slant", "61 through 58 x 12: 61 on the slant takes 59.4 in width", shelf(61, 12), check.Hold},
		{"cannot be turned level", "61.49 sweeps 61.495, 61.5 may be 1/16 less", shelf(61.49, 90), check.Verify},
		{"lapped, the long shelves first", "the uprights come straight onto them", lapped(shelf(61, 90), check.CrossLap, [2]string{"E4", "E3"}), check.Clear},
		{"notched uprights must be first, and so must the shelf", "the shelf is too long to come straight", lapped(shelf(61, 90), check.NotchedLap, [2]string{"E4", "E3"}), check.Hold},
		{"notched, the shelf short enough", "uprights, then shelves straight in", lapped(shelf(57.5, 90), check.NotchedLap, [2]string{"E4", "E3"}), check.Clear},
		{"notched each into the other", "each wants to be in first", lapped(shelf(57.5, 90), check.NotchedLap, [2]string{"E4", "E3"}, [2]string{"E3", "E4"}), check.Hold},
		{"no mouth, no laps", "straight in, asked by width", in(niche([]float64{60, 60}, []float64{90, 90}), job(piece{"E1", check.Side, 2, 80, 11, .75, ""})), asleep},
	})
}

// The order that is found keeps every rule: nobody comes before what must be in first.
func TestOrderKeepsEveryLap(t *testing.T) {
	j := job(piece{"A", check.Shelf, 1, 50, 11, 1.5, ""}, piece{"B", check.Upright, 1, 50, 11, 1.5, ""}, piece{"C", check.Shelf, 1, 50, 11, 1.5, ""})
	for _, p := range [][2]string{{"B", "A"}, {"C", "B"}} {
		j.Joints = append(j.Joints, &check.Joint{Kind: check.NotchedLap, Into: check.Text{Text: p[0]}, Enters: check.Text{Text: p[1]}})
	}
	order, ring := gridOf(j, j.Cases()[0], nil).order()
	if names(order) != "C, B, A" || len(ring) != 0 {
		t.Errorf("order %s, ring %s, want C, B, A", names(order), names(ring))
	}
}
