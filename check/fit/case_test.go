package fit

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// piece is a row of a schedule, unfinished.
func piece(mark string, role check.Role, l, w, t float64) *check.Part {
	return &check.Part{Mark: check.Text{Text: mark}, Role: role, Qty: check.Exact(1), Length: check.Exact(l), Width: check.Exact(w),
		Thickness: check.Exact(t), Material: check.Text{Text: "MDF"}, Finish: check.Text{Text: "none"}}
}

// caseOf is a job of one case.
func caseOf(ps ...*check.Part) *check.Job {
	j := &check.Job{Name: "t", Unit: length.Inch, Shop: standard.BuiltIn(), Parts: ps}
	for i, p := range ps {
		p.Case.Text, p.Unit, p.Row = "Case A", length.Inch, check.Cell{Book: "b", Tab: "Parts", Addr: fmt.Sprint("A", i+2)}
		for col, v := range map[string]*check.Value{"D": &p.Length, "E": &p.Width, "F": &p.Thickness} {
			v.From = check.Cell{Book: "b", Tab: "Parts", Addr: fmt.Sprint(col, i+2)}
		}
	}
	return j
}

func times(p *check.Part, n float64) *check.Part { p.Qty = check.Exact(n); return p }

func note(p *check.Part, text string) *check.Part { p.Note.Text = text; return p }

// shell is two sides 3/4 thick and 14 deep with top and bottom of a length.
func shell(deck float64, words string, inside ...*check.Part) *check.Job {
	return caseOf(append([]*check.Part{times(piece("A1", check.Side, 80, 14, .75), 2),
		note(times(piece("A2", check.Deck, deck, 14, .75), 2), words)}, inside...)...)
}

func TestCase(t *testing.T) {
	loose := func(l float64) *check.Part { return times(piece("A3", check.Adjustable, l, 13, .75), 4) }
	painted := loose(33.93)
	painted.Finish.Text = "paint"
	deep := piece("A3", check.Adjustable, 33.875, 14.5, .75)
	doors := func(n, w float64) *check.Part { return times(piece("A4", check.Door, 78, w, .75), n) }
	cases := []struct {
		name, hand string
		job        *check.Job
		want       check.Verdict
		says       string
	}{
		{"an eighth to spare", "34 - 33.875", shell(34, "between sides", loose(33.875)), check.Clear, ""},
		{"as long as the case", "34 - 34 = 0 under 1/16 that is wished", shell(34, "between sides", loose(34)), check.Verify, "only"},
		{"longer than the case", "34 - 34.125", shell(34, "between sides", loose(34.125)), check.Hold, "1/8 in too long for the 34 in of Case A"},
		{"falls off its pins", "34 - 33.25 = 3/4 over 1/2", shell(34, "between sides", loose(33.25)), check.Hold, "3/4 in to spare"},
		{"painted ends", "34 - 33.93 - 4*.004 = .054 under 1/16", shell(34, "between sides", painted), check.Verify, "only"},
		{"decks over the sides, unsaid", "35.5 - 1.5 - 33.875 = 1/8", shell(35.5, "", loose(33.875)), check.Clear, ""},
		{"unsaid and too long either way", "34 - 34.25", shell(34, "", loose(34.25)), check.Verify, "too long"},
		{"a shelf of another bay", "half as long", shell(34, "", loose(16)), check.Clear, ""},
		{"two bays", "(34-.75)/2 - 16.5 = 1/8", shell(34, "between sides", piece("A5", check.Divider, 78.5, 13, .75), loose(16.5)), check.Clear, ""},
		{"deeper than the sides", "14 - 14.5", shell(34, "between sides", deep), check.Hold, "1/2 in too deep for the 14 in of the sides"},
		{"a pair in the opening", "34 - 2*16.8125 = 3/8, three gaps", shell(34, "between sides", doors(2, 16.8125)), check.Clear, ""},
		{"a pair over the sides", "35.5 - 2*17.6875 = 1/8", shell(34, "between sides", doors(2, 17.6875)), check.Clear, ""},
		{"half over the sides", "35.5 - 2*17.375 = 3/4", shell(34, "between sides", doors(2, 17.375)), check.Clear, ""},
		{"neither in nor over", "34 - 34.125: does not go in; 35.5 - 34.125 = 1 3/8 leaves more than half of each side bare", shell(34, "between sides", doors(2, 17.0625)), check.Verify, ""},
		{"wider than the case", "35.5 - 36", shell(34, "between sides", doors(2, 18)), check.Verify, "1/2 in too wide"},
		{"four stacked in pairs", "two by two", shell(34, "between sides", doors(4, 16.8125)), check.Clear, ""},
		{"drawers of another kind", "doors half as wide, nothing near", shell(34, "between sides", doors(1, 12)), check.Clear, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			rows := Case.Rows(c.job)
			if len(rows) == 0 {
				if c.want != check.Clear {
					t.Fatalf("asks nothing, want %v (%s)", c.want, c.hand)
				}
				return
			}
			r := worst(t, Case, c.job)
			if r.Verdict != c.want || c.says != "" && !strings.Contains(Case.Says(r), c.says) {
				t.Errorf("%v %q, want %v %q (%s)", r.Verdict, Case.Says(r), c.want, c.says, c.hand)
			}
		})
	}
}

func TestOfferedShelfClears(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.Float64Range(33, 35).Draw(t, "l")
		build := func(l float64) *check.Job {
			return shell(34, "between sides", piece("A3", check.Adjustable, l, 13, .75))
		}
		r := worst(t, Case, build(l))
		if r.Fix == nil {
			return
		}
		if v := worst(t, Case, build(r.Fix.To)).Verdict; v != check.Clear {
			t.Fatalf("%q leaves %v", r.Fix.Text, v)
		}
	})
}

// By hand: a door 12 wide and 1 3/8 thick swings sqrt(144+1.890625)-12 = .07853 wide.
func TestCornerOfADoorSwings(t *testing.T) {
	got, err := Swing.Work(map[string]float64{"I": 12.125, "w": 12, "t": 1.375, "N": 1, "f": 0})
	if err != nil || math.Abs(got["q"]-.0785) > 1e-4 || math.Abs(got["g"]-.0625) > 1e-9 {
		t.Errorf("swings %v past %v (%v), want .0785 and .0625", got["q"], got["g"], err)
	}
	// Painted .004 a face: sqrt(12.008^2+1.383^2)-12.008 = .0793799 past (12.125-.008-12.008)/2.
	got, err = Swing.Work(map[string]float64{"I": 12.125, "w": 12, "t": 1.375, "N": 1, "f": .004})
	if err != nil || math.Abs(got["q"]-.0793799) > 1e-6 || math.Abs(got["g"]-.0545) > 1e-9 {
		t.Errorf("painted: swings %v past %v (%v), want .0793799 and .0545", got["q"], got["g"], err)
	}
}

func TestSwing(t *testing.T) {
	door := func(w, thick float64) *check.Job {
		return shell(12.25, "between sides", piece("A4", check.Door, 78, w, thick))
	}
	cases := []struct {
		name, hand string
		job        *check.Job
		want       check.Verdict
	}{
		{"thin door", "sqrt(144+.5625)-12 = .0234 under 1/8", door(12, .75), check.Clear},
		{"thick door, narrow gap", "sqrt(146.4+1.89)-12.1 = .0779 over .075", door(12.1, 1.375), check.Verify},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if r := ruled(t, Swing, c.job); r.Verdict != c.want {
				t.Errorf("%v, want %v (%s): %v", r.Verdict, c.want, c.hand, r.Values)
			}
		})
	}
	over := shell(12.25, "between sides", piece("A4", check.Door, 78, 13.5, .75))
	if n := len(Swing.Rows(over)); n != 0 {
		t.Errorf("%d rows for a door over the sides, want none", n)
	}
}

func TestUse(t *testing.T) {
	rod := func(depth float64) *check.Job {
		j := caseOf(times(piece("A1", check.Side, 80, depth, .75), 2), piece("A9", check.NotAPart, 40, 1, 1))
		j.Parts[1].Description.Text = "hanging rod"
		return j
	}
	shelved := func(depth float64, kind string) *check.Job {
		j := caseOf(piece("A3", check.Shelf, 34, depth, .75))
		j.Loads = []*check.Load{{On: check.Text{Text: "Case A"}, Kind: check.Text{Text: kind}, Per: check.ByKind}}
		return j
	}
	seat := func(front float64, more ...*check.Part) *check.Job {
		return caseOf(append([]*check.Part{piece("B1", check.Front, 60, front, .75), piece("B2", check.Seat, 60, 18, 1.5)}, more...)...)
	}
	cases := []struct {
		name, hand string
		job        *check.Job
		want       string
	}{
		{"deep enough to hang", "24 over 21", rod(24), ""},
		{"too shallow to hang", "18 under 21", rod(18), "VERIFY A1: hanging depth 18 in; the shop's list says at least 21 in"},
		{"no rod, no question", "", caseOf(times(piece("A1", check.Side, 80, 12, .75), 2)), ""},
		{"books stand", "8 over 7", shelved(8, "books"), ""},
		{"books hang over", "6 under 7", shelved(6, "books"), "VERIFY A3: shelf for books, depth 6 in; the shop's list says at least 7 in"},
		{"linen may be shallow", "", shelved(6, "linen"), ""},
		{"a seat", "16 + 1.5 = 17.5", seat(16), ""},
		{"a bar stool", "22 + 1.5 over 20", seat(22), "VERIFY B2: seat height 23 1/2 in; the shop's list says at most 20 in"},
		{"a base leaves it open", "", seat(22, piece("B3", check.Base, 60, 4, .75)), ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, f := range check.Examine([]*check.Check{Use}, c.job, nil).Findings {
				got = append(got, fmt.Sprintf("%s %s", f.Verdict, f.Text))
			}
			if s := strings.Join(got, "\n"); s != c.want {
				t.Errorf("says %q, want %q (%s)", s, c.want, c.hand)
			}
		})
	}
}

func screwed(kind check.JointKind, into, in *check.Part, gauge string, l float64) *check.Job {
	j := caseOf(into, in)
	j.Joints = []*check.Joint{{Row: check.Cell{Book: "b", Tab: "Joints", Addr: "A2"}, Mark: check.Text{Text: "J1"}, Into: into.Mark, Enters: in.Mark,
		Kind: kind, Screws: &check.Screws{Count: check.Exact(3), Gauge: gauge, Length: check.Exact(l).At(check.Cell{Book: "b", Tab: "Joints", Addr: "K2"})}}}
	return j
}

func TestScrews(t *testing.T) {
	cleat := func(l float64) *check.Job {
		return screwed(check.CleatJoint, piece("A1", check.Side, 80, 14, .75), piece("A5", check.Cleat, 12, 1.5, .75), "#8", l)
	}
	narrow := screwed(check.CleatJoint, piece("A1", check.Side, 80, 14, .75), piece("A5", check.Cleat, 12, .375, .75), "#8", 1.25)
	butt := screwed(check.Butt, piece("A1", check.Side, 80, 14, .75), piece("A3", check.Shelf, 34, 14, .75), "#8", 2)
	short := screwed(check.Butt, piece("A1", check.Side, 80, 14, .75), piece("A3", check.Shelf, 34, 14, .75), "#8", .75)
	wall := func(l float64) *check.Job {
		j := screwed(check.CleatJoint, piece("A1", check.Side, 80, 14, .75), piece("A5", check.Ledger, 40, 3, 1.25), "#10", l)
		j.Joints[0].Into.Text = "studs"
		return j
	}
	bolt := cleat(1.25)
	bolt.Joints[0].Screws.Gauge = "M20"
	cases := []struct {
		name, hand string
		job        *check.Job
		want       check.Verdict
		says, fix  string
	}{
		{"an inch and a quarter", "holds 1/2, ends 1/4 under the face", cleat(1.25), check.Clear, "", ""},
		{"comes through", "1.5 - 2", cleat(2), check.Hold, "2 in screws come through A1 by 1/2 in", "use screws 1 3/8 in long"},
		{"ends under the face", "1.5 - 1.4375 = 1/16 under 1/8", cleat(1.4375), check.Hold, "end 1/16 in under the face of A1", ""},
		{"does not reach", ".75 - .75", cleat(.75), check.Hold, "do not reach A1", "use screws 1 1/8 in long"},
		{"holds little", "1.0625 - .75 = 5/16, 3/8 is wished", cleat(1.0625), check.Verify, "hold only 5/16 in", ""},
		{"at the edge", ".1875 under 1.5 shanks of .164", narrow, check.Hold, "stand 3/16 in from the edge", ""},
		{"butt, into the end", "2 - .75 in 34 of shelf", butt, check.Clear, "", ""},
		{"butt, too short", ".75 - .75", short, check.Hold, "do not reach A3", ""},
		{"into studs", "3.25 - 1.25 - .5 = 1.5, 1.25 wanted; 5/8 of board leaves 1.375", wall(3.25), check.Clear, "", ""},
		{"into the board only", "1.5 - 1.25 - .5 < 0; 1/4 even without a board", wall(1.5), check.Hold, "do not reach the studs", ""},
		{"into studs, board unsaid", "2.5 - 1.25 - .5 = .75; bare studs 1.25", wall(2.5), check.Verify, "in the studs", ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := ruled(t, Screws, c.job)
			if r.Verdict != c.want || c.says != "" && !strings.Contains(Screws.Says(r), c.says) {
				t.Errorf("%v %q, want %v %q (%s)", r.Verdict, Screws.Says(r), c.want, c.says, c.hand)
			}
			if c.fix != "" && (r.Fix == nil || r.Fix.Text != c.fix) {
				t.Errorf("fix %+v, want %q", r.Fix, c.fix)
			}
		})
	}
	if n := len(Screws.Rows(bolt)); n != 0 {
		t.Errorf("%d rows for a bolt, want none", n)
	}
}

// FX43 of the basis: side .75, liner .5, board .5, 1.25 of stud: 3 in is the least.
func TestScrewThroughThePlies(t *testing.T) {
	for l, passes := range map[float64]bool{3: true, 2.99: false} {
		got, err := Screws.Work(map[string]float64{"l": l, "D": .19, "p": 1.25, "b": .5, "q": 3.5, "h": 1.25, "t": .125, "w": 3, "k": 2})
		if err != nil || (got["m"] >= 0) != passes {
			t.Errorf("%v in: margin %v (%v), want passing %v", l, got["m"], err, passes)
		}
	}
}

// By hand: .75 of cleat, 1/2 of board, .75 of side, less 1 3/4 of screw leaves 1/4.
func TestTipBehindABoard(t *testing.T) {
	got, err := Screws.Work(map[string]float64{"l": 1.75, "D": .164, "p": .75, "b": .5, "q": .75, "h": .25, "t": .125, "w": 3, "k": 2})
	if err != nil || got["T"] != .25 || got["H"] != .5 || got["m"] != .125 {
		t.Errorf("tip %v, hold %v, margin %v (%v); want .25, .5, .125", got["T"], got["H"], got["m"], err)
	}
}

// An inch case and the same in millimetres come to one verdict.
func TestCaseInMillimetres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.Float64Range(33, 35).Draw(t, "l")
		inch := shell(34, "between sides", piece("A3", check.Adjustable, l, 13, .75))
		mm := shell(34, "between sides", piece("A3", check.Adjustable, l, 13, .75))
		mm.Unit = length.Millimetre
		for _, p := range mm.Parts {
			p.In(length.Millimetre)
		}
		a, b := worst(t, Case, inch), worst(t, Case, mm)
		if a.Verdict != b.Verdict || math.Abs(a.Margin()*25.4-b.Margin()) > 1e-6 {
			t.Fatalf("%v %v in inches, %v %v in millimetres", a.Verdict, a.Margin(), b.Verdict, b.Margin())
		}
	})
}

func TestEveryPageIsWhole(t *testing.T) {
	all := []*check.Check{Joint, Lap, Pitch, AllAtOnce, Ease, Movement, Case, Swing, Corner, Use, Screws}
	if err := check.Validate(all); err != nil {
		t.Error(err)
	}
}
