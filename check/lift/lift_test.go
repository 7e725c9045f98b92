package lift

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

func TestWeight(t *testing.T) {
	got, err := Pounds(91.875*11.25*2.25, 48)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand: 2325.6 in3 at 48 lb/ft3", got, 64.5996, 5e-5)
	got, err = Kilograms(1000*500*18, 720)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand: .009 m3 at 720 kg/m3", got, 6.48, 1e-12)
	got, err = DensityOfPanel(14.5, 18)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "panel merchant page, 14.5 kg/m2 at 18 mm", got, 50.289, 5e-4)
}

func TestPoundsAndKilogramsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in3 := rapid.Float64Range(0, 1e5).Draw(t, "volume")
		lb, err := Pounds(in3, 45)
		if err != nil {
			t.Fatal(err)
		}
		// 16.01846337 kg/m3 in one lb/ft3, by the definitions of pound and foot.
		kg, err := Kilograms(in3*25.4*25.4*25.4, 45*16.018463373960142)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(lb*.45359237-kg) > 1e-9*(1+kg) {
			t.Fatalf("%g lb and %g kg", lb, kg)
		}
	})
}

func TestCrew(t *testing.T) {
	for _, row := range []struct {
		weight, perHead float64
		people          int
		source          string
	}{
		{64.6, 50, 2, "by hand"},
		{64.6, 35, 2, "by hand"},
		{.1 + .2, .1, 3, "three shares, whatever binary tenths add up to"},
		{0, 50, 1, "somebody carries it"},
		{100.01, 50, 3, "by hand"},
	} {
		got, err := Crew(row.weight, row.perHead)
		if err != nil {
			t.Fatal(err)
		}
		if got != row.people {
			t.Errorf("%g at %g, %s: got %d people, want %d", row.weight, row.perHead, row.source, got, row.people)
		}
	}
}

func TestRecommended(t *testing.T) {
	const manual = "NIOSH 94-110 constants"
	for _, row := range []struct {
		name   string
		of     func(Task) (float64, error)
		task   Task
		weight float64
		off    float64
		source string
	}{
		{"best lift", RecommendedPounds, Task{10, 30, 10, 0, 1, 1}, 51, 1e-12, manual},
		{"best lift, metric", RecommendedKilograms, Task{25, 75, 25, 0, 1, 1}, 23, 1e-12, manual},
		{"closer than the least reach", RecommendedPounds, Task{4, 30, 2, 0, 1, 1}, 51, 1e-12, manual},
		{"US form", RecommendedPounds, Task{12, 36, 12, 0, 1, 1}, 39.3699, 5e-5, "reference case N03"},
		{"same lift, metric", RecommendedKilograms, Task{30.48, 91.44, 30.48, 0, 1, 1}, 38.26 * .45359237, .005, "the rounded constants of the other form"},
		{"from the floor", RecommendedKilograms, Task{25, 55, 95, 0, 1, 1}, 18.753, 5e-4, "by hand: 23*.94*.86737"},
		{"four a minute", RecommendedKilograms, Task{25, 55, 95, 0, .84, 1}, 15.7, .06, "published recommendation, multiplier inferred"},
		{"low frequency", RecommendedKilograms, Task{25, 75, 30, 90, .13, 1}, 23 * .97 * .712 * .13, 1e-9, "by hand"},
		{"twisted and fair", RecommendedPounds, Task{10, 30, 10, 45, 1, .95}, 51 * .856 * .95, 1e-12, "by hand"},
		{"reach too far", RecommendedPounds, Task{25.1, 30, 10, 0, 1, 1}, 0, 0, manual},
		{"hands too high", RecommendedPounds, Task{10, 70.1, 10, 0, 1, 1}, 0, 0, manual},
		{"travel too long", RecommendedKilograms, Task{25, 75, 176, 0, 1, 1}, 0, 0, manual},
		{"twist too far", RecommendedKilograms, Task{25, 75, 25, 136, 1, 1}, 0, 0, manual},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := row.of(row.task)
			if err != nil {
				t.Fatal(err)
			}
			near(t, row.source, got, row.weight, row.off)
		})
	}
}

func TestIndex(t *testing.T) {
	got, err := Index(118, 27.17399, 2)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "reference case N01", got, 2.171193851, 1e-8)
	got, err = Index(12, 15.7521, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "published index .76", got, .76, .005)
}

func TestBothFormsAgreeWithinTheirRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inch := Task{
			Reach:     rapid.Float64Range(10, 24).Draw(t, "reach"),
			Height:    rapid.Float64Range(0, 65).Draw(t, "height"),
			Travel:    rapid.Float64Range(10, 65).Draw(t, "travel"),
			Twist:     rapid.Float64Range(0, 135).Draw(t, "twist"),
			Frequency: 1, Grip: 1,
		}
		metric := inch
		metric.Reach, metric.Height, metric.Travel = inch.Reach*2.54, inch.Height*2.54, inch.Travel*2.54
		lb, err := RecommendedPounds(inch)
		if err != nil {
			t.Fatal(err)
		}
		kg, err := RecommendedKilograms(metric)
		if err != nil {
			t.Fatal(err)
		}
		if r := kg / .45359237 / lb; r < .96 || r > 1.04 {
			t.Fatalf("%+v: %g lb and %g kg", inch, lb, kg)
		}
	})
}

func TestOutsideTheRange(t *testing.T) {
	good := Task{10, 30, 10, 0, 1, 1}
	with := func(change func(*Task)) error {
		bad := good
		change(&bad)
		_, err := RecommendedPounds(bad)
		return err
	}
	for name, err := range map[string]error{
		"reach below zero": with(func(t *Task) { t.Reach = -1 }),
		"twist below zero": with(func(t *Task) { t.Twist = -1 }),
		"no frequency":     with(func(t *Task) { t.Frequency = 0 }),
		"frequency over 1": with(func(t *Task) { t.Frequency = 1.1 }),
		"grip under poor":  with(func(t *Task) { t.Grip = .8 }),
		"grip over good":   with(func(t *Task) { t.Grip = 1.01 }),
		"height no number": with(func(t *Task) { t.Height = math.NaN() }),
		"no people":        second(Index(10, 10, 0)),
		"none recommended": second(Index(10, 0, 1)),
		"density below 0":  second(Pounds(1, -1)),
		"volume below 0":   second(Kilograms(-1, 1)),
		"no thickness":     second(DensityOfPanel(10, 0)),
		"no share a head":  second(Crew(10, 0)),
		"no lift at all":   second(Crew(1e300, 1)),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if err := with(func(*Task) {}); err != nil {
		t.Errorf("a sound task was refused: %v", err)
	}
}

func second[T any](_ T, err error) error { return err }

func near(t *testing.T, what string, got, want, off float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > off {
		t.Errorf("%s: got %.12g, want %.12g within %.3g", what, got, want, off)
	}
}
