package structure

import (
	"fmt"

	"dryfit/check"
)

// Floor asks whether a full case weighs on its floor more than a room is designed for. A
// wall of books does in any house, and mostly stands well along a bearing wall: one caution
// for a job, never HOLD.
var Floor = &check.Check{
	ID:      "structure.floor",
	Asks:    "Is the floor meant for the case when it is full?",
	Costs:   "a floor that sags under the books, and doors that bind below",
	Applies: "the heaviest case of a job whose load somebody typed",
	Inputs: []check.Input{
		{Symbol: "Q", Name: "what stands in the case", Unit: check.Force},
		{Symbol: "W", Name: "weight, empty", Unit: check.Force},
		{Symbol: "B", Name: "width of the case", Unit: check.Length},
		{Symbol: "D", Name: "depth of the case", Unit: check.Length},
		{Symbol: "a", Name: "floor in front, where one walks", Unit: check.Length},
		{Symbol: "l", Name: "load the floor is designed for", Unit: check.Pressure},
	},
	Steps: []check.Step{
		{Symbol: "G", Name: "weight, full", Formula: "W+Q", Unit: check.Force},
		{Symbol: "q", Name: "load along the wall", Formula: "G/B", Unit: check.LineLoad, Aside: true},
		{Symbol: "p", Name: "load on its footprint", Formula: "G/(B*D)", Unit: check.Pressure, Aside: true},
		{Symbol: "P", Name: "load on its footprint and the floor in front", Formula: "G/(B*(D+a))", Unit: check.Pressure},
		{Symbol: "m", Name: "margin", Formula: "l-P", Unit: check.Pressure},
	},
	NoMend: askEngineer,
	Ways:   map[string]string{"Q": askEngineer, "W": askEngineer, "B": askEngineer, "D": askEngineer, "a": askEngineer, "l": askEngineer},
	Source: []check.Source{
		{Title: "weight over footprint: statics", How: "common practice"},
		{Title: "40 psf in a dwelling: ASCE 7 Table 4.3-1", How: "memory"},
		{Title: "a design load is a mean over stack and aisle, the aisle 36 in: IBC and ASCE 7 for book stacks", How: "read, second hand"},
	},
	Limits:  "Spreads the weight over the footprint of the case and the floor in front of it, and knows no joists, walls below or feet. Design loads are means over a room, so that over is a question and no fault.",
	Until:   check.Finished,
	Grave:   true,
	Value:   "P",
	Against: []string{"l"},
	Fails:   "a bookcase 96 wide and 12 deep with eight shelves of books",
	Mended:  "the same with four shelves of display; or an engineer's word for the floor",
	Rows:    floorRows,
	Says: func(r *check.Result) string {
		on, designed := perFloor(r.Job, r.Values["P"]), perFloor(r.Job, r.Values["l"])
		if r.Margin() >= 0 {
			return fmt.Sprintf("loads the floor with %s and perhaps more when full; a room may be designed for less than %s", on, designed)
		}
		return fmt.Sprintf("loads the floor with %s when full; a room is designed for %s", on, designed)
	},
}

const askEngineer = "ask an engineer about the floor"

func floorRows(j *check.Job) []check.Row {
	var worst check.Row
	most := 0.0
	for _, c := range j.Cases() {
		b := bulkOf(j, c)
		if !b.stands || !b.typed || b.footprint() <= 0 {
			continue
		}
		r := floorRow(j, c, b)
		if p := (b.weight.Nominal + b.load.Nominal) / (b.width.Nominal * (b.depth.Nominal + r.In["a"].Nominal)); p > most {
			most, worst = p, r
		}
	}
	if most == 0 {
		return nil
	}
	return []check.Row{worst}
}

func floorRow(j *check.Job, c check.Case, b bulk) check.Row {
	r := check.Row{Case: c.Name, Name: c.Title(), Marks: b.marks, Cells: b.cells, Terms: b.terms, Most: check.Verify, Cause: "floor"}
	limit := settled(j.Standard("limit", "foot pressure", "design load of the floor", check.Pressure))
	r.In = map[string]check.Value{"Q": b.load, "W": b.weight, "B": b.width, "D": b.depth, "l": limit,
		"a": settled(j.Standard("limit", "foot pressure", "floor in front", check.Length))}
	return r
}

// perFloor prints a floor load as it is spoken of: lb/ft2, or kg/m2.
func perFloor(j *check.Job, p float64) string {
	if j.PerInch() == 1 {
		return fmt.Sprintf("%.0f lb/ft2", p*144)
	}
	const g = 9.80665 // m/s2
	return fmt.Sprintf("%.0f kg/m2", p*1e6/g)
}
