package check_test

import (
	"regexp"
	"strconv"
	"testing"

	"dryfit/check/anchorage"
	"dryfit/check/beam"
	"dryfit/check/lift"
	"dryfit/check/yield"
)

const handlingShare = 1e-6 // of anchorage and lifts

func referenceAnchorage(t *testing.T, c referenceCase) {
	if c.has("bays") {
		referenceFeet(t, c)
		return
	}
	c.onlyInputs(t, "weight", "H", "depth", "pull", "pull_height", "fixing_height")
	weight, force := c.number(t, "weight")
	deep, length := c.number(t, "depth")
	pull := anchorage.Pull{Force: c.in(t, "pull", force), Height: c.in(t, "pull_height", length)}
	if high := c.in(t, "H", length); pull.Height > high {
		t.Errorf("the pull is at %g of a case %g high", pull.Height, high)
	}
	weights := []anchorage.Weight{anchorage.Evenly(weight, deep)}
	tension, err := anchorage.Tension(weights, []anchorage.Pull{pull}, c.in(t, "fixing_height", length))
	if err != nil {
		t.Fatal(err)
	}
	tips, err := anchorage.TippingPull(weights, pull.Height)
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{
		"tension_at_top_fixing": relative(tension, force, handlingShare),
		"pull_that_tips":        relative(tips, force, handlingShare),
	})
}

func referenceFeet(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "bays", "w_each_shelf")
	bays, length := c.numbers(t, "bays")
	u := unitsOf(length)
	loads, unit := c.numbers(t, "w_each_shelf")
	wantUnit(t, "w_each_shelf", unit, u.perLength())
	end := 0.0
	for _, b := range bays {
		end += b
	}
	var shelves []beam.Loads
	for _, w := range loads {
		shelves = append(shelves, beam.Loads{Spread: []beam.Spread{{To: end, W: w}}})
	}
	feet, err := anchorage.Feet(bays, shelves)
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{"feet": eachRelative(feet, u.force, handlingShare)})
}

func referenceLift(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "weight", "crew", "H", "V", "D", "A", "FM", "CM")
	weight, mass := c.number(t, "weight")
	recommend, length := lift.RecommendedPounds, "in"
	switch mass {
	case "lb":
	case "kg":
		recommend, length = lift.RecommendedKilograms, "cm"
	default:
		t.Fatalf("weight is in %q, want lb or kg", mass)
	}
	crew, _ := c.number(t, "crew")
	frequency, _ := c.number(t, "FM")
	grip, _ := c.number(t, "CM")
	each, err := recommend(lift.Task{
		Reach: c.in(t, "H", length), Height: c.in(t, "V", length), Travel: c.in(t, "D", length),
		Twist: c.in(t, "A", "deg"), Frequency: frequency, Grip: grip,
	})
	if err != nil {
		t.Fatal(err)
	}
	index, err := lift.Index(weight, each, int(crew))
	if err != nil {
		t.Fatal(err)
	}
	people, err := lift.Crew(weight, each)
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{
		"RWL_each":      relative(each, mass, handlingShare),
		"LI":            relative(index, "1", handlingShare),
		"crew_for_LI_1": exactly(people, "people"),
	})
}

// sheetWords are how a case names its sheet.
var sheetWords = regexp.MustCompile(`^identical parts, either way round, one ([0-9.]+) x ([0-9.]+) sheet$`)

func referenceYield(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "part", "wanted", "trim_each_edge", "kerf")
	var words string
	c.read(t, "desc", &words)
	said := sheetWords.FindStringSubmatch(words)
	if said == nil {
		t.Fatalf("the sheet is said to be %q, want %s", words, sheetWords)
	}
	size, unit := c.numbers(t, "part")
	if len(size) != 2 {
		t.Fatalf("the part is %v, want two sides", size)
	}
	sheet := yield.Sheet{Trim: c.in(t, "trim_each_edge", unit), Kerf: c.in(t, "kerf", unit)}
	sheet.Length, _ = strconv.ParseFloat(said[1], 64)
	sheet.Width, _ = strconv.ParseFloat(said[2], 64)
	part := yield.Part{Length: size[0], Width: size[1], Turns: true}
	wanted, _ := c.number(t, "wanted")

	area, err := sheet.AreaBound(part)
	if err != nil {
		t.Fatal(err)
	}
	stacking, err := sheet.StackingBound(part)
	if err != nil {
		t.Fatal(err)
	}
	least, err := sheet.Sheets([]yield.Order{{Part: part, Wanted: int(wanted)}})
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{
		"area_bound":                exactly(area, ""),
		"stacking_bound":            exactly(stacking, ""),
		"proven_not_from_one_sheet": exactly(int(wanted) > stacking, ""),
		"sheets_lower_bound":        exactly(least, ""),
	})
}
