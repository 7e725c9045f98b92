package opening

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

func cell(tab, addr string) check.Cell { return check.Cell{Book: "b", Tab: tab, Addr: addr} }

// nook is a painted case of two sides, 83 1/4 high and 13 deep, with top and bottom between
// them, 41 1/2 wide over all.
func nook(place *check.Opening) *check.Job {
	part := func(mark string, role check.Role, row int, l, w float64, note string) *check.Part {
		return &check.Part{Row: cell("Parts", fmt.Sprint("A", row)), Mark: check.Text{Text: mark}, Role: role,
			Case: check.Text{Text: "Nook"}, Qty: check.Exact(2), Unit: length.Inch,
			Length: check.Exact(l).At(cell("Parts", fmt.Sprint("D", row))), Width: check.Exact(w).At(cell("Parts", fmt.Sprint("E", row))),
			Thickness: check.Exact(.75).At(cell("Parts", fmt.Sprint("F", row))), Finish: check.Text{Text: "paint"}, Note: check.Text{Text: note}}
	}
	j := &check.Job{Name: "t", Unit: length.Inch, Shop: standard.BuiltIn(), Parts: []*check.Part{
		part("D1", check.Side, 2, 83.25, 13, ""), part("D2", check.Deck, 3, 40, 13, "between sides")}}
	if place != nil {
		j.Openings = []*check.Opening{place}
	}
	return j
}

func readings(values ...float64) []check.Reading {
	var out []check.Reading
	for i, v := range values {
		out = append(out, check.Reading{At: []string{"floor", "middle", "top"}[i], Value: check.Exact(v).At(cell("Site", fmt.Sprint("B", i+2)))})
	}
	return out
}

// alcove is measured with a tape, three widths, two heights, two depths.
func alcove(width, height, depth float64) *check.Opening {
	return &check.Opening{Row: cell("Site", "A1"), Name: check.Text{Text: "NOOK"}, By: check.Text{Text: "K."},
		Widths: readings(width, width+.125, width+.25), Heights: readings(height, height+.0625), Depths: readings(depth, depth+.0625)}
}

func of(id string) []*check.Check {
	for _, c := range []*check.Check{Width, Height, Depth} {
		if c.ID == id {
			return []*check.Check{c}
		}
	}
	panic(id)
}

// By hand: the run is 40 + 2 x 3/4 = 41 1/2, with .008 of film on its ends; wanted are 1/8 a
// side (1/16 at the kindest) in width, 1/4 (1/8) at the head, 1/8 (0) at the back; a tape is
// good for 1/16.
func TestSizes(t *testing.T) {
	oak := alcove(42, 84.2, 13.5)
	oak.ToCome = []check.ToCome{{On: "floor", Thickness: check.Exact(.75), Text: check.Text{Text: "+3/4 oak"}}}
	drawn := alcove(42, 84, 13.5)
	drawn.Poor = true
	cases := []struct {
		name, id, hand string
		job            *check.Job
		want           check.Verdict
	}{
		{"goes in", "opening.width", "42 - 41.508 - .25 = .242, less 1/16", nook(alcove(42, 84, 13.5)), check.Clear},
		{"short", "opening.width", "41.5 - 41.508 < 0", nook(alcove(41.5, 84, 13.5)), check.Hold},
		{"a tight reading", "opening.width", "41.78 - 41.508 - .25 = .022 passes, less 1/16 fails", nook(alcove(41.78, 84, 13.5)), check.Verify},
		{"less play than wanted, but it goes", "opening.width", "41.70 - 41.508 = .192: over 1/8, under 1/4", nook(alcove(41.70, 84, 13.5)), check.Verify},
		{"from a drawing", "opening.width", "42 - 1/2 - 41.508 < 0 at the worst", nook(drawn), check.Verify},
		{"head clears", "opening.height", "84 - 83.254 - .25 = .496, less 1/16", nook(alcove(42, 84, 13.5)), check.Clear},
		{"oak still to come", "opening.height", "84.2 - .75 - 83.254 = .196: over 1/8, under 1/4", nook(oak), check.Verify},
		{"too deep", "opening.depth", "12.9 - 13.004 < 0", nook(alcove(42, 84, 12.9)), check.Hold},
		{"nobody measured", "opening.width", "no site tab", nook(nil), check.NotChecked},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			rep := check.Examine(of(c.id), c.job, nil)
			if rep.Verdict != c.want {
				t.Errorf("%v, want %v (%s): %+v", rep.Verdict, c.want, c.hand, rep.Findings)
			}
		})
	}
}

// The chain stands in the sentence, and the cut that is offered goes in.
func TestChainIsWrittenOutAndTheOfferGoesIn(t *testing.T) {
	j := nook(alcove(42, 83, 13.5))
	f := check.Examine(of("opening.height"), j, nil).Findings[0]
	if !strings.Contains(f.Text, "D1 83 1/4 in") || !strings.HasPrefix(f.Fix, "make it ") {
		t.Fatalf("says %q, offers %q", f.Text, f.Fix)
	}
	to := f.Results[0].Fix.To
	j.Parts[0].Length = check.Exact(to).At(j.Parts[0].Length.From)
	if v := check.Examine(of("opening.height"), j, nil).Verdict; v != check.Clear {
		t.Errorf("sides %v high are %v, want CLEAR", to, v)
	}
}

// "Holds if ..." is right when it is put back: a floor width of just that much is CLEAR, a
// hair less is not.
func TestTurningWidthIsRightWhenPutBack(t *testing.T) {
	place := alcove(41.78, 84, 13.5)
	f := check.Examine(of("opening.width"), nook(place), nil).Findings[0]
	if f.Turns == nil || f.Turns.Input != "measured width" {
		t.Fatalf("turns %+v, want the measured width", f.Turns)
	}
	for _, c := range []struct {
		width float64
		want  check.Verdict
	}{{f.Turns.At, check.Clear}, {f.Turns.At - 1e-6, check.Verify}} {
		if v := check.Examine(of("opening.width"), nook(alcove(c.width, 84, 13.5)), nil).Verdict; v != c.want {
			t.Errorf("width %v: %v, want %v", c.width, v, c.want)
		}
	}
}

func TestTypedRunTakesThePlaceOfTheInferredOne(t *testing.T) {
	j := nook(alcove(42, 84, 13.5))
	j.Runs = []*check.Run{{Row: cell("Runs", "A2"), Direction: "width", Fits: check.Text{Text: "Nook"},
		Items: []check.RunItem{{Mark: "D1", Count: check.Exact(2)}, {Mark: "D2", Count: check.Exact(1)},
			{Plain: check.Exact(.75), Text: "filler"}}}}
	rep := check.Examine(of("opening.width"), j, nil)
	if len(rep.Findings) != 1 || !strings.Contains(rep.Findings[0].Text, "filler") || rep.Verdict != check.Hold {
		t.Fatalf("%v %+v; by hand 2 x 3/4 + 40 + 3/4 = 42 1/4 in 42", rep.Verdict, rep.Findings)
	}
}
