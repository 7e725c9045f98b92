package check_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"reflect"
	"testing"
)

// referenceCase is one case of the reference file: inputs and expected figures, most of
// them written as [value, "unit"].
type referenceCase struct {
	ID       string
	Kind     string
	Inputs   map[string]json.RawMessage
	Expected map[string]json.RawMessage
}

// referenceKinds says which function works a kind of case.
var referenceKinds = map[string]func(t *testing.T, c referenceCase){
	"1-beam":     referenceBeam,
	"2-laminate": referenceLaminate,
	"3-slotted":  referenceSlotted,
	"4-column":   referenceColumn,
	"5-fit":      referenceFit,
	"6-moisture": referenceMoisture,
	"7-geometry": referenceGeometry,
	"8-opening":  referenceOpening,
	"9-anchor":   referenceAnchorage,
	"10-lift":    referenceLift,
	"11-yield":   referenceYield,
}

// TestReference runs the engines over figures that general engines computed (symbolic and
// finite element beams, numerical integration, linear and integer programmes, bounded search).
// DRYFIT_REFERENCE_CASES names another file of the same shape, by its full path.
func TestReference(t *testing.T) {
	file := "testdata/reference-cases.json"
	if named := os.Getenv("DRYFIT_REFERENCE_CASES"); named != "" {
		file = named
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var cases []referenceCase
	if err := json.Unmarshal(text, &cases); err != nil {
		t.Fatalf("%s: want a list of cases: %v", file, err)
	}
	if len(cases) == 0 {
		t.Fatalf("%s holds no case", file)
	}
	for _, c := range cases {
		t.Run(c.ID, func(t *testing.T) {
			work, known := referenceKinds[c.Kind]
			if !known {
				t.Fatalf("no engine is held against cases of kind %q", c.Kind)
			}
			work(t, c)
		})
	}
}

// demand judges one expected figure.
type demand func(t *testing.T, name string, raw json.RawMessage)

// demand holds every expected figure of the case against the demand of its name. A figure
// that nobody demands is one that the engines do not compute, and fails.
func (c referenceCase) demand(t *testing.T, demands map[string]demand) {
	t.Helper()
	if len(c.Expected) == 0 {
		t.Error("the case expects nothing")
	}
	for name, raw := range c.Expected {
		judge, ok := demands[name]
		if !ok {
			t.Errorf("%s = %s is expected and not computed", name, raw)
			continue
		}
		judge(t, name, raw)
	}
}

// relative wants got in the unit within a share of the expected figure. Where zero is
// expected the share is taken of one.
func relative(got float64, unit string, share float64) demand {
	return func(t *testing.T, name string, raw json.RawMessage) {
		t.Helper()
		want := readDemand[float64](t, name, raw, unit)
		wantNear(t, name, got, want, share*sizeOf(want))
	}
}

// absolute wants got in the unit within a fixed distance of the expected figure.
func absolute(got float64, unit string, off float64) demand {
	return func(t *testing.T, name string, raw json.RawMessage) {
		t.Helper()
		wantNear(t, name, got, readDemand[float64](t, name, raw, unit), off)
	}
}

// eachRelative is relative for a list.
func eachRelative(got []float64, unit string, share float64) demand {
	return func(t *testing.T, name string, raw json.RawMessage) {
		t.Helper()
		want := readDemand[[]float64](t, name, raw, unit)
		if len(got) != len(want) {
			t.Errorf("%s: got %d figures %v, want %d %v", name, len(got), got, len(want), want)
			return
		}
		for i := range want {
			wantNear(t, fmt.Sprintf("%s[%d]", name, i), got[i], want[i], share*sizeOf(want[i]))
		}
	}
}

// exactly wants the same whole number, word or truth.
func exactly[T comparable](got T, unit string) demand {
	return func(t *testing.T, name string, raw json.RawMessage) {
		t.Helper()
		if want := readDemand[T](t, name, raw, unit); got != want {
			t.Errorf("%s: got %v, want %v", name, got, want)
		}
	}
}

// reported wants nothing of a figure that the reference itself computes by a convention of
// its own; it only prints the difference.
func reported(got float64) demand {
	return func(t *testing.T, name string, raw json.RawMessage) {
		t.Helper()
		var want float64
		readQuantity(t, name, raw, &want)
		t.Logf("%s: got %g, the reference has %g, difference %g", name, got, want, got-want)
	}
}

func wantNear(t *testing.T, name string, got, want, off float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > off {
		t.Errorf("%s: got %.12g, want %.12g within %.3g", name, got, want, off)
	}
}

func sizeOf(want float64) float64 {
	if want == 0 {
		return 1
	}
	return math.Abs(want)
}

func readDemand[T any](t *testing.T, name string, raw json.RawMessage, unit string) T {
	t.Helper()
	var want T
	if read := readQuantity(t, name, raw, &want); read != unit {
		t.Errorf("%s is expected in %q, computed in %q", name, read, unit)
	}
	return want
}

// number reads an input that is a number, with its unit, or "" where it has none.
func (c referenceCase) number(t *testing.T, name string) (value float64, unit string) {
	t.Helper()
	unit = c.read(t, name, &value)
	return value, unit
}

// numbers reads an input that is a list of numbers, with the unit of all.
func (c referenceCase) numbers(t *testing.T, name string) (values []float64, unit string) {
	t.Helper()
	unit = c.read(t, name, &values)
	return values, unit
}

// has says whether the case gives an input.
func (c referenceCase) has(name string) bool {
	_, ok := c.Inputs[name]
	return ok
}

// read puts an input of any shape into the variable that into points to and returns its unit.
func (c referenceCase) read(t *testing.T, name string, into any) (unit string) {
	t.Helper()
	raw, ok := c.Inputs[name]
	if !ok {
		t.Fatalf("the case gives no %s", name)
	}
	return readQuantity(t, name, raw, into)
}

// readQuantity reads [value, "unit"] or a bare value. A list whose second element is no
// text is a bare list.
func readQuantity(t *testing.T, name string, raw json.RawMessage, into any) (unit string) {
	t.Helper()
	var pair []json.RawMessage
	if json.Unmarshal(raw, &pair) == nil && len(pair) == 2 && json.Unmarshal(pair[1], &unit) == nil && unit != "" {
		raw = pair[0]
	} else {
		unit = ""
	}
	if err := json.Unmarshal(raw, into); err != nil {
		t.Fatalf("%s: read %s, want a %s: %v", name, raw, reflect.TypeOf(into).Elem(), err)
	}
	return unit
}
