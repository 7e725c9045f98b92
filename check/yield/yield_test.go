package yield

import (
	"testing"

	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

// sheet is 96 x 48 with 1/4 trimmed and a kerf of 1/8: 95.625 x 47.625 with a kerf on.
var sheet = Sheet{Length: 96, Width: 48, Trim: .25, Kerf: .125}

func TestOneSheet(t *testing.T) {
	for _, row := range []struct {
		name           string
		part           Part
		area, stacking int
		source         string
	}{
		{"either way round", Part{24, 20, true}, 9, 8, "integer programme over stacks, reference case Y01"},
		{"narrow, either way round", Part{30, 13, true}, 11, 10, "integer programme over stacks, reference case Y03"},
		{"a plan reaches the bound", Part{22, 17, true}, 12, 10, "by hand: area 4554.1/378.9, and a plan of 5 by 2, turned, gives 10"},
		{"with the grain", Part{24, 20, false}, 9, 6, "by hand: 3 along, 2 across"},
		{"just in", Part{95.5, 47.5, false}, 1, 1, "by hand"},
		{"a hair too long", Part{95.52, 47.5, true}, 0, 0, "by hand"},
		{"only turned", Part{40, 90, true}, 1, 1, "by hand"},
		{"only turned, but grained", Part{40, 90, false}, 0, 0, "by hand"},
		{"two halves", Part{47.6875, 47.5, true}, 2, 2, "by hand: 2*47.6875+.125 = 95.5"},
		{"halves without room for the kerf", Part{47.75, 47.5, true}, 1, 1, "by hand: 95.625 wanted of 95.5"},
		{"quarters", Part{47.6875, 23.6875, true}, 4, 4, "by hand: 23.6875*2+.125 = 47.5"},
	} {
		t.Run(row.name, func(t *testing.T) {
			area, err := sheet.AreaBound(row.part)
			if err != nil {
				t.Fatal(err)
			}
			stacking, err := sheet.StackingBound(row.part)
			if err != nil {
				t.Fatal(err)
			}
			if area != row.area || stacking != row.stacking {
				t.Errorf("%s: got %d by area and %d by stacks, want %d and %d", row.source, area, stacking, row.area, row.stacking)
			}
		})
	}
}

func TestSheets(t *testing.T) {
	for _, row := range []struct {
		name   string
		orders []Order
		least  int
		source string
	}{
		{"nothing", nil, 0, "by hand"},
		{"nine of eight", []Order{{Part{24, 20, true}, 9}}, 2, "reference case Y01"},
		{"ten of ten", []Order{{Part{30, 13, true}, 10}}, 1, "reference case Y03"},
		{"large parts share no sheet", []Order{{Part{50, 25, true}, 3}, {Part{60, 30, true}, 2}}, 5, "by hand: two of them fit neither end to end nor side by side; 1.7 sheets of area"},
		{"small ones beside large ones", []Order{{Part{50, 25, true}, 3}, {Part{10, 10, true}, 4}}, 3, "by hand"},
		{"area of many kinds", []Order{{Part{30, 10, true}, 9}, {Part{20, 15, true}, 9}}, 2, "by hand: 9*305.0+9*304.4 = 5485 of 4554 in2"},
		{"too little left beside long ones", []Order{{Part{66.8, 47, false}, 2}, {Part{33.4, 47, false}, 1}}, 3, "by hand: 66.8+.125+33.4 is over 95.5; 1.7 sheets of area"},
		{"more than a third each way", []Order{{Part{32.375, 16.375, false}, 3}, {Part{32.875, 16.075, false}, 2}}, 2, "by hand: two end to end and two side by side make four; .6 sheets of area"},
		{"strips of more than half the length", []Order{{Part{50, 15, false}, 4}}, 2, "by hand: three lie side by side, none end to end"},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := sheet.Sheets(row.orders)
			if err != nil {
				t.Fatal(err)
			}
			if got != row.least {
				t.Errorf("%s: got %d sheets, want %d", row.source, got, row.least)
			}
		})
	}
}

// A sheet sawn apart at random proves what comes out of it; no bound may say otherwise.
func TestNeverMoreThanAPlanTakes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var orders []Order
		for range rapid.IntRange(1, 2).Draw(t, "sheets") {
			saw(t, 95.5, 47.5, 4, &orders)
		}
		got, err := sheet.Sheets(orders)
		if err != nil {
			t.Fatal(err)
		}
		if most := 2; got > most {
			t.Fatalf("%d sheets are said to be the least for %v, which come out of %d", got, orders, most)
		}
	})
}

func TestOneSheetSawnApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var orders []Order
		saw(t, 95.5, 47.5, 5, &orders)
		got, err := sheet.Sheets(orders)
		if err != nil {
			t.Fatal(err)
		}
		if got != 1 {
			t.Fatalf("%d sheets are said to be the least for %v, which come out of one", got, orders)
		}
	})
}

// saw cuts a piece in two, and the halves again, and lists what is left.
func saw(t *rapid.T, length, width float64, cuts int, orders *[]Order) {
	along := rapid.Bool().Draw(t, "along")
	size := length
	if along {
		size = width
	}
	if cuts == 0 || size < 6 {
		part := Part{length, width, true}
		if rapid.Bool().Draw(t, "laid turned") {
			part = Part{width, length, true}
		}
		*orders = append(*orders, Order{part, 1})
		return
	}
	at := rapid.Float64Range(2, size-2-.125).Draw(t, "cut")
	if along {
		saw(t, length, at, cuts-1, orders)
		saw(t, length, width-at-.125, cuts-1, orders)
		return
	}
	saw(t, at, width, cuts-1, orders)
	saw(t, length-at-.125, width, cuts-1, orders)
}

// Sizes that add up to a whole at most must still do so on every scale.
func TestScalesAreFeasible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sizes := rapid.SliceOfN(rapid.Float64Range(.02, 1), 1, 8).Draw(t, "sizes")
		sum := 0.0
		for _, x := range sizes {
			sum += x
		}
		for i := range sizes {
			sizes[i] /= max(1, sum)
		}
		for i, f := range scalesFor(sizes) {
			scaled := 0.0
			for _, x := range sizes {
				scaled += f(x)
			}
			if scaled > 1+1e-6 {
				t.Fatalf("scale %d makes %g of %v", i, scaled, sizes)
			}
		}
	})
}

func TestScalesOfEqualShares(t *testing.T) {
	// By hand: exactly a third is a third on every stepped scale that has thirds; just over it
	// counts for a half with two steps.
	near := func(got, want float64) {
		t.Helper()
		if got < want-1e-9 || got > want+1e-9 {
			t.Errorf("got %g, want %g", got, want)
		}
	}
	near(stepped(2)(1./3), 1./3)
	near(stepped(2)(.34), .5)
	near(stepped(2)(.33), 0)
	near(stepped(5)(1./3), 1./3)
	near(largeOnly(.4)(.7), 1)
	near(largeOnly(.4)(.5), .5)
	near(largeOnly(.4)(.3), 0)
}

// A grid with a turned strip is a plan for equal parts.
func TestStackingBoundIsNotUnderAPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := Part{rapid.Float64Range(5, 60).Draw(t, "length"), rapid.Float64Range(5, 47).Draw(t, "width"), true}
		grown, room := sheet.grown(part), sheet.field()
		plan := 0
		for columns := range count(room.length, grown.length) + 1 {
			straight := columns * count(room.width, grown.width)
			rest := max(0, room.length-float64(columns)*grown.length)
			plan = max(plan, straight+count(rest, grown.width)*count(room.width, grown.length))
		}
		stacking, err := sheet.StackingBound(part)
		if err != nil {
			t.Fatal(err)
		}
		area, err := sheet.AreaBound(part)
		if err != nil {
			t.Fatal(err)
		}
		if stacking < plan || stacking > area {
			t.Fatalf("%+v: a plan gives %d, stacks %d, area %d", part, plan, stacking, area)
		}
		other, err := Sheet{48 * 25.4, 96 * 25.4, .25 * 25.4, .125 * 25.4}.StackingBound(Part{part.Width * 25.4, part.Length * 25.4, true})
		if err != nil {
			t.Fatal(err)
		}
		if other != stacking {
			t.Fatalf("%+v: %d in inches, %d turned and in millimetres", part, stacking, other)
		}
	})
}

func TestOutsideTheRange(t *testing.T) {
	part := Part{10, 10, true}
	for name, err := range map[string]error{
		"no room":         second(Sheet{Length: 96, Width: .4, Trim: .25}.AreaBound(part)),
		"kerf below zero": second(Sheet{Length: 96, Width: 48, Kerf: -1}.StackingBound(part)),
		"part of nothing": second(sheet.Takes(Part{0, 10, true})),
		"part of dust":    second(sheet.AreaBound(Part{.01, .01, true})),
		"count below 0":   second(sheet.Sheets([]Order{{part, -1}})),
		"part too large":  second(sheet.Sheets([]Order{{Part{100, 50, true}, 1}})),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func second[T any](_ T, err error) error { return err }
