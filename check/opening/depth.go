package opening

import "dryfit/check"

// Depth asks whether the case goes back into the least depth that was read.
var Depth = &check.Check{
	ID:      "opening.depth",
	Asks:    "Does the case go into the measured depth?",
	Costs:   "a case that stands proud of the wall, and trim that does not cover it",
	Applies: "every case with sides, and every depth run that is typed",
	Inputs:  sizeInputsFor("depth"),
	Steps:   sizeSteps(),
	Mends:   []check.Mend{{Symbol: "R", Order: "make it {} deep", Down: true, Step: .0625, StepMM: 1, Reach: 128}},
	NoMend:  "measure the opening where it is shallowest",
	Source:  sizeSource,
	Limits:  "Counts the sides, and a back that is said to be planted on; doors stand in front of the recess. A bow of the back wall between readings is not seen.",
	Until:   check.Released,
	Value:   "s", Against: []string{"g"},
	Fails: "sides 15 deep in a recess of 14 3/4", Mended: "sides 14 1/2",
	Rows: func(j *check.Job) []check.Row { return sizeRows(j, inDepth) },
	Says: sizeSays("depth"),
	Way:  sizeWay,
}
