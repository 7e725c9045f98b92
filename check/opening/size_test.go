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
	run(t, Width, []trial{
		{"goes in", "42 - 41.508 - .25 = .242, less 1/16", nook(alcove(42, 84, 13.5)), check.Clear},
		{"short", "41.5 - 41.508 < 0", nook(alcove(41.5, 84, 13.5)), check.Hold},
		{"a tight reading", "41.80 - 41.530 - .25 = .020 passes, less 1/16 fails", nook(alcove(41.80, 84, 13.5)), check.Verify},
		{"less play than wanted, but it goes", "41.70 - 41.508 = .192: over 1/8, under 1/4", nook(alcove(41.70, 84, 13.5)), check.Verify},
		{"from a drawing", "42 - 1/2 - 41.508 < 0 at the worst", nook(drawn), check.Verify},
		{"nobody measured", "no site tab", nook(nil), check.NotChecked},
		{"no sides", "shelves alone stand in no opening", in(alcove(42, 84, 13.5), job(piece{"X", check.Shelf, 2, 40, 12, .75, ""})), asleep},
	})
	run(t, Height, []trial{
		{"head clears", "84 - 83.254 - .25 = .496, less 1/16", nook(alcove(42, 84, 13.5)), check.Clear},
		{"oak still to come", "84.2 - .75 - 83.254 = .196: over 1/8, under 1/4", nook(oak), check.Verify},
		{"too high", "83.3 - 83.254 = .046 < 1/8", nook(alcove(42, 83.3, 13.5)), check.Hold},
		{"nobody measured", "no site tab", nook(nil), check.NotChecked},
	})
	run(t, Depth, []trial{
		{"goes back", "13.5 - 13.004 = .496", nook(alcove(42, 84, 13.5)), check.Clear},
		{"too deep", "12.9 - 13.004 < 0", nook(alcove(42, 84, 12.9)), check.Hold},
		{"as deep as the wall is", "13.1 - 13.004 = .096: under the 1/8 wished for, over the 0 it needs", nook(alcove(42, 84, 13.1)), check.Verify},
		{"nobody measured", "no site tab", nook(nil), check.NotChecked},
	})
}

// By hand, each from what the row says.
func TestChains(t *testing.T) {
	side := piece{"S", check.Side, 2, 80, 12, .75, ""}
	for _, c := range []struct {
		name, direction, want string // want: the chain as it is written
		low, nominal, high    float64
		job                   *check.Job
	}{
		{"between by the note", "width", "2 x S 3/4 + D 40 = 41 1/2 in", 41.5, 41.5, 41.5, job(side, piece{"D", check.Deck, 2, 40, 12, .75, "btwn sides"})},
		{"over by the note", "width", "D 40 in", 40, 40, 40, job(side, piece{"D", check.Deck, 2, 40, 12, .75, "over sides"})},
		{"over, so the height grows", "height", "S 80 + 2 x D 3/4 = 81 1/2 in", 81.5, 81.5, 81.5, job(side, piece{"D", check.Deck, 2, 40, 12, .75, "over sides"})},
		{"between by the shelf", "width", "2 x S 3/4 + D 40 = 41 1/2 in", 41.5, 41.5, 41.5, job(side, piece{"D", check.Deck, 2, 40, 12, .75, ""}, piece{"A", check.Adjustable, 4, 39.875, 11, .75, ""})},
		{"over by the shelf", "width", "D 40 in", 40, 40, 40, job(side, piece{"D", check.Deck, 2, 40, 12, .75, ""}, piece{"A", check.Adjustable, 4, 38.375, 11, .75, ""})},
		{"between by the back", "width", "2 x S 3/4 + D 40 = 41 1/2 in", 41.5, 41.5, 41.5, job(side, piece{"D", check.Deck, 2, 40, 12, .75, ""}, piece{"B", check.Back, 1, 79, 40.75, .25, ""})},
		{"nobody said", "width", "2 x S 3/4 + D 40 = 41 1/2 in", 40, 41.5, 41.5, job(side, piece{"D", check.Deck, 2, 40, 12, .75, ""})},
		{"two bays", "width", "2 x S 3/4 + 2 x F 20 + V 3/4 = 42 1/4 in", 42.25, 42.25, 42.25, job(side, piece{"F", check.Shelf, 6, 20, 12, .75, ""}, piece{"V", check.Divider, 1, 78, 12, .75, ""})},
		{"a base under it", "height", "S 80 + P 4 = 84 in", 84, 84, 84, job(side, piece{"P", check.Base, 1, 40, 4, .75, "ladder base"})},
		{"a base, nobody said", "height", "S 80 + P 4 = 84 in", 80, 84, 84, job(side, piece{"P", check.Base, 1, 40, 4, .75, ""})},
		{"a kick board", "height", "S 80 in", 80, 80, 80, job(side, piece{"P", check.Base, 1, 40, 4, .75, "toe kick"})},
		{"a back planted on", "depth", "S 12 + B 1/4 = 12 1/4 in", 12.25, 12.25, 12.25, job(side, piece{"B", check.Back, 1, 79, 40, .25, "planted on"})},
		{"let into both sides", "width", "2 x S 3/4 + F 40 + 2 x let into S -1/4 = 41 in", 41, 41, 41, dadoed(job(side, piece{"F", check.Shelf, 4, 40, 12, .75, ""}))},
	} {
		got, ok := inferred(c.job, c.job.Cases()[0], c.direction)
		if !ok || got.text(c.job) != c.want || got.total.Low != c.low || got.total.Nominal != c.nominal || got.total.High != c.high {
			t.Errorf("%s: %q %v, want %q %v..%v..%v", c.name, got.text(c.job), got.total, c.want, c.low, c.nominal, c.high)
		}
		if guess := c.low != c.high; got.total.Guessed != guess {
			t.Errorf("%s: guessed %v, want %v", c.name, got.total.Guessed, guess)
		}
	}
}

func dadoed(j *check.Job) *check.Job {
	j.Joints = []*check.Joint{{Kind: check.Dado, Into: check.Text{Text: "S"}, Enters: check.Text{Text: "F"}, DepthIn: check.Exact(.25)}}
	return j
}

// A size that rests on one reading, or on a drawing, is one question whatever it decides.
func TestAPoorMeasureIsOneLine(t *testing.T) {
	drawn := alcove(42, 84, 13.25)
	drawn.Poor = true
	rep := check.Examine([]*check.Check{Width, Height, Depth, Later, Square}, nook(drawn), nil)
	if len(rep.Findings) != 1 || rep.Findings[0].Verdict != check.Verify || !strings.HasPrefix(rep.Findings[0].Fix, "measure it on site") {
		for _, f := range rep.Findings {
			t.Errorf("%v %s: %s -> %s", f.Verdict, f.ID, f.Text, f.Fix)
		}
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
			{Plain: check.Exact(.75), Text: "pilaster 3/4"}}}}
	rep := check.Examine(of("opening.width"), j, nil)
	if len(rep.Findings) != 1 || !strings.Contains(rep.Findings[0].Text, "pilaster") || rep.Verdict != check.Hold {
		t.Fatalf("%v %+v; by hand 2 x 3/4 + 40 + 3/4 = 42 1/4 in 42", rep.Verdict, rep.Findings)
	}
}

// A scribe is too big on purpose: 41 1/2 and 5/16 of scribe a side are 42 1/8, and go into 42
// with what fitting leaves of the scribes, an eighth each.
func TestAScribeInARunIsCutToFit(t *testing.T) {
	j := nook(alcove(42, 84, 13.5))
	j.Runs = []*check.Run{{Row: cell("Runs", "A2"), Direction: "width", Fits: check.Text{Text: "Nook"},
		Items: []check.RunItem{{Mark: "D1", Count: check.Exact(2)}, {Mark: "D2", Count: check.Exact(1)}, {Plain: check.Exact(.3125), Count: check.Exact(2), Text: "scr 5/16 ea"}}}}
	if rep := check.Examine([]*check.Check{Width}, j, nil); rep.Verdict != check.Clear {
		t.Errorf("%v %+v, want CLEAR", rep.Verdict, rep.Findings)
	}
	j.Openings[0] = alcove(41.7, 84, 13.5) // by hand 41.5 + .25 = 41.75
	if rep := check.Examine([]*check.Check{Width}, j, nil); rep.Verdict != check.Hold {
		t.Errorf("%v, want HOLD", rep.Verdict)
	}
}

// By hand: 41 1/2 in 41 1/4; 41 is wanted at the most, less film and tape, so the pieces
// between the sides lose alike, the fixed shelf with top and bottom.
func TestFixedShelvesGoWithTheTop(t *testing.T) {
	j := nook(alcove(41.25, 90, 14))
	shelf := *j.Parts[1]
	shelf.Role, shelf.Mark.Text = check.Shelf, "D3"
	j.Parts = append(j.Parts, &shelf)
	fs := check.Examine(of("opening.width"), j, nil).Findings
	if len(fs) != 1 || !strings.Contains(fs[0].Fix, "D2, D3 39") {
		t.Errorf("%+v; want one finding that shortens D2 and D3 to 39 and something", fs)
	}
}
