// Package infer fills in what a schedule leaves unsaid but a cabinetmaker would see:
// crossings from roles and sizes, loads from words, which case stands in which opening. What
// it adds is marked as inferred and told in the notes of the job. It makes no verdict.
package infer

import (
	"fmt"
	"math"

	"dryfit/check"
)

// Complete adds crossings and loads to a job that has none of its own.
func Complete(j *check.Job) {
	if len(j.Joints) == 0 {
		crossings(j)
	}
	settleLoads(j)
	loads(j)
}

// crossings adds a joint for each pair of shelf and upright of a case that must pass through
// one another: the shelf is longer than the clear bay beside the uprights would allow, and
// the uprights are taller than the space between two shelves.
func crossings(j *check.Job) {
	for _, c := range j.Cases() {
		shelves, uprights := c.Role(check.Shelf), c.Role(check.Upright)
		if len(shelves) == 0 || len(uprights) == 0 {
			continue
		}
		for _, s := range shelves {
			for _, u := range uprights {
				if cross(j, c, s, u) {
					j.Joints = append(j.Joints, crossing(s, u))
					j.Notes = append(j.Notes, fmt.Sprintf("crossing of %s and %s inferred from their sizes", s.Name(), u.Name()))
				}
			}
		}
	}
}

// cross reports whether a shelf and an upright both run nearly the whole inside of their
// case, so that one must pass the other.
func cross(j *check.Job, c check.Case, s, u *check.Part) bool {
	longest := func(role check.Role, of func(*check.Part) check.Value) float64 {
		most := 0.0
		for _, p := range c.Role(role) {
			most = math.Max(most, of(p).Nominal)
		}
		return most
	}
	length := func(p *check.Part) check.Value { return p.Length }
	wide := longest(check.Shelf, length)
	tall := longest(check.Upright, length)
	for _, r := range []check.Role{check.Deck, check.Head, check.Sill} {
		wide = math.Max(wide, longest(r, length))
	}
	const nearly = 0.9
	return s.Length.Known && u.Length.Known && s.Length.Nominal >= nearly*wide && u.Length.Nominal >= nearly*tall &&
		thick(j, s) && thick(j, u)
}

// thick reports whether a part can be half cut away and still carry: a lapped grid is made
// of stuff over an inch thick.
func thick(j *check.Job, p *check.Part) bool {
	return p.Thickness.Known && p.Thickness.Nominal > j.PerInch()
}

func crossing(s, u *check.Part) *check.Joint {
	n := check.Guess(s.Qty.Nominal*u.Qty.Nominal, s.Qty.Nominal*u.Qty.Nominal, s.Qty.Nominal*u.Qty.Nominal, "every shelf crosses every upright")
	return &check.Joint{Row: s.Row, Into: u.Mark, Enters: s.Mark, Kind: check.CrossLap, Count: n, Inferred: true,
		Width: check.Missing(check.Ask{Tab: "joints", What: "the slot width as cut"})}
}
