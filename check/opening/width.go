package opening

import "dryfit/check"

// Width asks whether the run of parts goes into the smallest width that was read.
var Width = &check.Check{
	ID:      "opening.width",
	Asks:    "Does the run of parts go into the measured width?",
	Costs:   "a finished case that stands in front of its opening",
	Applies: "every case with sides, every width run that is typed, and shelves on cleats from wall to wall",
	Inputs:  sizeInputsFor("width"),
	Steps:   sizeSteps(),
	Mends:   []check.Mend{{Symbol: "R", Order: "make the run {} wide", Down: true, Step: .0625, StepMM: 1, Reach: 128}},
	NoMend:  "measure the opening where it is narrowest",
	Source:  sizeSource,
	Limits: "Takes the sides as plumb: a lean, a twist or a bow between readings is not seen (opening.square sees a lean that was read). " +
		"Counts one case in an opening; several side by side want a typed run.",
	Until: check.Released,
	Value: "s", Against: []string{"g"},
	Fails: "a case 71 3/4 wide in an alcove 71 5/8 at the floor", Mended: "the case 71 1/8",
	Rows: func(j *check.Job) []check.Row { return sizeRows(j, inWidth) },
	Says: sizeSays("width"),
	Way:  sizeWay,
}
