package column

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

func near(t *testing.T, what string, got, want, off float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > off {
		t.Errorf("%s: got %.10g, want %.10g within %.2g", what, got, want, off)
	}
}

func TestStabilityFactorMeetsPublishedColumns(t *testing.T) {
	for _, row := range []struct {
		source                   string
		le, d, emin, crushing, c float64
		factor, factorOff        float64
		strength, strengthOff    float64
	}{
		{"Aghayere and Vigil, Structural Wood Design, ex. 5.6 (from memory; the book rounds first)",
			144, 5.5, 580000, 1150, .8, .502, .0015, 17463 / 30.25, 2},
		{"Aghayere and Vigil, Structural Wood Design, ex. 5.9 (from memory)",
			120, 5.5, 580000, 1707.75, .8, .492, .0006, 840, 1},
		{"HUD Residential Structural Design Guide, 2nd ed., ex. 5.6 (second hand)",
			87.6, 3.5, 510000, 1322.5, .8, .4378295, 5e-5, 579.03, .05},
		{"Breyer et al., Design of Wood Structures ASD, 5th ed., p. 7.15 (second hand); .3 E for .822 Emin",
			168, 5.5, .3 * 1.6e6 / .822, 900, .8, .4819, 6e-5, 433.8, .06},
		{"NDS 3.7.1 by hand: 3/4 in stock, 14 in between shelves", 14, .75, 550000, 1500, .8, .638902, 1e-6, 958.353, 1e-3},
	} {
		critical, err := CriticalStress(row.emin, row.le, row.d)
		if err != nil {
			t.Fatal(err)
		}
		factor, err := StabilityFactor(critical, row.crushing, row.c)
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.source, factor, row.factor, row.factorOff)
		near(t, row.source, factor*row.crushing, row.strength, row.strengthOff)
	}
	critical, err := CriticalStress(.3*1.6e6/.822, 168, 5.5)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Breyer et al., p. 7.15: FcE", critical, 514.46, .006)
}

// By hand, an upright with 160 lb a quarter inch off its axis; secant formula and NDS 15.4.
func TestUprightOffCentre(t *testing.T) {
	e := Eccentric{Load: 160, Off: .25, Length: 14, E: 1.1e6, Thick: .75, Width: 11.25}
	stress, err := e.Stress()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "stress", stress, 57.233, 1e-3)
	use, err := EccentricUse(160/(.75*11.25), 1297.481, .638902*1500, 1500, .25, .75)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "use", use, .026138, 2e-6)
	half, err := EccentricUse(500, 1000, 600, 1000, .25, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "use at half the critical stress, (5/6)^2 + 1.5*1.117", half, 25.0/36+1.6755, 1e-12)
	centred, err := EccentricUse(300, 1000, 600, 1500, 0, .75)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "without a moment fc against its strength, not its square", centred, .5, 1e-12)
}

// Mathematics: at a quarter of the Euler load the secant of 45 degrees is sqrt 2; at four
// ninths that of 60 degrees is 2.
func TestSecantAtKnownAngles(t *testing.T) {
	for share, secant := range map[float64]float64{.25: math.Sqrt2, 4.0 / 9: 2} {
		e := Eccentric{Off: .5, Length: 30, E: 1e6, Thick: 1, Width: 12}
		e.Load = share * math.Pi * math.Pi * 1e6 / 900
		bow, err := e.Bow()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "bow", bow, .5*(secant-1), 1e-12)
		stress, err := e.Stress()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "stress", stress, e.Load/12*(1+3*secant), 1e-9)
	}
}

// The NDS form of the bow is .8 % under the secant at half the critical stress.
func TestNDSBowIsUnderSecant(t *testing.T) {
	const u = .5
	near(t, "ratio", (1+.234*u)/(1-u)*math.Cos(math.Pi/2*math.Sqrt(u)), 1-.008, .0005)
}

func even(heights ...float64) []Bay {
	bays := make([]Bay, len(heights))
	for i, h := range heights {
		bays[i] = Bay{Height: h, EI: 1, Share: 1}
	}
	return bays
}

func TestBracedUprightBuckles(t *testing.T) {
	pi2 := math.Pi * math.Pi
	for _, row := range []struct {
		source    string
		bays      []Bay
		want, off float64
	}{
		{"Euler: one bay", even(2), pi2 / 4, 1e-12},
		{"equal bays buckle in waves, as one alone", even(1, 1, 1), pi2, 1e-11},
		{"very short bays clamp the long one: 4 pi^2", even(1e-4, 1, 1e-4), 4 * pi2, .01},
		{"one very short bay, pinned and clamped: 2.0457 pi^2 (Timoshenko and Gere, from memory)", even(1, 1e-4), 2.0457 * pi2, .005},
		{"a bay with half the load through it counts as one of twice the stiffness", []Bay{{1, 1, 1}, {1, .5, .5}}, pi2, 1e-11},
		{"a quarter of the load through the only bay", []Bay{{1, 1, .25}}, 4 * pi2, 1e-10},
	} {
		got, err := BracedLoad(row.bays)
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.source, got, row.want, row.off)
	}
}

func TestTurningSeriesMeetsClosedForm(t *testing.T) {
	nearBelow, farBelow := turning(math.Nextafter(.1, 0))
	nearAbove, farAbove := turning(.1)
	near(t, "near end", nearBelow, nearAbove, 2e-9)
	near(t, "far end", farBelow, farAbove, 2e-9)
	n, f := turning(1e-9)
	near(t, "no thrust, 4EI/L", n, 4, 1e-12)
	near(t, "no thrust, 2EI/L", f, 2, 1e-12)
	n, _ = turning(4.493409457909064) // tan x = x: pinned and clamped
	near(t, "no stiffness left at tan x = x", n, 0, 1e-12)
}

func TestBracedLoadLiesBetweenPinnedAndClamped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		heights := rapid.SliceOfN(rapid.Float64Range(5, 90), 1, 6).Draw(t, "heights")
		bays := even(heights...)
		weakest := math.Inf(1)
		for _, b := range bays {
			weakest = math.Min(weakest, math.Pi*math.Pi/(b.Height*b.Height))
		}
		load, err := BracedLoad(bays)
		if err != nil {
			t.Fatal(err)
		}
		if load < weakest*(1-1e-9) || load > 4*weakest {
			t.Fatalf("%v: %v, weakest bay %v", heights, load, weakest)
		}
		reversed := make([]Bay, len(bays))
		for i, b := range bays {
			reversed[len(bays)-1-i] = b
		}
		back, err := BracedLoad(reversed)
		if err != nil || math.Abs(back-load) > 1e-9*load {
			t.Fatalf("%v: %v one way, %v the other, %v", heights, load, back, err)
		}
		for i := range bays {
			bays[i].Height *= 25.4
		}
		scaled, err := BracedLoad(bays)
		if err != nil || math.Abs(scaled*25.4*25.4-load) > 1e-9*load {
			t.Fatalf("%v: %v in inches, %v in mm, %v", heights, load, scaled, err)
		}
	})
}

func TestColumnsSayWhatIsWrong(t *testing.T) {
	sound := Eccentric{Load: 1, Length: 10, E: 1e6, Thick: 1, Width: 1}
	with := func(change func(*Eccentric)) func() (float64, error) {
		e := sound
		change(&e)
		return e.Stress
	}
	for _, row := range []struct {
		of   func() (float64, error)
		want string
	}{
		{func() (float64, error) { return CriticalStress(1e6, 51, 1) }, "51; expected 50 at most"},
		{func() (float64, error) { return CriticalStress(0, 5, 1) }, "read 0; expected a number above 0"},
		{func() (float64, error) { return StabilityFactor(1, 1, 1.1) }, "c is 1.1"},
		{func() (float64, error) { return StabilityFactor(1, math.NaN(), .8) }, "read NaN"},
		{func() (float64, error) { return EulerLoad(1, -1) }, "read -1"},
		{with(func(e *Eccentric) { e.Load = 1e6 }), "the column buckles at 822"},
		{with(func(e *Eccentric) { e.Off = -1 }), "stands -1 off"},
		{with(func(e *Eccentric) { e.Width = 0 }), "read 0"},
		{func() (float64, error) { return EccentricUse(91, 100, 100, 100, 1, 1) }, "0.91 of the critical stress"},
		{func() (float64, error) { return EccentricUse(1, 100, 100, 100, math.NaN(), 1) }, "stands NaN off"},
		{func() (float64, error) { return BracedLoad(nil) }, "without a height"},
		{func() (float64, error) { return BracedLoad([]Bay{{1, 1, 0}}) }, "share 0"},
		{func() (float64, error) { return BracedLoad([]Bay{{1, 1, 1.5}}) }, "share 1.5"},
		{func() (float64, error) { return BracedLoad([]Bay{{0, 1, 1}}) }, "read 0"},
	} {
		if _, err := row.of(); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("error %v, want %q in it", err, row.want)
		}
	}
}
