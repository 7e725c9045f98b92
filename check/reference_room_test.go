package check_test

import (
	"math"
	"slices"
	"testing"

	"dryfit/check/shape"
)

const (
	geometryShare = 1e-5
	angleOff      = 0.05 // degree
	openingShare  = 1e-4
)

func referenceGeometry(t *testing.T, c referenceCase) {
	switch {
	case c.has("hall_1"):
		referenceCorner(t, c)
	case c.has("outline_back_x0"):
		referenceStandUp(t, c)
	case c.has("door_w"):
		referenceDoor(t, c)
	default:
		t.Fatal("the case is no corner, no standing up and no door")
	}
}

func referenceCorner(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "hall_1", "hall_2", "width")
	from, unit := c.number(t, "hall_1")
	longest, angle, err := shape.Corner{From: from, To: c.in(t, "hall_2", unit)}.Turned(c.in(t, "width", unit))
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{
		"max_length": relative(longest, unit, geometryShare),
		"angle":      absolute(degrees(angle), "deg", angleOff),
	})
}

func referenceStandUp(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "height", "depth", "recess_height", "recess_depth", "outline_back_x0")
	var corners [][2]float64
	unit := c.read(t, "outline_back_x0", &corners)
	var outline shape.Outline
	var high, deep float64
	for _, p := range corners {
		outline = append(outline, shape.Point{X: p[0], Y: p[1]})
		deep, high = max(deep, p[0]), max(high, p[1])
	}
	wantNear(t, "height of the outline", high, c.in(t, "height", unit), 1e-9)
	wantNear(t, "depth of the outline", deep, c.in(t, "depth", unit), 1e-9)
	recess := min(c.in(t, "recess_height", unit), c.in(t, "recess_depth", unit)) > 0
	if recess != (len(corners) > 4) {
		t.Errorf("outline of %d corners with a recess: %v", len(corners), recess)
	}
	needed, tilt, err := outline.StandUp()
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{
		"ceiling_needed":              relative(needed, unit, geometryShare),
		"sticks_at_tilt_from_upright": absolute(degrees(tilt), "deg", angleOff),
	})
}

func referenceDoor(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "door_w", "door_h", "thick")
	wide, unit := c.number(t, "door_w")
	high, thick := c.in(t, "door_h", unit), c.in(t, "thick", unit)
	slanted, err := shape.Slanted(thick, wide, high)
	if err != nil {
		t.Fatal(err)
	}
	width, upright, err := shape.WidestPanel(thick, wide, high)
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{
		"max_width":             relative(width, unit, geometryShare),
		"slanted_balance_width": relative(slanted, unit, geometryShare),
		"upright_is_better":     exactly(upright, ""),
	})
}

// referenceOpening has readings at floor, middle and top of the least height.
func referenceOpening(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "widths_floor_mid_head", "left_side_x", "heights")
	widths, unit := c.numbers(t, "widths_floor_mid_head")
	lefts, is := c.numbers(t, "left_side_x")
	wantUnit(t, "left_side_x", is, unit)
	heights, is := c.numbers(t, "heights")
	wantUnit(t, "heights", is, unit)

	high, wide := slices.Min(heights), slices.Max(widths)
	left, right, err := shape.Sides([]float64{0, high / 2, high}, lefts, widths)
	if err != nil {
		t.Fatal(err)
	}
	o := shape.Opening{Left: left, Right: right, Floor: shape.Profile{{Along: 0}, {Along: wide}}}
	for i, h := range heights {
		o.Head = append(o.Head, shape.Reading{Along: wide * float64(i) / float64(len(heights)-1), Off: h})
	}
	level, err := o.Level(shape.Doubt{})
	if err != nil {
		t.Fatal(err)
	}
	// A true turn wants room under the head: a case as much lower as the most lean lifts its foot.
	const mostLean = 0.02
	turned, lean, err := o.Turned(high-mostLean*wide, mostLean)
	if err != nil {
		t.Fatal(err)
	}
	gaps := o.Gaps(level)
	least := slices.Min(widths)
	c.demand(t, map[string]demand{
		"min_width_rule":        relative(least, unit, openingShare),
		"level_width":           relative(level.Width(), unit, openingShare),
		"height":                relative(level.Height(), unit, openingShare),
		"min_width_rule_unsafe": exactly(level.Width() < least-1e-9, ""),
		"level_gap_left":        eachRelative(gaps.Left, unit, openingShare),
		"level_gap_right":       eachRelative(gaps.Right, unit, openingShare),
		"width_if_tilted":       reported(turned),
		"tilt_slope":            reported(lean),
	})
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }
