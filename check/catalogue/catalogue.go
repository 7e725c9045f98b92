// Package catalogue is the one list of all checks, in the order in which they are told.
package catalogue

import (
	"dryfit/check"
	"dryfit/check/fit"
	"dryfit/check/opening"
	"dryfit/check/schedule"
	"dryfit/check/structure"
)

// All lists every check.
var All = []*check.Check{
	schedule.Read,
	schedule.Units,
	schedule.Marks,
	schedule.Layers,
	schedule.Material,
	schedule.Stock,
	schedule.Joints,
	schedule.SizeKind,
	schedule.Revision,
	schedule.OddOne,
	schedule.Formulas,
	schedule.Totals,
	fit.Joint,
	fit.Lap,
	fit.Pitch,
	fit.AllAtOnce,
	fit.Ease,
	fit.Movement,
	fit.Case,
	fit.Swing,
	fit.Corner,
	fit.Use,
	fit.Screws,
	structure.Sag,
	structure.Bending,
	structure.Shear,
	structure.Bearing,
	structure.Upright,
	structure.Path,
	structure.Cleat,
	structure.Anchor,
	structure.Floor,
	opening.Width,
	opening.Height,
	opening.Depth,
	opening.Square,
	opening.Liner,
	opening.Stand,
	opening.Slide,
	opening.Enter,
	opening.Later,
	opening.Carry,
	opening.Lift,
	opening.Obstruct,
}

// Find is the check with an ID.
func Find(id string) (*check.Check, bool) {
	for _, c := range All {
		if c.ID == id {
			return c, true
		}
	}
	return nil, false
}
