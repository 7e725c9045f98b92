package fit

import (
	"testing"

	"dryfit/check"
)

// Sides 3/4 thick and 80 high; top and bottom 34 long.
func TestFixedParts(t *testing.T) {
	shelf := func(l float64, words string) *check.Part { return note(piece("A3", check.Shelf, l, 13, .75), words) }
	divider := func(l float64) *check.Part { return piece("A5", check.Divider, l, 13, .75) }
	dadoed := func(depth float64, p *check.Part) *check.Job {
		j := shell(34, "", p)
		for _, enters := range []string{"A2", "A3"} {
			j.Joints = append(j.Joints, &check.Joint{Into: check.Text{Text: "A1"}, Enters: check.Text{Text: enters}, Kind: check.Dado,
				Count: check.Exact(2), DepthIn: check.Exact(depth)})
		}
		return j
	}
	single := func(top, bottom float64) *check.Job {
		return caseOf(times(piece("A1", check.Side, 80, 14, .75), 2), note(piece("A2", check.Head, top, 14, .75), "between sides"),
			note(piece("A3", check.Sill, bottom, 14, .75), "between sides"), piece("A4", check.Adjustable, 33.875, 13, .75))
	}
	backed := caseOf(times(piece("A1", check.Side, 80, 14, .75), 2), note(piece("A2", check.Head, 36, 14, .75), "between sides"),
		note(piece("A3", check.Sill, 34, 14, .75), "between sides"), piece("A4", check.Back, 80, 35.5, .25))
	shallow := shell(34, "between sides", piece("A3", check.Adjustable, 33.875, 13, .75))
	shallow.Parts[0].Width = check.Exact(1.5)
	grid := shell(34, "between sides", shelf(34.5, ""), piece("A6", check.Upright, 78, 13, 1.5))
	cases := []struct {
		name, hand string
		job        *check.Job
		want       check.Verdict
		says       string
	}{
		{"butts", "34 - 34", shell(34, "between sides", shelf(34, "screwed between sides")), check.Clear, ""},
		{"too long", "34 - 34.25", shell(34, "between sides", shelf(34.25, "screwed between sides")), check.Hold, "1/4 in too long for the 34 in of Case A"},
		{"a hair too long", "34 - 34.046875: 3/64 over 1/32, under 1/16", shell(34, "between sides", shelf(34.046875, "screwed between sides")), check.Verify, "3/64 in too long for the 34 in of Case A"},
		{"too short", "34 - 33.5", shell(34, "between sides", shelf(33.5, "screwed between sides")), check.Hold, "1/2 in too short for the 34 in of Case A"},
		{"a hair too short", "34 - 33.9375: 1/16 over 1/32, under 1/8", shell(34, "between sides", shelf(33.9375, "screwed between sides")), check.Verify, "1/16 in too short for the 34 in of Case A"},
		{"joint unsaid, dado of 1/4", "34 + 2/4", shell(34, "between sides", shelf(34.5, "fixed")), check.Clear, ""},
		{"joint unsaid, dado of 3/8", "34 + 2*3/8", shell(34, "between sides", shelf(34.75, "fixed")), check.Clear, ""},
		{"joint unsaid, decks over the sides", "34 - 2*3/4", shell(34, "", shelf(32.5, "fixed")), check.Clear, ""},
		{"joint unsaid, longer than any", "34.75 - 34.875 = 1/8", shell(34, "between sides", shelf(34.875, "fixed")), check.Verify, "1/8 in too long for the 34 3/4 in of Case A"},
		{"perhaps loose", "34 - 33.875", shell(34, "between sides", shelf(33.875, "")), check.Clear, ""},
		{"another bay", "half as long", shell(34, "between sides", shelf(17, "fixed")), check.Clear, ""},
		{"dadoes as typed", "34 - 2/4 + 2/4", dadoed(.25, shelf(34, "")), check.Clear, ""},
		{"dadoes as typed, an inch short", "34 - 33", dadoed(.25, shelf(33, "")), check.Hold, "1 in too short for the 34 in of Case A"},
		{"cut to the clear inside", "34 - 2/4 = 33.5: the joint may be wrong", dadoed(.25, shelf(33.5, "")), check.Verify, "1/2 in too short for the 34 in of Case A"},
		{"top longer than bottom and shelves", "34 - 36", single(36, 34), check.Hold, "2 in too long for the 34 in of Case A"},
		{"top as long as bottom", "34 - 34", single(34, 34), check.Clear, ""},
		{"the back and the plinth speak for the bottom", "34 - 36; back 35.5 = 34 + 1.5", backed, check.Hold, "2 in too long for the 34 in of Case A"},
		{"sides mistyped", "shelf 13 in sides of 1.5, top and bottom 14", shallow, check.Verify, "11 1/2 in too deep for the 1 1/2 in of the sides"},
		{"a lapped grid", "its own checks ask", grid, check.Clear, ""},
		{"divider between", "80 - 1.5", shell(34, "between sides", divider(78.5)), check.Clear, ""},
		{"divider in dadoes", "80 - 1.5 + 2/4", shell(34, "between sides", divider(79)), check.Clear, ""},
		{"divider on a raised bottom", "as low as it likes", shell(34, "between sides", divider(75)), check.Clear, ""},
		{"divider higher than the sides", "80 - 80.5", shell(34, "between sides", divider(80.5)), check.Verify, "1/2 in too high for the 80 in of Case A"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if len(Case.Rows(c.job)) == 0 {
				if c.want != check.Clear {
					t.Fatalf("asks nothing, want %v (%s)", c.want, c.hand)
				}
				return
			}
			r := worst(t, Case, c.job)
			short(t, r)
			if r.Verdict != c.want || c.says != "" && Case.Says(r) != c.says {
				t.Errorf("%v %q, want %v %q (%s)", r.Verdict, Case.Says(r), c.want, c.says, c.hand)
			}
		})
	}
}

// Sides 80 high: a door covers them at most.
func TestDoorHeight(t *testing.T) {
	door := func(l, w float64) *check.Job {
		return shell(34, "between sides", times(piece("A4", check.Door, l, w, .75), 2))
	}
	cases := []struct {
		name, hand string
		job        *check.Job
		want       check.Verdict
		says       string
	}{
		{"over the sides", "80 - 79.75", door(79.75, 17.6875), check.Clear, ""},
		{"over the sides, too high", "80 - 81.25", door(81.25, 17.6875), check.Verify, "1 1/4 in too high for the 80 in of Case A"},
		{"in the opening", "78.5 - 78.25", door(78.25, 16.8125), check.Clear, ""},
		{"between the sides, over top and bottom", "80 - 79.5", door(79.5, 16.8125), check.Clear, ""},
		{"between the sides, too high", "80 - 80.5", door(80.5, 16.8125), check.Verify, "1/2 in too high for the 80 in of Case A"},
		{"under drawers", "as low as it likes", door(40, 16.8125), check.Clear, ""},
		{"a pair far too wide", "35.5 - 2*19", door(79.75, 19), check.Verify, "2 1/2 in too wide for the 35 1/2 in of Case A"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := worst(t, Case, c.job)
			short(t, r)
			if r.Verdict != c.want || c.says != "" && Case.Says(r) != c.says {
				t.Errorf("%v %q, want %v %q (%s)", r.Verdict, Case.Says(r), c.want, c.says, c.hand)
			}
		})
	}
}
