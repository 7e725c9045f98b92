package opening

import "dryfit/check"

// Height asks whether the case, with its base and what will still be laid on the floor, goes
// under the lowest head that was read.
var Height = &check.Check{
	ID:      "opening.height",
	Asks:    "Does the case go under the measured height, with the floor that is still to come?",
	Costs:   "sides cut down on site, through the finish",
	Applies: "every case with sides, and every height run that is typed",
	Inputs:  sizeInputsFor("height"),
	Steps:   sizeSteps(),
	Mends:   []check.Mend{{Symbol: "R", Order: "make it {} high", Down: true, Step: .0625, StepMM: 1, Reach: 128}},
	NoMend:  "measure the opening where it is lowest",
	Source:  sizeSource,
	Limits: "Takes floor and head as level (opening.square sees a slope that was read). Standing it up and sliding it in are asked by themselves. " +
		"A base that may stand under the sides or in front of them is taken as both.",
	Until: check.Released,
	Value: "s", Against: []string{"g"},
	Fails: "sides 89 1/2 under 90, with 3/4 of oak still to come on the floor", Mended: "sides 88 3/4",
	Rows: func(j *check.Job) []check.Row { return sizeRows(j, inHeight) },
	Says: sizeSays("height"),
	Way:  sizeWay,
}
