package opening

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
)

var all = []*check.Check{Width, Height, Depth, Square, Liner, Stand, Slide, Enter, Later, Carry, Lift, Obstruct}

func TestAllAreSound(t *testing.T) {
	if err := check.Validate(all); err != nil {
		t.Error(err)
	}
}

// drawJob is a case in an opening that was measured well or badly, on a way that is wide or
// narrow. Sizes are on whole sixteenths, as people type them.
func drawJob(t *rapid.T) *check.Job {
	size := func(least, most float64, what string) float64 {
		return float64(rapid.IntRange(int(least*16), int(most*16)).Draw(t, what)) / 16
	}
	yes := func(what string) bool { return rapid.Bool().Draw(t, what) }
	wide, high, deep := size(20, 110, "wide"), size(30, 100, "high"), size(8, 26, "deep")
	ps := []piece{{"S1", check.Side, 2, high, deep, .75, ""}, {"S2", check.Deck, 2, wide, deep, .75, rapid.SampledFrom([]string{"", "between sides", "over sides"}).Draw(t, "lay")},
		{"S3", check.Shelf, 4, wide - size(0, 2, "less"), deep - .25, 1.5, ""}}
	if yes("base") {
		ps = append(ps, piece{"S4", check.Base, 1, wide, size(2, 6, "base high"), .75, rapid.SampledFrom([]string{"", "ladder base", "toe kick"}).Draw(t, "base note")})
	}
	if yes("back") {
		ps = append(ps, piece{"S5", check.Back, 1, high - 1, wide + .5, .25, ""})
	}
	if yes("scribe") {
		ps = append(ps, piece{"S6", check.Scribe, 2, high, size(.5, 3, "scribe"), .75, ""})
	}
	if yes("liner") {
		ps[0].note, ps[1].note = "liner", "liner, "+ps[1].note
	}
	j := job(ps...)
	if !yes("measured") {
		return j
	}
	var ws, hs []float64
	for range rapid.IntRange(1, 3).Draw(t, "widths") {
		ws = append(ws, wide+size(0, 3, "more")-.25)
	}
	for range rapid.IntRange(1, 3).Draw(t, "heights") {
		hs = append(hs, high+size(0, 4, "more")-.25)
	}
	o := niche(ws, hs)
	o.Depths = readings(deep + size(0, 2, "more") - .25)
	for _, of := range []string{"left", "right", "floor", "head", "back"} {
		if yes(of) {
			o.Leans = append(o.Leans, lean(of, size(0, 1.5, "off")-.75, 48))
		}
	}
	if yes("ceiling") {
		o.Ceiling = check.Exact(size(84, 110, "ceiling")).At(cell("Site", "B9"))
	}
	if yes("floor unsaid") {
		o.Settled = nil
	}
	if yes("outlet") {
		o.Obstacles = []check.Obstacle{{Kind: "outlet", X: check.Exact(size(0, 60, "x")), Y: check.Exact(size(0, 60, "y")), Text: check.Text{Text: "Outlet"}}}
	}
	if yes("way") {
		j.Carry = &check.Carry{Crew: check.Exact(float64(rapid.IntRange(1, 4).Draw(t, "crew"))), Stops: []check.Stop{door(size(24, 40, "door"), size(76, 84, "door high")),
			{Kind: "corner", Width: check.Exact(size(30, 48, "hall")), Length: check.Exact(size(30, 48, "hall"))}}}
		if yes("stood") {
			j.Carry.Note = check.Text{Text: "assembled lying, stood up"}
		}
	}
	return in(o, j)
}

// Whatever is typed: every finding is short, says a way out that clears it, and holds at the
// turning value it names; millimetres say the same as inches; and what nobody measured stops
// nothing.
func TestAnyJobIsTreatedFairly(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := drawJob(rt)
		reports := [2]*check.Report{check.Examine(all, j, nil), check.Examine(all, metric(j), nil)}
		var said [2]map[string]check.Verdict
		for i, rep := range reports {
			said[i] = map[string]check.Verdict{}
			for _, c := range rep.Coverage {
				said[i][c.ID+" "+c.Mark] = c.Verdict
			}
			for _, f := range rep.Findings {
				sound(t, f)
				if r := f.Results[0]; r.Broken != nil {
					rt.Fatalf("%s broke: %v", f.ID, r.Broken)
				}
			}
			if len(j.Openings) == 0 && len(rep.Findings) > 3 {
				rt.Errorf("%d findings of a bare schedule: %+v", len(rep.Findings), rep.Findings)
			}
		}
		if a, b := fmt.Sprint(said[0]), fmt.Sprint(said[1]); a != b {
			rt.Errorf("inches %s\nmillimetres %s", a, b)
		}
		if t.Failed() {
			rt.FailNow()
		}
	})
}
