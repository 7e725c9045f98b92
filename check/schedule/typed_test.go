package schedule

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
	"dryfit/check/length"
	_ "dryfit/check/steady"
)

// expect runs a table of jobs through one check and compares what it says, verdict first.
func expect(t *testing.T, c *check.Check, cases []expected) {
	t.Helper()
	for _, e := range cases {
		t.Run(e.name, func(t *testing.T) {
			got := says(c, e.job)
			if got != e.want {
				t.Errorf("says %q, want %q (%s)", got, e.want, e.hand)
			}
			for _, line := range strings.Split(got, "\n") {
				if n := len(strings.Fields(line)); n > 21 { // the verdict and 20 words
					t.Errorf("%d words: %s", n-1, line)
				}
			}
		})
	}
}

type expected struct {
	name, hand string
	job        *check.Job
	want       string
}

func qty(p *check.Part, n float64) *check.Part { p.Qty = check.Exact(n).At(p.Qty.From); return p }

func hand(p *check.Part, h string) *check.Part { p.Hand = h; return p }

func noted(p *check.Part, note string) *check.Part { p.Note.Text = note; return p }

func jointsAt(addr string) check.Cell { return check.Cell{Book: "b", Tab: "Joints", Addr: addr} }

func lapped(n, uprights, shelves float64, positions ...float64) *check.Job {
	j := job(qty(sized("S1", check.Shelf, 2, 60, 12, 1.5), shelves), qty(sized("U1", check.Upright, 3, 70, 12, 1.5), uprights))
	jt := &check.Joint{Row: jointsAt("A2"), Mark: check.Text{Text: "J1"}, Into: check.Text{Text: "U1"}, Enters: check.Text{Text: "S1"},
		Kind: check.CrossLap, Count: check.Exact(n).At(jointsAt("E2"))}
	for _, x := range positions {
		jt.At = append(jt.At, check.Exact(x))
	}
	j.Joints = []*check.Joint{jt}
	return j
}

// cleated is 8 cleats on a wall, in a row that counts so many joints.
func cleated(n float64) *check.Job {
	j := job(qty(sized("C2", check.Cleat, 2, 11, 1.5, .75), 8))
	j.Joints = []*check.Joint{{Row: jointsAt("A2"), Mark: check.Text{Text: "J1"}, Into: check.Text{Text: "wall"}, Enters: check.Text{Text: "C2"},
		Kind: check.CleatJoint, Count: check.Exact(n).At(jointsAt("E2"))}}
	return j
}

func TestJoints(t *testing.T) {
	mated := lapped(8, 2, 4)
	back := *mated.Joints[0]
	back.Into, back.Enters, back.Count, back.Row = back.Enters, back.Into, check.Exact(6), jointsAt("A3")
	mated.Joints = append(mated.Joints, &back)
	misread := lapped(6, 2, 4, 10, 20, 30, 40)
	right := *misread.Joints[0]
	right.Into, right.Enters, right.Count, right.Row, right.At = right.Enters, right.Into, check.Exact(8), jointsAt("A3"), nil
	misread.Joints = append(misread.Joints, &right)
	uncounted := lapped(8, 2, 4)
	uncounted.Joints[0].Count = check.Value{}
	rabbet := lapped(1, 2, 1)
	rabbet.Joints[0].Kind = check.Rabbet
	housed := lapped(4, 2, 4, 10, 20, 30, 40)
	housed.Joints[0].Kind = check.Dado
	expect(t, Joints, []expected{
		{"4 heights on 2 uprights", "2 x 4", lapped(8, 2, 4, 10, 20, 30, 40), ""},
		{"fewer than could be", "one shelf stops short of one upright: 6 of 8, 3 a piece", lapped(6, 2, 4), ""},
		{"one too many", "2 x 4 is 8", lapped(9, 2, 4, 10, 20, 30, 40), "HOLD Joint J1: 9 crossings typed; positions on 2 pieces make 8"},
		{"more than pieces can cross", "3 x 4 is 12 at most", lapped(15, 3, 4), "HOLD Joint J1: 15 crossings typed; the pieces can cross 12 times at most"},
		{"no whole number a piece", "7 on 2", lapped(7, 2, 4), "HOLD Joint J1: 7 crossings on 2 pieces cut alike is no whole number a piece"},
		{"counted on each piece", "4 on each of 2", lapped(4, 2, 4, 10, 20, 30, 40), "VERIFY Joint J1: 4 crossings typed; is that on each of the 2 pieces? In all there are 8"},
		{"mating rows disagree", "8 and 6", mated, "HOLD Joint J1: 6 crossings typed; the row of the mating part says 8"},
		{"one row wrong by itself", "6, not 2 x 4; the mating row is right", misread, "HOLD Joint J1: 6 crossings typed; positions on 2 pieces make 8"},
		{"dados counted by the shelves", "4 shelves in 2 sides", housed, "VERIFY Joint J1: 4 crossings typed; is that on each of the 2 pieces? In all there are 8"},
		{"nobody counted", "", uncounted, ""},
		{"each cleat screwed on", "8 of 8", cleated(8), ""},
		{"two cleats hang on nothing", "6 of 8", cleated(6), "VERIFY C2: 6 joints screw it on; there are 8 of it"},
		{"a cleat screwed to two things", "10 joints, 8 cleats", cleated(10), ""},
		{"a rabbet runs all round", "", rabbet, ""},
		{"hands pair up", "", job(hand(qty(sized("D1", check.Side, 2, 80, 12, .75), 1), "L"), hand(qty(sized("D2", check.Side, 3, 80, 12, .75), 1), "R")), ""},
		{"two left sides to one right", "", job(hand(qty(sized("D1", check.Side, 2, 80, 12, .75), 2), "L"), hand(qty(sized("D2", check.Side, 3, 80, 12, .75), 1), "R")),
			"VERIFY D1: 2 left and 1 right among the sides of the case"},
		{"a finished end is no hand", "", job(hand(qty(sized("D1", check.Side, 2, 80, 12, .75), 2), "L")), ""},
		{"a lone door has one hand", "", job(hand(qty(sized("D1", check.Door, 2, 80, 12, .75), 1), "L")), ""},
		{"sides without a hand", "", job(sized("D1", check.Side, 2, 80, 12, .75)), ""},
	})
}

func grained(p *check.Part, material, grain string) *check.Part {
	p.Material.Text, p.Grain.Text = material, grain
	return p
}

// Sheets by common practice: MDF 49 x 97, 49 x 121 and 61 x 97; hardwood plywood 48 x 96 and
// 48 x 120; trim 1/4 on each edge.
func TestStock(t *testing.T) {
	layered := sized("L1", check.Shelf, 2, 130, 12, 1.5)
	layered.Layers = []check.Layer{{Count: check.Exact(2), Thickness: check.Exact(.75)}}
	total := func(n float64, ps ...*check.Part) *check.Job {
		j := job(ps...)
		j.Totals = []check.Total{{From: check.Cell{Book: "b", Tab: "Parts", Addr: "A9"}, Sheets: check.Exact(n).At(check.Cell{Book: "b", Tab: "Parts", Addr: "F9"})}}
		return j
	}
	panel := func() *check.Part { return qty(sized("P1", check.Side, 2, 60, 40, .75), 4) }
	expect(t, Stock, []expected{
		{"out of the long sheet", "120.5 and 48.5 are left of 121 x 49", job(sized("A1", check.Shelf, 2, 120.5, 48.5, .75)), ""},
		{"a hair over", "120.6 > 121 - .5", job(sized("A1", check.Shelf, 2, 120.6, 12, .75)), "VERIFY A1 (2 of them): no MDF sheet gives 120 19/32 x 12 in; largest 121 x 49 in"},
		{"grain along", "", job(grained(sized("A1", check.Shelf, 2, 90, 14, .75), "birch ply", "L")), ""},
		{"grain across", "60 across a sheet of 48 or 60 less trim", job(grained(sized("A1", check.Shelf, 2, 70, 14, .75), "3/4 hardwood plywood", "W")),
			"HOLD A1 (2 of them): no hardwood plywood sheet gives 14 x 70 in with this grain; turned it would"},
		{"solid wood is glued up", "", job(grained(sized("A1", check.Shelf, 2, 130, 20, .75), "red oak", "L")), ""},
		{"layers are jointed", "", job(layered), ""},
		{"a back is made of pieces", "", job(sized("A1", check.Back, 2, 93, 95, .25)), ""},
		{"enough sheets", "4 of 60 x 40: two to a sheet of 61 x 97 or 49 x 121", total(2, panel()), ""},
		{"counted over two materials", "2 and 1; the count may be of one", total(1, panel(), sized("A2", check.Side, 3, 30, 12, .5)),
			"VERIFY The total of sheets: 1 sheet counted; the parts above take 3 at least"},
		{"one sheet short", "two of 60 x 40 to a sheet, 4 wanted", total(1, panel()), "HOLD The total of sheets: 1 sheet counted; the parts above take 2 at least"},
	})
}

func TestStockNeverCallsMoreSheetsThanOneAPart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sized("P1", check.Side, 2, rapid.Float64Range(10, 90).Draw(t, "l"), rapid.Float64Range(5, 48).Draw(t, "w"), .75)
		n := rapid.IntRange(1, 9).Draw(t, "n")
		qty(p, float64(n))
		if b := leastSheets(job(p), []*check.Part{p}); b.sheets > n || float64(b.sheets) < b.area {
			t.Fatalf("%d sheets for %d parts of area %v", b.sheets, n, b.area)
		}
	})
}

func TestFormulas(t *testing.T) {
	at := check.Cell{Book: "b", Tab: "Parts", Addr: "B2"}
	broken := func(u check.Unread) *check.Job {
		j := job(sized("A1", check.Shelf, 2, 30, 11, .75))
		j.Parts[0].Qty = check.Value{}
		u.Cell, u.Mark = at, "A1"
		j.Unread = []check.Unread{u}
		return j
	}
	hidden := job(sized("A1", check.Shelf, 2, 30, 11, .75), sized("A2", check.Shelf, 3, 31, 11, .75))
	hidden.Parts[1].Hidden = true
	expect(t, Formulas, []expected{
		{"sound", "", job(sized("A1", check.Shelf, 2, 30, 11, .75)), ""},
		{"a reference is lost", "", broken(check.Unread{Text: "#REF!", Wants: "quantity", Why: "the cell shows the formula error #REF!"}), "HOLD A1: quantity shows #REF!"},
		{"never calculated", "", broken(check.Unread{Formula: true, Wants: "quantity"}), "HOLD A1: quantity was never calculated"},
		{"in a column of the office's own", "", broken(check.Unread{Text: "#N/A"}), ""},
		{"a hidden row", "", hidden, "VERIFY Parts: 1 part on hidden rows; are they to be cut?"},
	})
	lost := broken(check.Unread{Text: "#REF!", Wants: "quantity"})
	if got := says(Read, lost); got != "" {
		t.Errorf("schedule.read says %q too, want nothing: one cause, one line", got)
	}
}

func TestTotals(t *testing.T) {
	total := func(n float64, ps ...*check.Part) *check.Job {
		j := job(ps...)
		j.Totals = []check.Total{{From: check.Cell{Book: "b", Tab: "Parts", Addr: "A9"}, Pieces: check.Exact(n).At(check.Cell{Book: "b", Tab: "Parts", Addr: "C9"}), Rows: len(ps)}}
		return j
	}
	parted := func(n float64) *check.Job {
		j := total(n, sized("A1", check.Shelf, 2, 30, 11, .75), sized("A2", check.Shelf, 5, 31, 11, .75), sized("A3", check.Shelf, 7, 31, 11, .75))
		j.Totals[0].Rows = 1
		j.Totals = append(j.Totals, check.Total{From: check.Cell{Book: "b", Tab: "Parts", Addr: "A3"}})
		return j
	}
	hinge := sized("H1", check.NotAPart, 4, 0, 0, 0)
	unknown := sized("A3", check.Shelf, 4, 30, 11, .75)
	unknown.Qty = check.Value{}
	below := total(4, sized("A1", check.Shelf, 2, 30, 11, .75), sized("A2", check.Shelf, 3, 31, 11, .75), sized("A9", check.Shelf, 12, 31, 11, .75))
	below.Totals[0].Rows = 2
	expect(t, Totals, []expected{
		{"two rows of two", "2 + 2", total(4, sized("A1", check.Shelf, 2, 30, 11, .75), sized("A2", check.Shelf, 3, 31, 11, .75)), ""},
		{"one too many", "2 + 2 is not 5", total(5, sized("A1", check.Shelf, 2, 30, 11, .75), sized("A2", check.Shelf, 3, 31, 11, .75)), "VERIFY The total: says 5 pieces, the rows above make 4"},
		{"hardware counted in", "2 + 2", total(4, sized("A1", check.Shelf, 2, 30, 11, .75), hinge), ""},
		{"rows counted", "3 rows of 2", total(3, sized("A1", check.Shelf, 2, 30, 11, .75), sized("A2", check.Shelf, 3, 31, 11, .75), sized("A4", check.Shelf, 5, 31, 11, .75)), ""},
		{"since the total before", "2, then 2 + 2 of two tables", parted(4), ""},
		{"since the total before, one short", "2 + 2", parted(5), "VERIFY The total: says 5 pieces, the rows above make 4"},
		{"a row without a quantity", "told elsewhere", total(4, sized("A1", check.Shelf, 2, 30, 11, .75), unknown), ""},
		{"rows below it are not its own", "", below, ""},
		{"no total", "", job(sized("A1", check.Shelf, 2, 30, 11, .75)), ""},
	})
}

func TestSizeKind(t *testing.T) {
	nosed := func(mark string, row int, width float64, kind check.SizeKind) *check.Part {
		p := sized(mark, check.Shelf, row, 30, width, .75)
		p.Size, p.Banded = kind, []check.Edge{{On: "front", Thickness: check.Exact(.75)}}
		return p
	}
	side := sized("B1", check.Side, 9, 80, 12, .75)
	side.Size = check.UnsaidSize
	tape := nosed("A1", 2, 11, check.UnsaidSize)
	tape.Banded[0].Thickness = check.Exact(.02)
	asked := "VERIFY Parts: cut or finished is unsaid; strips make up to 3/4 in of difference on A1"
	expect(t, SizeKind, []expected{
		{"said", "", job(nosed("A1", 2, 11, check.FinishedSize)), ""},
		{"unsaid, one question a tab", "", job(nosed("A1", 2, 11, check.UnsaidSize), nosed("A2", 3, 11, check.UnsaidSize)), asked},
		{"finished closes the case", "12 and 12", job(nosed("A1", 2, 12, check.UnsaidSize), side), ""},
		{"cut closes the case", "11.25 + .75 = 12", job(nosed("A1", 2, 11.25, check.UnsaidSize), side), asked},
		{"tape does not matter", ".02 under 1/32", job(tape), ""},
		{"no strips", "", job(side), ""},
	})
}

func TestOddOne(t *testing.T) {
	six := func(change func(ps []*check.Part)) *check.Job {
		var ps []*check.Part
		for i := range 6 {
			p := sized(fmt.Sprint("A", i+1), check.Shelf, i+2, 30+float64(i), 11, .75)
			p.Finish.Text = "paint"
			ps = append(ps, p)
		}
		change(ps)
		return job(ps...)
	}
	small := func(divider, top string) *check.Job {
		return job(sized("A1", check.Side, 2, 34, 18, .75), grained(sized("A2", check.Head, 3, 46, 18, .75), top, ""),
			sized("A3", check.Sill, 4, 46, 18, .75), grained(sized("A4", check.Divider, 5, 33, 17, .75), divider, ""))
	}
	turned := job(sized("A1", check.Shelf, 2, 34, 11, .75), sized("A2", check.Shelf, 3, 11, 34, .75))
	digits := job(sized("A1", check.Upright, 2, 93.875, 11, 1.5), sized("A2", check.Upright, 3, 39.875, 11, 1.5), sized("A3", check.Upright, 4, 93.875, 11, 1.5))
	honest := job(sized("A1", check.Upright, 2, 63.875, 11, 1.5), sized("A2", check.Upright, 3, 39.875, 11, 1.5), sized("A3", check.Upright, 4, 63.875, 11, 1.5))
	expect(t, OddOne, []expected{
		{"all alike", "", six(func([]*check.Part) {}), ""},
		{"one in another wood", "5 of 5", six(func(ps []*check.Part) { ps[3].Material.Text = "poplar" }), "VERIFY A4: material poplar, all others of the case mdf; no note says why"},
		{"a note says why", "", six(func(ps []*check.Part) { noted(ps[3], "behind glass").Material.Text = "poplar" }), ""},
		{"two in another wood", "meant", six(func(ps []*check.Part) { ps[3].Material.Text, ps[4].Material.Text = "poplar", "poplar" }), ""},
		{"one finish", "", six(func(ps []*check.Part) { ps[0].Finish.Text = "clear" }), "VERIFY A1: finish clear, all others of the case paint; no note says why"},
		{"one depth", "", six(func(ps []*check.Part) { ps[5].Width = check.Exact(10.5).At(ps[5].Width.From) }), "VERIFY A6: depth 10 1/2 in, all others of the case 11 in; no note says why"},
		{"no two thirds agree", "3 of 5 alike", six(func(ps []*check.Part) {
			ps[1].Material.Text, ps[2].Material.Text, ps[3].Material.Text = "poplar", "birch ply", "maple"
		}), ""},
		{"three rows are too few", "2 others", job(sized("A1", check.Shelf, 2, 30, 11, .75), sized("A2", check.Shelf, 3, 31, 11, .75), grained(sized("A4", check.Shelf, 5, 33, 11, .75), "poplar", "")), ""},
		{"a divider in another wood than the rest", "3 of 3 others", small("walnut", "MDF"), "VERIFY A4: material walnut, all others of the case mdf; no note says why"},
		{"a small case of several stuffs", "2 of 3 others alike: not all", small("walnut", "poplar"), ""},
		{"three others of another depth", "depths differ more readily", job(sized("A1", check.Shelf, 2, 30, 11, .75), sized("A2", check.Shelf, 3, 31, 11, .75), sized("A3", check.Shelf, 4, 32, 11, .75), sized("A4", check.Shelf, 5, 33, 10, .75)), ""},
		{"length and width swapped", "", turned, "VERIFY A2: 11 in long and 34 in wide; A1 is the other way round"},
		{"digits swapped", "39 and 93", digits, "VERIFY A2: 39 7/8 in long, the others 93 7/8 in; digits swapped?"},
		{"another length, no swap", "39 and 63", honest, ""},
	})
}

func TestRevision(t *testing.T) {
	inTab := func(tab string, p *check.Part) *check.Part {
		for _, c := range []*check.Cell{&p.Row, &p.Mark.From, &p.Length.From} {
			c.Tab = tab
		}
		return p
	}
	set := func(tab string, lengths ...float64) []*check.Part {
		var out []*check.Part
		for i, l := range lengths {
			out = append(out, inTab(tab, sized(fmt.Sprint("A", i+1), check.Shelf, i+2, l, 11, .75)))
		}
		return out
	}
	live := job(append(set("Parts", 30, 31, 32, 33), set("Rev B", 30, 31, 32, 34)...)...)
	twice := job(append(set("Parts", 30, 31, 32), set("Parts again", 30, 31, 32)...)...)
	restart := job(append(set("Den", 30, 31, 32), set("Hall", 40, 41, 42)...)...)
	copied := job(set("Parts", 30, 31, 32)...)
	copied.Old = set("Parts (2)", 30, 31, 35)
	copied.Books = []check.Book{{Path: "b", Tabs: []check.Tab{{Name: "Parts (2)", Why: "its name says that it is a copy"}}}}
	old := job(set("Parts", 30, 31, 32)...)
	old.Old, old.Books = copied.Old, []check.Book{{Path: "b", Tabs: []check.Tab{{Name: "Parts (2)", Why: "its name says that it is superseded"}}}}
	expect(t, Revision, []expected{
		{"one mark of four differs", "", live, "HOLD Rev B: 1 of 4 marks have other sizes than in Parts"},
		{"nothing differs", "", twice, "VERIFY Parts again: bears the same 3 marks as Parts; cut once or twice?"},
		{"marks start again in each room", "", restart, ""},
		{"the copy may be the newer", "", copied, "VERIFY Parts (2): set aside as a copy, but 1 sizes differ from Parts; which is newer?"},
		{"superseded by its name", "", old, ""},
		{"one tab", "", job(set("Parts", 30, 31, 32)...), ""},
	})
	if got := says(Marks, live); got != "" {
		t.Errorf("schedule.marks says %q too, want nothing: one cause, one line", got)
	}
}

// An inch job and the same in millimetres end in the same words of verdict.
func TestInchAndMillimetreAgree(t *testing.T) {
	checks := []*check.Check{Joints, Stock, Formulas, Totals, SizeKind, OddOne, Revision}
	rapid.Check(t, func(t *rapid.T) {
		build := func(k float64) *check.Job {
			var ps []*check.Part
			for i := range 5 {
				p := sized(fmt.Sprint("A", i+1), check.Shelf, i+2, 30*k, 11*k, .75*k)
				ps = append(ps, p)
			}
			j := job(ps...)
			if k != 1 {
				j.Unit = length.Millimetre
			}
			return j
		}
		at := rapid.IntRange(0, 4).Draw(t, "at")
		x := rapid.SampledFrom([]float64{10, 11, 30, 60}).Draw(t, "size")
		var verdicts []string
		for _, k := range []float64{1, 25.4} {
			j := build(k)
			j.Parts[at].Width = check.Exact(x * k)
			rep := check.Examine(checks, j, nil)
			var ids []string
			for _, f := range rep.Findings {
				ids = append(ids, f.Verdict.String()+" "+f.ID)
			}
			verdicts = append(verdicts, strings.Join(ids, ", "))
		}
		if verdicts[0] != verdicts[1] {
			t.Fatalf("inches %q, millimetres %q", verdicts[0], verdicts[1])
		}
	})
}

// By hand, for a sheet of 97 x 49 with 1/4 trimmed all round: 96.5 x 48.5 are left.
func TestSpareOfASheet(t *testing.T) {
	for _, c := range []struct{ l, w, turns, want float64 }{
		{40, 48.75, 0, -.25}, {96.75, 10, 0, -.25}, {96, 48, 0, .5},
		{48.75, 40, 1, 8.5}, {40, 96.75, 1, -.25}, {48.75, 90, 1, -.25}, {48, 96.25, 1, .25}, {48.25, 90, 1, .25},
	} {
		got, err := Stock.Work(map[string]float64{"l": c.l, "w": c.w, "S": 97, "W": 49, "e": .25, "t": c.turns, "N": 0, "B": 0, "A": 1.2})
		if err != nil || got["m"] != c.want || got["R"] != 2 {
			t.Errorf("%v x %v, turns %v: %v (%v), want %v", c.l, c.w, c.turns, got["m"], err, c.want)
		}
	}
}

// By hand: one mark of four differs; live twice the other three would be cut twice as well.
func TestMarginOfVersions(t *testing.T) {
	for live, want := range map[float64]float64{1: -4, 0: -1} {
		got, err := Revision.Work(map[string]float64{"n": 4, "d": 1, "l": live})
		if err != nil || got["m"] != want || got["s"] != 3 {
			t.Errorf("live twice %v: %v (%v), want %v", live, got["m"], err, want)
		}
	}
}

// A size of few of its role is held against its case and its opening. By hand: 267 is over 2.5
// times 84, and over 144, the longest sheet; 267/26.7 is 10; 1.5 times 96 is 144.
func TestSizesOutOfProportion(t *testing.T) {
	box := func(shelves ...*check.Part) *check.Job {
		j := job(append([]*check.Part{sized("A1", check.Side, 2, 84, 12, .75), sized("A2", check.Head, 3, 26, 12, .75), sized("A3", check.Back, 4, 83, 27, .25)}, shelves...)...)
		for _, p := range j.Parts {
			p.Case = check.Text{Text: "A"}
		}
		return j
	}
	opened := func(j *check.Job) *check.Job {
		j.Openings = []*check.Opening{{Name: check.Text{Text: "A"}, Widths: []check.Reading{{Value: check.Exact(96)}}}}
		return j
	}
	expect(t, Units, []expected{
		{"ten times too long beside one other", "267 > 2.5 x 84", box(sized("A4", check.Shelf, 5, 26.7, 11, .75), sized("A5", check.Shelf, 6, 267, 11, .75)),
			"HOLD A5: length 267 in; the longest beside it is 84 in: another unit, or a decimal point?"},
		{"alone of its role", "", box(sized("A5", check.Shelf, 6, 267, 11, .75)),
			"HOLD A5: length 267 in; the longest beside it is 84 in: another unit, or a decimal point?"},
		{"a width in millimetres", "280 > 2.5 x 84", box(sized("A5", check.Shelf, 6, 26, 280, .75)),
			"HOLD A5: width 280 in; the longest beside it is 84 in: another unit, or a decimal point?"},
		{"longer than its opening", "160 < 2.5 x 84, but over 144 and 1.5 x 96", opened(box(sized("A5", check.Shelf, 6, 160, 11, .75))),
			"HOLD A5: length 160 in; the opening is 96 in: another unit, or a decimal point?"},
		{"long, but a board is sold so long", "120 < 144", opened(box(sized("A5", check.Shelf, 6, 120, 11, .75))), ""},
		{"a pair of which the small one goes with nothing", "26.5/2.65 = 10; 2.65 x 3 < 26", box(sized("A4", check.Shelf, 5, 26.5, 11, .75), sized("A5", check.Shelf, 6, 2.65, 11, .75)),
			"VERIFY A5: length 2.65 in, the others 26 1/2 in: decimal point out of place?"},
		{"two alike are meant", "", box(sized("A4", check.Shelf, 5, 267, 11, .75), sized("A5", check.Shelf, 6, 267, 11, .75)), ""},
		{"a crown runs along the wall", "", box(sized("A6", check.Trim, 7, 267, 3, .75)), ""},
	})
}
