package check_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfit/check/beam"
	"dryfit/check/column"
	"dryfit/check/section"
)

const (
	beamShare    = 1e-4 // of beams and slotted members, against finite elements
	sectionShare = 1e-6 // of sections and columns, against closed forms
	bucklingPart = 1e-5 // of buckling loads, against finite elements
	positionPart = 0.01 // of a span, for the place of a maximum
)

// onlyInputs fails a case that says something nobody here reads.
func (c referenceCase) onlyInputs(t *testing.T, names ...string) {
	t.Helper()
	for name := range c.Inputs {
		if name != "desc" && !slices.Contains(names, name) {
			t.Errorf("the case gives %s = %s, which is not read", name, c.Inputs[name])
		}
	}
}

// coherent takes the units of length and force of a case and gives those made of them.
type coherent struct{ length, force, stress string }

func (u coherent) moment() string    { return u.force + "*" + u.length }
func (u coherent) stiffness() string { return u.force + "*" + u.length + "^2" }
func (u coherent) perLength() string { return u.force + "/" + u.length }
func unitsOf(length string) coherent {
	if length == "mm" {
		return coherent{"mm", "N", "MPa"}
	}
	return coherent{"in", "lbf", "psi"}
}

// in reads a number that must stand in the unit.
func (c referenceCase) in(t *testing.T, name, unit string) float64 {
	t.Helper()
	value, got := c.number(t, name)
	wantUnit(t, name, got, unit)
	return value
}

func wantUnit(t *testing.T, name, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s is given in %q, want %q", name, got, want)
	}
}

// figure wants got within a share of the expected figure; scale is the size of its kind on
// the whole member, below a billionth of which an expected figure is rounding.
func figure(got float64, unit string, share, scale float64) demand {
	return func(t *testing.T, name string, raw json.RawMessage) {
		t.Helper()
		want := readDemand[float64](t, name, raw, unit)
		wantNear(t, name, got, want, share*math.Abs(want)+1e-9*scale)
	}
}

// standsAt wants the place of a maximum within a hundredth of the span, or any other place
// that reaches the maximum as well, where it is flat or met twice.
func standsAt(most beam.Extreme, of func(x float64) float64, unit string, span, scale float64) demand {
	return func(t *testing.T, name string, raw json.RawMessage) {
		t.Helper()
		want := readDemand[float64](t, name, raw, unit)
		reached := math.Abs(of(want)-most.Value) <= beamShare*math.Abs(most.Value)+1e-9*scale
		if !reached && math.Abs(most.At-want) > positionPart*span {
			t.Errorf("%s: got %v, want %v", name, most.At, want)
		}
	}
}

func solveReference(t *testing.T, b beam.Beam) *beam.Result {
	t.Helper()
	r, err := b.Solve()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// strictly decodes what stands in a case and fails on a field that nobody reads.
func strictly(t *testing.T, name string, raw json.RawMessage, into any) {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(raw))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		t.Fatalf("%s: read %s: %v", name, raw, err)
	}
}

func referenceBeam(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "total_length", "supports_at", "udl", "points", "E", "width_front_to_back", "thickness", "self_weight")
	length, unit := c.number(t, "total_length")
	u := unitsOf(unit)
	panel := section.Panel(c.in(t, "width_front_to_back", u.length), section.Layer{E: c.in(t, "E", u.stress), Thick: c.in(t, "thickness", u.length)})
	stiff, err := panel.Stiffness()
	if err != nil {
		t.Fatal(err)
	}
	b := beam.Beam{Length: length, Pieces: []beam.Piece{{To: length, EI: stiff.EI}}, Loads: c.beamLoads(t, u)}
	places, unit := c.numbers(t, "supports_at")
	wantUnit(t, "supports_at", unit, u.length)
	for _, at := range places {
		b.Supports = append(b.Supports, beam.Support{At: at})
	}
	r := solveReference(t, b)
	all := r.Between(0, length)
	sags, moments := max(all.Sag.Value, all.Rise.Value), max(all.Sagging.Value, all.Hogging.Value)
	stresses, err := panel.Stresses(moments)
	if err != nil {
		t.Fatal(err)
	}
	rise := func(x float64) float64 { return -r.Sag(x) }
	hogging := func(x float64) float64 { return -r.Moment(x) }
	span := shortestSpan(r)
	c.demand(t, map[string]demand{
		"reactions_up":        eachRelative(r.Reactions, u.force, beamShare),
		"max_down_deflection": figure(all.Sag.Value, u.length, beamShare, sags),
		"at":                  standsAt(all.Sag, r.Sag, u.length, span, sags),
		"max_up_deflection":   figure(all.Rise.Value, u.length, beamShare, sags),
		"max_up_at":           standsAt(all.Rise, rise, u.length, span, sags),
		"max_sagging_moment":  figure(all.Sagging.Value, u.moment(), beamShare, moments),
		"max_sag_moment_at":   standsAt(all.Sagging, r.Moment, u.length, span, moments),
		"max_hogging_moment":  figure(all.Hogging.Value, u.moment(), beamShare, moments),
		"max_hog_moment_at":   standsAt(all.Hogging, hogging, u.length, span, moments),
		"max_bending_stress":  figure(stresses[0].Largest(), u.stress, beamShare, stresses[0].Largest()),
		"per_span":            perSpan(r, sags),
	})
}

func shortestSpan(r *beam.Result) float64 {
	least := math.Inf(1)
	for _, s := range r.Spans() {
		least = min(least, s.To-s.From)
	}
	return least
}

func (c referenceCase) beamLoads(t *testing.T, u coherent) beam.Loads {
	t.Helper()
	var spread, points json.RawMessage
	wantUnit(t, "udl", c.read(t, "udl", &spread), u.perLength())
	wantUnit(t, "points", c.read(t, "points", &points), u.force)
	var even []struct {
		W    float64 `json:"w"`
		From float64 `json:"from_"`
		To   float64 `json:"to"`
	}
	var single []struct {
		P  float64
		At float64 `json:"at"`
	}
	strictly(t, "udl", spread, &even)
	strictly(t, "points", points, &single)
	var loads beam.Loads
	for _, w := range even {
		loads.Spread = append(loads.Spread, beam.Spread{From: w.From, To: w.To, W: w.W})
	}
	for _, p := range single {
		loads.Points = append(loads.Points, beam.Point{At: p.At, P: p.P})
	}
	return loads
}

// perSpan reads deflections that are positive up, in a bare list.
func perSpan(r *beam.Result, scale float64) demand {
	return func(t *testing.T, name string, raw json.RawMessage) {
		t.Helper()
		var want []struct {
			From  float64 `json:"from_"`
			To    float64 `json:"to"`
			Least float64 `json:"min_deflection"`
			At    float64 `json:"at"`
			Most  float64 `json:"max_deflection"`
			MaxAt float64 `json:"max_at"`
		}
		strictly(t, name, raw, &want)
		spans := r.Spans()
		if len(spans) != len(want) {
			t.Fatalf("%s: got %d spans, want %d", name, len(spans), len(want))
		}
		for i, w := range want {
			got := spans[i]
			at := fmt.Sprintf("%s[%d] ", name, i)
			wantNear(t, at+"from_", got.From, w.From, 1e-9*w.To)
			wantNear(t, at+"to", got.To, w.To, 1e-9*w.To)
			wantNear(t, at+"min_deflection", -got.Sag.Value, w.Least, beamShare*math.Abs(w.Least)+1e-9*scale)
			wantNear(t, at+"max_deflection", got.Rise.Value, w.Most, beamShare*math.Abs(w.Most)+1e-9*scale)
			wantNear(t, at+"there", -r.Sag(w.At), w.Least, beamShare*math.Abs(w.Least)+1e-9*scale)
			wantNear(t, at+"there", -r.Sag(w.MaxAt), w.Most, beamShare*math.Abs(w.Most)+1e-9*scale)
		}
	}
}

func referenceLaminate(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "layers_bottom_to_top", "panel_front_to_back", "front_strip", "span_simple", "udl", "glue")
	width, unit := c.number(t, "panel_front_to_back")
	u := unitsOf(unit)
	s := c.laminate(t, width, u)
	stiff, err := s.Stiffness()
	if err != nil {
		t.Fatal(err)
	}
	span, load := c.in(t, "span_simple", u.length), c.in(t, "udl", u.perLength())
	carry := func(ei float64) *beam.Result {
		return solveReference(t, beam.Beam{Length: span, Pieces: []beam.Piece{{To: span, EI: ei}},
			Supports: []beam.Support{{At: 0}, {At: span}}, Loads: beam.Loads{Spread: []beam.Spread{{From: 0, To: span, W: load}}}})
	}
	moment := carry(stiff.EI).Between(0, span).Sagging.Value
	stresses, err := s.Stresses(moment)
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{
		"neutral_axis_above_bottom_of_panels":     relative(stiff.NeutralAxis, u.length, sectionShare),
		"EI_horizontal_axis":                      relative(stiff.EI, u.stiffness(), sectionShare),
		"EI_sum_if_layers_not_bonded":             relative(stiff.Loose, u.stiffness(), sectionShare),
		"EI_if_lateral_bending_free":              relative(stiff.Free, u.stiffness(), sectionShare),
		"EA":                                      relative(stiff.EA, u.force, sectionShare),
		"midspan_deflection_simple_span":          relative(carry(stiff.EI).Sag(span/2), u.length, sectionShare),
		"midspan_deflection_lateral_free":         relative(carry(stiff.Free).Sag(span/2), u.length, sectionShare),
		"midspan_deflection_not_bonded":           relative(carry(stiff.Loose).Sag(span/2), u.length, sectionShare),
		"max_moment":                              relative(moment, u.moment(), sectionShare),
		"bending_stress_by_part_tension_positive": stressByPart(s, stresses, u.stress),
		"ccx_3d_nu0":                              solidModel(carry(stiff.EI).Sag(span/2), carry(stiff.Free).Sag(span/2), u.length),
	})
}

func (c referenceCase) laminate(t *testing.T, width float64, u coherent) section.Section {
	t.Helper()
	var layers, strip json.RawMessage
	materials := u.stress + ", " + u.length
	wantUnit(t, "layers_bottom_to_top", c.read(t, "layers_bottom_to_top", &layers), materials)
	wantUnit(t, "front_strip", c.read(t, "front_strip", &strip), materials)
	var stack []struct {
		E float64
		T float64 `json:"t"`
	}
	strictly(t, "layers_bottom_to_top", layers, &stack)
	var sheets []section.Layer
	for _, l := range stack {
		sheets = append(sheets, section.Layer{E: l.E, Thick: l.T})
	}
	s := section.Panel(width, sheets...)
	var front *struct {
		E     float64
		Thick float64 `json:"thick_front_to_back"`
		Depth float64 `json:"depth"`
		Flush string  `json:"flush"`
	}
	strictly(t, "front_strip", strip, &front)
	if front == nil {
		return s
	}
	flush, known := map[string]section.Flush{"top": section.Top, "bottom": section.Bottom,
		"middle": section.Middle, "center": section.Middle, "centre": section.Middle}[strings.ToLower(front.Flush)]
	thick := 0.0
	for _, sheet := range sheets {
		thick += sheet.Thick
	}
	if !known && math.Abs(front.Depth-thick) > 1e-9*thick { // as deep as the panel it is flush both ways
		t.Fatalf("front_strip is flush %q, want top, bottom or middle", front.Flush)
	}
	return s.WithFront(section.Strip{E: front.E, Thick: front.Thick, Depth: front.Depth, Flush: flush})
}

func stressByPart(s section.Section, stresses []section.Stress, unit string) demand {
	return func(t *testing.T, name string, raw json.RawMessage) {
		t.Helper()
		var want []struct{ E, Z0, Z1, Bottom, Top float64 }
		strictly(t, name, readDemand[json.RawMessage](t, name, raw, unit), &want)
		if len(want) != len(s) {
			t.Fatalf("%s: got %d parts, want %d", name, len(s), len(want))
		}
		for i, w := range want {
			at := fmt.Sprintf("%s[%d] ", name, i)
			scale := sectionShare * max(math.Abs(w.Bottom), math.Abs(w.Top))
			wantNear(t, at+"E", s[i].E, w.E, 0)
			wantNear(t, at+"z0", s[i].Bottom, w.Z0, 1e-9)
			wantNear(t, at+"z1", s[i].Top, w.Z1, 1e-9)
			wantNear(t, at+"bottom", stresses[i].Bottom, w.Bottom, scale)
			wantNear(t, at+"top", stresses[i].Top, w.Top, scale)
		}
	}
}

// solidModel only prints how far a solid model lies from the plane section: it lets the shelf
// twist and lets the strip shear, which a section does not.
func solidModel(restrained, free float64, unit string) demand {
	return func(t *testing.T, name string, raw json.RawMessage) {
		t.Helper()
		want := readDemand[map[string]map[string]float64](t, name, raw, unit)
		for held, sag := range map[string]float64{"restrained": restrained, "free": free} {
			if solid, given := want[held]["mid_mean"]; given {
				t.Logf("%s %s: plane section %.5g, solid %.5g, %.1f %% more", name, held, sag, solid, 100*(solid/sag-1))
			}
		}
	}
}

var slotWords = regexp.MustCompile(`cut halfway from the (?:front|back) over ([0-9.]+) (in|mm) at each place`)

func referenceSlotted(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "L", "depth", "thickness", "E", "w", "slots_centre")
	span, unit := c.number(t, "L")
	u := unitsOf(unit)
	var words string
	c.read(t, "desc", &words)
	found := slotWords.FindStringSubmatch(words)
	if found == nil {
		t.Fatalf("desc %q does not say how far the board is cut, and over what length", words)
	}
	wantUnit(t, "slot", found[2], u.length)
	slot, err := strconv.ParseFloat(found[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	depth := c.in(t, "depth", u.length)
	full := section.Panel(depth, section.Layer{E: c.in(t, "E", u.stress), Thick: c.in(t, "thickness", u.length)})
	left := full.Cut(depth/2, 0)
	stiff, errFull := full.Stiffness()
	weak, errLeft := left.Stiffness()
	if errFull != nil || errLeft != nil {
		t.Fatal(errFull, errLeft)
	}
	centres, unit := c.numbers(t, "slots_centre")
	wantUnit(t, "slots_centre", unit, u.length)
	var slots []beam.Slot
	for _, x := range centres {
		slots = append(slots, beam.Slot{Centre: x, Width: slot, EI: weak.EI})
	}
	pieces, err := beam.Slotted(span, stiff.EI, 0, slots)
	if err != nil {
		t.Fatal(err)
	}
	b := beam.Beam{Length: span, Pieces: pieces, Supports: []beam.Support{{At: 0}, {At: span}},
		Loads: beam.Loads{Spread: []beam.Spread{{From: 0, To: span, W: c.in(t, "w", u.perLength())}}}}
	r := solveReference(t, b)
	b.Pieces = []beam.Piece{{To: span, EI: stiff.EI}}
	peak := 0.0
	for _, s := range slots {
		peak = max(peak, r.Between(s.Centre-s.Width/2, s.Centre+s.Width/2).Sagging.Value)
	}
	stresses, err := left.Stresses(peak)
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{
		"midspan_deflection":      relative(r.Sag(span/2), u.length, beamShare),
		"full_section_deflection": relative(solveReference(t, b).Sag(span/2), u.length, beamShare),
		"peak_moment_in_slot":     relative(peak, u.moment(), beamShare),
		"slot_stress":             relative(stresses[0].Largest(), u.stress, 0.01),
	})
}

func referenceColumn(t *testing.T, c referenceCase) {
	switch {
	case c.has("Fc_star"):
		referenceStability(t, c)
	case c.has("e"):
		referenceEccentric(t, c)
	case c.has("clear_heights"):
		referenceBraced(t, c)
	default:
		t.Fatalf("a column with none of Fc_star, e and clear_heights: %v", c.Inputs)
	}
}

func referenceStability(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "Emin_adj", "Fc_star", "le", "d", "c")
	le, unit := c.number(t, "le")
	u := unitsOf(unit)
	crushing, share := c.in(t, "Fc_star", u.stress), c.in(t, "c", "1")
	critical, err := column.CriticalStress(c.in(t, "Emin_adj", u.stress), le, c.in(t, "d", u.length))
	if err != nil {
		t.Fatal(err)
	}
	factor, err := column.StabilityFactor(critical, crushing, share)
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{
		"FcE":    relative(critical, u.stress, sectionShare),
		"Cp":     relative(factor, "1", sectionShare),
		"Fc_adj": relative(factor*crushing, u.stress, sectionShare),
	})
}

func referenceEccentric(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "P", "e", "L", "b", "h", "E")
	length, unit := c.number(t, "L")
	u := unitsOf(unit)
	width, thick := c.in(t, "b", u.length), c.in(t, "h", u.length)
	var words string
	switch c.read(t, "desc", &words); {
	case strings.Contains(words, "about axis of h"):
	case strings.Contains(words, "about axis of b"):
		width, thick = thick, width
	default:
		t.Fatalf("desc %q does not say about which axis the load is off", words)
	}
	e := column.Eccentric{Load: c.in(t, "P", u.force), Off: c.in(t, "e", u.length), Length: length,
		E: c.in(t, "E", u.stress), Width: width, Thick: thick}
	bow, errBow := e.Bow()
	stress, errStress := e.Stress()
	euler, errEuler := column.EulerLoad(e.E*width*thick*thick*thick/12, length)
	if errBow != nil || errStress != nil || errEuler != nil {
		t.Fatal(errBow, errStress, errEuler)
	}
	c.demand(t, map[string]demand{
		"max_lateral": relative(bow, u.length, sectionShare),
		"max_stress":  relative(stress, u.stress, sectionShare),
		"euler":       relative(euler, u.force, sectionShare),
	})
}

func referenceBraced(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "clear_heights", "EI")
	heights, unit := c.numbers(t, "clear_heights")
	u := unitsOf(unit)
	ei := c.in(t, "EI", u.stiffness())
	var bays []column.Bay
	for _, height := range heights {
		bays = append(bays, column.Bay{Height: height, EI: ei, Share: 1})
	}
	load, err := column.BracedLoad(bays)
	if err != nil {
		t.Fatal(err)
	}
	longest, err := column.EulerLoad(ei, slices.Max(heights))
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{
		"buckling_load":             relative(load, u.force, bucklingPart),
		"single_longest_bay_pinned": relative(longest, u.force, sectionShare),
	})
}
