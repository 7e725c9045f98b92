package standards

import (
	"math"
	"strings"
	"testing"

	"dryfit/check/standard"

	"github.com/xuri/excelize/v2"
)

var readings = []float64{.719, .721, .718, .722, .720, .717, .719, .723, .721, .720}

func measuredPly(values []float64) Draft {
	return Draft{Readings: []Readings{{"thickness", "hardwood plywood", "3/4 in", "in", .001, values}}}
}

// Mean .72 and standard deviation .00182574 by hand (the squares of the ten deviations add
// up to 30e-6); factor 3.382 for ten readings (NIST e-Handbook 7.2.6.3), half a step more.
func TestTenReadingsReplaceTheBuiltInRange(t *testing.T) {
	s := mustRead(t, workbook(t, standard.BuiltIn(), measuredPly(readings), nil))
	if len(s.Entries) != 1 || len(s.Problems) > 0 {
		t.Fatalf("%+v %v", s.Entries, s.Problems)
	}
	e := s.Entries[0]
	reach := 3.382*math.Sqrt(30e-6/9) + .0005
	if math.Abs(e.Nominal-.72) > 1e-12 || math.Abs(e.Low-(.72-reach)) > 1e-5 || math.Abs(e.High-(.72+reach)) > 1e-5 {
		t.Errorf("got %g %g %g", e.Low, e.Nominal, e.High)
	}
	if e.Known != standard.KnownMeasured || e.From != "shop standards, calibration!B4" {
		t.Errorf("got %+v", e)
	}
	if len(s.Notes) != 1 || !strings.Contains(s.Notes[0], "10 readings in calibration!B4 replace the built-in range") {
		t.Errorf("notes %v", s.Notes)
	}
}

func TestNineReadingsAreKeptAndCounted(t *testing.T) {
	s := mustRead(t, workbook(t, standard.BuiltIn(), measuredPly(readings[:9]), nil))
	if len(s.Entries) > 0 || len(s.Notes) != 1 || !strings.Contains(s.Notes[0], "9 readings in calibration!B4, 1 more") {
		t.Errorf("%+v %v", s.Entries, s.Notes)
	}
}

func TestATypedValueRulesOverACalibratedOne(t *testing.T) {
	s := mustRead(t, workbook(t, standard.BuiltIn(), measuredPly(readings), func(f *excelize.File) {
		tab, cell := place(t, f, "thickness", "hardwood plywood", "3/4 in", "our value")
		typeIn(t, f, tab, cell, .73)
	}))
	if e, _ := s.Over(standard.BuiltIn()).Find("thickness", "hardwood plywood", "3/4 in"); e.Nominal != .73 || len(s.Entries) != 2 {
		t.Errorf("got %+v of %d", e, len(s.Entries))
	}
}

func TestReadingsInAnotherUnit(t *testing.T) {
	var mm []float64
	for _, v := range readings {
		mm = append(mm, v*25.4)
	}
	s := mustRead(t, workbook(t, standard.BuiltIn(), Draft{Readings: []Readings{{"thickness", "hardwood plywood", "3/4 in", "mm", .01, mm}}}, nil))
	if len(s.Entries) != 1 || s.Entries[0].Unit != "in" || math.Abs(s.Entries[0].Nominal-.72) > 1e-9 {
		t.Errorf("%+v %v", s.Entries, s.Problems)
	}
}

func TestCalibrationCellsThatMakeNoSenseAreNamed(t *testing.T) {
	for _, c := range []struct {
		cell  string
		typed any
		want  string
	}{
		{"B13", "thin", "a reading wanted"},
		{"B13", 18.3, `with the unit "mm"`},
		{"B4", "the plywood", "kind / item / what wanted"},
		{"B4", "timber / oak / E", "kind / item / what wanted"},
		{"B5", "thumbs", "the unit of the readings wanted"},
		{"B6", 0, "above zero"},
		{"B6", "", "above zero"},
	} {
		cells := map[string]any{"B4": "thickness / hardwood plywood / 3/4 in", "B5": "in", "B6": .001}
		for i, v := range readings {
			cells[address(2, firstReading+i)] = v
		}
		cells[c.cell] = c.typed
		s := typed(t, measureTab, cells)
		if len(s.Problems) != 1 || s.Problems[0].Cell != c.cell || s.Problems[0].Tab != measureTab || !strings.Contains(s.Problems[0].Want, c.want) || len(s.Entries) > 0 {
			t.Errorf("%s %v: %v, %+v", c.cell, c.typed, s.Problems, s.Entries)
		}
	}
}
