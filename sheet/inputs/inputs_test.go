package inputs

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"dryfit/check"
	"dryfit/check/catalogue"
	"dryfit/check/infer"
	"dryfit/check/standard"
	"dryfit/sheet/draft"
	"dryfit/sheet/office"
	"dryfit/sheet/read"
)

// niche is a lapped grid in a case: nothing but a schedule.
const niche = `== Parts
Mark | Part | Case | Qty | L | W | T | Material | Finish | Note
K1 | Side | Map niche | 2 | 88 | 13 | 3/4 | MDF | paint | screwed to the studs at the top
K2 | Top and bottom | Map niche | 2 | 58 | 13 | 3/4 | MDF | paint | between sides
K3 | Shelf, lam. | Map niche | 4 | 57 7/8 | 12 1/4 | 1 1/2 | 2 x 3/4 MDF | paint | books
K4 | Upright, lam. | Map niche | 2 | 86 3/8 | 12 1/4 | 1 1/2 | 2 x 3/4 MDF | paint |
`

// metric is a case of adjustable shelves in millimetres.
const metric = `== Parts
Mark | Part | Case | Qty | Length mm | Width mm | Thickness mm | Material | Finish | Note
G1 | Side | Glaze rack | 2 | 1980 | 420 | 19 | MDF | paint |
G2 | Top and bottom | Glaze rack | 2 | 912 | 420 | 19 | MDF | paint | between sides
G3 | Adj. shelf | Glaze rack | 5 | 910 | 400 | 19 | MDF | paint |
`

// other is a second case for the niche.
const other = `M1 | Side | Chart desk | 2 | 30 | 20 | 3/4 | MDF | paint |
M2 | Top and bottom | Chart desk | 2 | 40 | 20 | 3/4 | MDF | paint | between sides
M3 | Adj. shelf | Chart desk | 2 | 39 7/8 | 19 | 3/4 | MDF | paint |
`

func drafted(t *testing.T, text string) []byte {
	t.Helper()
	data, err := draft.Workbook(text)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// examined is the report on a schedule and the input workbooks beside it, as the commands
// make it.
func examined(t *testing.T, schedule string, inputs ...[]byte) *check.Report {
	t.Helper()
	files := append([][]byte{drafted(t, schedule)}, inputs...)
	var books []*read.Book
	for i, data := range files {
		b, err := read.Open(fmt.Sprintf("job/%d.xlsx", i), data, nil)
		if err != nil {
			t.Fatal(err)
		}
		books = append(books, b)
	}
	j, err := read.Job("map room", "job", books, standard.BuiltIn())
	if err != nil {
		t.Fatal(err)
	}
	for i, data := range files[1:] {
		if err := Settle(j, fmt.Sprintf("job/%d.xlsx", i+1), data); err != nil {
			t.Fatal(err)
		}
	}
	infer.Complete(j)
	return check.Examine(catalogue.All, j, nil)
}

func written(t *testing.T, rep *check.Report, old []byte) []byte {
	t.Helper()
	data, _, err := Write(rep, old)
	if err != nil {
		t.Fatal(err)
	}
	if data == nil {
		t.Fatal("nothing was written")
	}
	return data
}

func open(t *testing.T, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func saved(t *testing.T, f *excelize.File) []byte {
	t.Helper()
	b, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func typeIn(t *testing.T, data []byte, cells map[string]string) []byte {
	t.Helper()
	f := open(t, data)
	for place, text := range cells {
		tab, cell, _ := strings.Cut(place, "!")
		if err := f.SetCellStr(tab, cell, text); err != nil {
			t.Fatal(err)
		}
	}
	return saved(t, f)
}

// verdicts counts the coverage of a report by verdict.
func verdicts(rep *check.Report) map[check.Verdict]int {
	out := map[check.Verdict]int{}
	for _, c := range rep.Coverage {
		out[c.Verdict]++
	}
	return out
}

// answers are what the test writes into the boxes, by the point or else by the header word.
var answers = map[string]map[string]string{
	"inch": {
		"Floor finish?": "Y", "Plastered?": "Y", "Ceiling": "98", "Baseboard": "5 1/4 x 5/8", "Crown": "none",
		"Width at floor": "60 1/4", "Width at middle": "60 5/16", "Width at top": "60 1/4",
		"Height left": "90", "Height middle": "90 1/16", "Height right": "90", "Depth left": "14", "Depth right": "14 1/16",
		"Diagonal LB-RT": "108 1/4", "Diagonal RB-LT": "108 5/16",
		"Plumb left": "1/16 out at top in 84", "Plumb right": "0", "Plumb back": "0", "Level floor": "1/16 low R in 60", "Level head": "0",
		"Crew": "3", "Truck": "84|80|190", "Front door": "35 1/2|79 1/2|", "Hall": "40||", "Inner door": "31|79|",
		"measured by": "P.", "slot width (in)": "1 17/32", "depth in slotted part (in)": "6 1/8", "depth in part that goes in (in)": "6 1/8",
		"fit": "slip", "confirmed": "yes", "kind of load": "books",
	},
	"mm": {
		"Floor finish?": "Y", "Plastered?": "Y", "Ceiling": "2500", "Baseboard": "none", "Crown": "none",
		"Width at floor": "970", "Width at middle": "971", "Width at top": "970",
		"Height left": "2040", "Height middle": "2041", "Height right": "2040", "Depth left": "450", "Depth right": "451",
		"Diagonal LB-RT": "2258", "Diagonal RB-LT": "2259",
		"Plumb left": "2 out at top in 2000", "Plumb right": "0", "Plumb back": "0", "Level floor": "2 low R in 900", "Level head": "0",
		"Crew": "2", "Truck": "2000|2000|4000", "Front door": "900|2010|", "Hall": "1100||", "Inner door": "800|2000|",
		"measured by": "P.", "confirmed": "yes", "kind of load": "display",
	},
}

// fillBoxes fills every box in the colour of a box to be filled, and fails on one it has no
// answer for.
func fillBoxes(t *testing.T, data []byte, answer map[string]string) []byte {
	t.Helper()
	f := open(t, data)
	for _, tab := range f.GetSheetList() {
		if tab == startName || tab == formName {
			continue
		}
		rows, err := f.GetRows(tab)
		if err != nil {
			t.Fatal(err)
		}
		var heads []string
		for n, cells := range rows {
			for c := range 16 {
				cell := at(c+1, n+1)
				if !sandy(t, f, tab, cell) {
					continue
				}
				text := ""
				for _, key := range []string{textAt(heads, c), textAt(cells, 1), textAt(cells, 0)} {
					if a, ok := answer[key]; ok {
						text = a
						break
					}
				}
				if sizes := strings.Split(text, "|"); len(sizes) == 3 {
					text = sizes[c-2]
				}
				if text == "" {
					t.Fatalf("no answer for %s!%s under %q in %q", tab, cell, textAt(heads, c), cells)
				}
				if err := f.SetCellStr(tab, cell, text); err != nil {
					t.Fatal(err)
				}
			}
			if len(cells) > 4 && heads == nil {
				heads = cells
			}
		}
	}
	return saved(t, f)
}

func sandy(t *testing.T, f *excelize.File, tab, cell string) bool {
	t.Helper()
	id, err := f.GetCellStyle(tab, cell)
	if err != nil {
		t.Fatal(err)
	}
	style, err := f.GetStyle(id)
	if err != nil {
		t.Fatal(err)
	}
	return len(style.Fill.Color) == 1 && strings.EqualFold(style.Fill.Color[0], sand)
}

// With every box filled, nothing is left unchecked, and nothing counts as a guess of ours.
func TestEveryBoxFilled(t *testing.T) {
	for _, c := range []struct{ name, schedule, unit string }{{"inch", niche, "inch"}, {"metric", metric, "mm"}} {
		t.Run(c.name, func(t *testing.T) {
			before := examined(t, c.schedule)
			if verdicts(before)[check.NotChecked] == 0 {
				t.Fatal("nothing is unchecked to begin with")
			}
			after := examined(t, c.schedule, fillBoxes(t, written(t, before, nil), answers[c.unit]))
			for _, f := range after.Findings {
				if f.Verdict == check.NotChecked {
					t.Errorf("%s: %s -> %s", f.ID, f.Text, f.Fix)
				}
			}
			if n := verdicts(after)[check.NotChecked]; n > 0 {
				t.Errorf("%d of the coverage are not checked", n)
			}
			for _, jt := range after.Job.Joints {
				if jt.Inferred {
					t.Errorf("joint %s is still a guess", jt.Mark)
				}
			}
			if after.Job.Carry == nil || len(after.Job.Openings) != 1 || len(after.Job.Runs) == 0 || len(after.Job.Loads) == 0 {
				t.Errorf("carry %v, %d openings, %d runs, %d loads were read", after.Job.Carry, len(after.Job.Openings), len(after.Job.Runs), len(after.Job.Loads))
			}
			if data, done, err := Write(after, nil); err != nil || data != nil {
				t.Errorf("asked again for %v (%v)", done, err)
			}
		})
	}
}

// Every reading that the form asks for arrives where it belongs.
func TestReadingsArrive(t *testing.T) {
	rep := examined(t, niche, fillBoxes(t, written(t, examined(t, niche), nil), answers["inch"]))
	o := rep.Job.Openings[0]
	var got []string
	for _, rs := range [][]check.Reading{o.Widths, o.Heights, o.Depths, o.Diagonals} {
		for _, r := range rs {
			got = append(got, fmt.Sprintf("%s %s", r.At, rep.Job.Len(r.Value.Nominal)))
		}
	}
	for _, l := range o.Leans {
		got = append(got, fmt.Sprintf("%s %s over %s", l.Of, rep.Job.Len(l.Offset.Nominal), rep.Job.Len(l.Over.Nominal)))
	}
	want := []string{"floor 60 1/4 in", "middle 60 5/16 in", "top 60 1/4 in", "left 90 in", "middle 90 1/16 in", "right 90 in",
		"left 14 in", "right 14 1/16 in", "LB-RT 108 1/4 in", "RB-LT 108 5/16 in",
		"left 1/16 in over 84 in", "right 0 in over 0 in", "back 0 in over 0 in", "floor 1/16 in over 60 in", "head 0 in over 0 in"}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if o.By.Text != "P." || rep.Job.Len(o.Ceiling.Nominal) != "98 in" || rep.Job.Len(o.Base.Nominal) != "5 1/4 in" || !o.Crown.Known || o.Crown.Nominal != 0 {
		t.Errorf("by %q, ceiling %v, base %v, crown %v", o.By, o.Ceiling.Nominal, o.Base.Nominal, o.Crown)
	}
	if d := cmp.Diff([]string{"floor", "walls"}, o.Settled); d != "" {
		t.Error(d)
	}
	var stops []string
	for _, s := range rep.Job.Carry.Stops {
		stops = append(stops, fmt.Sprintf("%s %s: %g x %g x %g", s.Kind, s.Name, s.Width.Nominal, s.Height.Nominal, s.Length.Nominal))
	}
	if d := cmp.Diff([]string{"vehicle Truck: 84 x 80 x 190", "door Front door: 35.5 x 79.5 x 0", "hall Hall: 40 x 0 x 0", "door Inner door: 31 x 79 x 0"}, stops); d != "" {
		t.Error(d)
	}
	if rep.Job.Carry.Crew.Nominal != 3 {
		t.Errorf("crew %v, want 3", rep.Job.Carry.Crew.Nominal)
	}
}

// A fresh workbook of guesses and empty boxes changes no verdict.
func TestGuessesDecideNothing(t *testing.T) {
	for _, schedule := range []string{niche, niche + other, metric} {
		before := examined(t, schedule)
		after := examined(t, schedule, written(t, before, nil))
		if d := cmp.Diff(verdicts(before), verdicts(after)); d != "" {
			t.Error(d)
		}
		for _, b := range after.Job.Books[1:] {
			for _, tab := range b.Tabs {
				if tab.Kind != "ignored" && tab.Kind != tab.Name {
					t.Errorf("the tab %s was read as %s", tab.Name, tab.Kind)
				}
			}
		}
	}
}

// What makes a guess count: yes, or another word typed over it.
func TestConfirming(t *testing.T) {
	fresh := written(t, examined(t, niche), nil)
	for _, c := range []struct {
		name                string
		typed               map[string]string
		joint, load, runs   string // guess or typed
		width, kind, amount string
	}{
		{name: "nothing typed", joint: "guess", load: "guess", runs: "guess", kind: "books"},
		{name: "yes", typed: map[string]string{"joints!M6": "yes", "loads!E6": "Yes", "runs!F6": "x"}, joint: "typed", load: "typed", runs: "typed", kind: "books"},
		{name: "no", typed: map[string]string{"joints!M6": "no", "loads!E6": "?", "runs!F6": "-"}, joint: "guess", load: "guess", runs: "guess", kind: "books"},
		{name: "typed over", typed: map[string]string{"joints!E6": "6", "loads!B6": "linen", "runs!C6": "K1 + K3 + K1"}, joint: "typed", load: "typed", runs: "typed", kind: "linen"},
		{name: "a width beside a guess", typed: map[string]string{"joints!F6": "1 9/16"}, joint: "guess", load: "guess", runs: "guess", kind: "books", width: "1 9/16 in"},
		{name: "an amount beside a guess", typed: map[string]string{"loads!C6": "12 lb/ft"}, joint: "guess", load: "typed", runs: "guess", kind: "books", amount: "12 lb/ft"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := examined(t, niche, typeIn(t, fresh, c.typed)).Job
			if len(j.Joints) != 1 || len(j.Loads) != 1 {
				t.Fatalf("%d joints and %d loads, want one of each", len(j.Joints), len(j.Loads))
			}
			said := map[bool]string{true: "guess", false: "typed"}
			runs := said[len(j.Runs) == 0]
			if d := cmp.Diff([]string{c.joint, c.load, c.runs}, []string{said[j.Joints[0].Inferred], said[j.Loads[0].Inferred], runs}); d != "" {
				t.Error(d)
			}
			if j.Joints[0].Count.Guessed != (c.joint == "guess") {
				t.Errorf("the number of crossings is a guess: %v", j.Joints[0].Count.Guessed)
			}
			if got := j.Loads[0].Kind.Text; got != c.kind {
				t.Errorf("load %q, want %q", got, c.kind)
			}
			if w := j.Joints[0].Width; w.Known != (c.width != "") || w.Known && j.Len(w.Nominal) != c.width {
				t.Errorf("slot %v, want %q", w, c.width)
			}
			if a := j.Loads[0].Amount; a.Known != (c.amount != "") || a.Known && check.LineLoad.Print(a.Nominal, j.Unit) != "12.0 lb/ft" {
				t.Errorf("amount %v, want %q", a, c.amount)
			}
		})
	}
}

// A joint schedule of the office makes our guesses about crossings needless.
func TestOfficeJointsRule(t *testing.T) {
	fresh := written(t, examined(t, niche), nil)
	j := examined(t, niche+"== Joints\nJt | In | Rcvs | Type | No. | Slot W | Fit\nJ9 | K4 | K3 | cross lap | 8 | 1 17/32 | slip\n", fresh).Job
	if len(j.Joints) != 1 || j.Joints[0].Mark.Text != "J9" {
		t.Errorf("%d joints, the first %v", len(j.Joints), j.Joints[0].Mark)
	}
}

// A guess about crossings follows the schedule until it is confirmed, and goes with its parts.
func TestGuessFollowsTheSchedule(t *testing.T) {
	fresh := written(t, examined(t, niche), nil)
	five := strings.Replace(niche, "K3 | Shelf, lam. | Map niche | 4", "K3 | Shelf, lam. | Map niche | 5", 1)
	for _, c := range []struct {
		name, schedule string
		typed          map[string]string
		want           []float64 // crossings of each joint
	}{
		{"five shelves", five, nil, []float64{10}},
		{"five shelves, eight crossings confirmed", five, map[string]string{"joints!M6": "yes"}, []float64{8}},
		{"no upright", niche[:strings.Index(niche, "K4")], nil, nil},
		{"no upright, but a slot typed", niche[:strings.Index(niche, "K4")], map[string]string{"joints!F6": "1 9/16"}, []float64{8}},
	} {
		var got []float64
		for _, jt := range examined(t, c.schedule, typeIn(t, fresh, c.typed)).Job.Joints {
			got = append(got, jt.Count.Nominal)
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
	}
}

// Written again for a job that grew, the workbook keeps every cell that holds anything, and
// the new case comes below.
func TestNeverOverwrites(t *testing.T) {
	first := written(t, examined(t, niche), nil)
	typed := typeIn(t, first, map[string]string{
		"joints!F6": "1 9/16", "joints!A9": "my note", "loads!B6": "linen", "loads!A12": "K3", "loads!C12": "20 lb/ft",
		"site!C9": "59 7/8 tight", "site!E13": "bow", "carry!C8": "80", "carry!A18": "Loading dock door", "runs!A13": "=spare",
		"start!A30": "ask Ida", "measure form!B9": "33",
	})
	grown := niche + other
	again, done, err := Write(examined(t, grown, typed), typed)
	if err != nil {
		t.Fatal(err)
	}
	before, err := contents(open(t, typed))
	if err != nil {
		t.Fatal(err)
	}
	if err := kept(before, again); err != nil {
		t.Error(err)
	}
	f := open(t, again)
	for _, want := range []struct{ tab, text string }{{loadsName, "Chart desk"}, {siteName, "Chart desk"}, {runsName, "M1 + M2 + M1"}} {
		found, err := f.SearchSheet(want.tab, want.text)
		if err != nil || len(found) == 0 {
			t.Errorf("%q is not on %s (%v); done: %q", want.text, want.tab, err, done)
		}
	}
	third, done, err := Write(examined(t, grown, again), again)
	if err != nil || len(done) > 0 || !bytes.Equal(third, again) {
		t.Errorf("a third run wrote %q (%v)", done, err)
	}
}

// A cell that would change is never written over.
func TestKeptDemandsEveryCell(t *testing.T) {
	data := written(t, examined(t, niche), nil)
	before, err := contents(open(t, data))
	if err != nil {
		t.Fatal(err)
	}
	if err := kept(before, data); err != nil {
		t.Fatal(err)
	}
	if err := kept(before, typeIn(t, data, map[string]string{"joints!B6": "K9"})); err == nil || !strings.Contains(err.Error(), "joints!B6") {
		t.Errorf("a changed cell passed: %v", err)
	}
}

func TestSameBytes(t *testing.T) {
	a, b := written(t, examined(t, niche+other), nil), written(t, examined(t, niche+other), nil)
	if !bytes.Equal(a, b) {
		t.Error("two runs over one job differ")
	}
}

// The turning value of a width, worked by hand: two sides of 3/4 and 58 between them make 59
// 1/2; 1/8 clearance a side, one film of paint a side at its thickest, and a tape that may read
// 1/16 too much.
func TestTurningValue(t *testing.T) {
	rep := examined(t, niche)
	paint, _, _ := standard.BuiltIn().Finish("paint")
	film := rep.Job.Entry(paint.Film, check.Film).High
	want := 59.5 + 2*.125 + 2*film + .0625
	s := newSurvey(rep)
	got := s.turnings()[turnKey{"Map niche", "width"}]
	if text := "call before you leave if under " + s.figure(want, ceil); !strings.HasPrefix(got, text) {
		t.Errorf("%q, want %q", got, text)
	}
}

// Where two checks ask for one size of a case, the more demanding turning value is told; the
// run of one case and direction stands once.
func TestTwoChecksOneSize(t *testing.T) {
	rep := examined(t, niche)
	s := newSurvey(rep)
	k := turnKey{"Map niche", "width"}
	alone, rows := s.turnings()[k], len(s.runRows())
	var wide *check.Result
	for _, r := range s.results {
		if _, size := s.lacking(r); r.Check.ID == "opening.width" && size == "width" {
			wide = r
		}
	}
	if wide == nil {
		t.Fatal("no width to measure")
	}
	less := *wide
	less.Row.In = map[string]check.Value{}
	for symbol, v := range wide.Row.In {
		less.Row.In[symbol] = v
	}
	less.Row.In["R"] = check.Exact(50)
	for _, results := range [][]*check.Result{{&less, wide}, {wide, &less}} {
		s.results = results
		if got := s.turnings()[k]; got != alone {
			t.Errorf("%q, want %q", got, alone)
		}
		if n := len(s.runRows()); n != rows {
			t.Errorf("%d runs, want %d", n, rows)
		}
	}
}

func ceil(x float64) float64 {
	n := float64(int(x))
	if n < x {
		n++
	}
	return n
}

// At the turning values every size is CLEAR; 1/16 less of any one, and it is not.
func TestTurningValuesTurn(t *testing.T) {
	rep := examined(t, niche)
	fresh, s := written(t, rep, nil), newSurvey(rep)
	cellsOf := map[string][]string{"width": {"site!C11", "site!C12", "site!C13"}, "height": {"site!C14", "site!C15", "site!C16"}, "depth": {"site!C17", "site!C18"}}
	all := map[string]string{"site!D6": "P."}
	less := map[string]string{}
	for size, cells := range cellsOf {
		text := s.turnings()[turnKey{"Map niche", size}]
		var x float64
		figure, _, _ := strings.Cut(strings.TrimPrefix(text, "call before you leave if under "), ";")
		for _, part := range strings.Fields(figure) {
			var n, d float64
			if k, _ := fmt.Sscanf(part, "%g/%g", &n, &d); k == 2 {
				x += n / d
			} else if _, err := fmt.Sscanf(part, "%g", &n); err == nil {
				x += n
			}
		}
		if x == 0 {
			t.Fatalf("no figure in %q", text)
		}
		for _, c := range cells {
			all[c] = s.figure(x, ceil)
		}
		less[size] = s.figure(x-1./16, ceil)
	}
	verdict := func(typed map[string]string, size string) check.Verdict {
		for _, c := range examined(t, niche, typeIn(t, fresh, typed)).Coverage {
			if c.ID == "opening."+size {
				return c.Verdict
			}
		}
		t.Fatalf("no opening.%s", size)
		return 0
	}
	for size, cells := range cellsOf {
		if got := verdict(all, size); got != check.Clear {
			t.Errorf("%s at its turning value is %v", size, got)
		}
		short := map[string]string{}
		for k, v := range all {
			short[k] = v
		}
		short[cells[1]] = less[size]
		if got := verdict(short, size); got == check.Clear {
			t.Errorf("%s 1/16 under its turning value is still CLEAR", size)
		}
	}
}

// LibreOffice opens the workbook and saves it with its drop-downs, notes and cells, and dryfit
// reads the same in it.
func TestLibreOfficeKeepsTheWorkbook(t *testing.T) {
	data := fillBoxes(t, written(t, examined(t, niche), nil), answers["inch"])
	in := filepath.Join(t.TempDir(), "map inputs.xlsx")
	if err := os.WriteFile(in, data, 0o644); err != nil {
		t.Fatal(err)
	}
	back, err := os.ReadFile(filepath.Join(office.Convert(t, "xlsx", in), "map inputs.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	a, b := open(t, data), open(t, back)
	for _, tab := range a.GetSheetList() {
		if d := cmp.Diff(dropDowns(t, a, tab), dropDowns(t, b, tab)); d != "" {
			t.Errorf("%s, drop-downs: %s", tab, d)
		}
		if d := cmp.Diff(notes(t, a, tab), notes(t, b, tab)); d != "" {
			t.Errorf("%s, notes: %s", tab, d)
		}
	}
	if list := dropDowns(t, a, carryName); list["B4"] == "" {
		t.Errorf("no choice of a crew in %v", list)
	}
	if len(dropDowns(t, a, jointsName)) < 4 || len(notes(t, a, siteName)) < 4 {
		t.Error("hardly any drop-downs or notes were written")
	}
	if d := cmp.Diff(verdicts(examined(t, niche, data)), verdicts(examined(t, niche, back))); d != "" {
		t.Error(d)
	}
}

func dropDowns(t *testing.T, f *excelize.File, tab string) map[string]string {
	t.Helper()
	all, err := f.GetDataValidations(tab)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, v := range all {
		out[v.Sqref] = strings.ReplaceAll(v.Formula1, "&quot;", `"`)
	}
	return out
}

func notes(t *testing.T, f *excelize.File, tab string) map[string]string {
	t.Helper()
	all, err := f.GetComments(tab)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, c := range all {
		text := c.Text
		for _, run := range c.Paragraph {
			text += run.Text
		}
		out[c.Cell] = text
	}
	return out
}

// The form prints upright, a page for the way in and one for each room, the turning values on
// it.
func TestFormPrints(t *testing.T) {
	pdftotext := office.Find(t, "pdftotext", "poppler-utils")
	data := written(t, examined(t, niche+other), nil)
	f := open(t, data)
	for _, tab := range f.GetSheetList() {
		if tab != formName {
			if err := f.DeleteSheet(tab); err != nil {
				t.Fatal(err)
			}
		}
	}
	in := filepath.Join(t.TempDir(), "form.xlsx")
	if err := os.WriteFile(in, saved(t, f), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(pdftotext, "-layout", filepath.Join(office.Convert(t, "pdf", in), "form.pdf"), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	pages := strings.Split(strings.TrimRight(string(out), "\f"), "\f")
	if len(pages) < 3 {
		t.Fatalf("%d pages", len(pages))
	}
	for i, want := range []string{"The way in", "Map niche", "Chart desk"} {
		if !strings.Contains(pages[i], want) {
			t.Errorf("page %d does not say %q:\n%s", i+1, want, pages[i])
		}
		if i > 0 && strings.Count(pages[i], "call before you leave if under") < 8 {
			t.Errorf("page %d has few turning values:\n%s", i+1, pages[i])
		}
	}
}

// A box on the form is for a tape or a caliper: what only a thicker board or an engineer
// settles has none.
func TestOnlyReadingsHaveABox(t *testing.T) {
	on := func(measure string, verdict check.Verdict) *check.Finding {
		c := &check.Check{Inputs: []check.Input{{Symbol: "x", Measure: measure}, {Symbol: "y"}}}
		return &check.Finding{Verdict: verdict, Results: []*check.Result{{Check: c, Decides: "x"}}}
	}
	alone := on("", check.Verify)
	alone.Results[0].Turns = &check.Turn{Alone: true}
	for _, row := range []struct {
		name string
		f    *check.Finding
		want bool
	}{
		{"a caliper", on("caliper the part", check.Verify), true},
		{"a tape", on("measure the ceiling", check.Verify), true},
		{"a question", on("ask what stands on it", check.Verify), false},
		{"nothing to be measured", on("", check.Verify), false},
		{"turns by the typed size alone", alone, true},
		{"fails whatever is measured", on("caliper the part", check.Hold), false},
	} {
		if got := restsOnAReading(row.f); got != row.want {
			t.Errorf("%s: %v", row.name, got)
		}
	}
}

// Digits after a font size in a page header are read as part of the size, so that a job named
// by its number would lose it: a space keeps them apart (ECMA-376 part 1, 18.3.1.46, from memory).
func TestHeaderKeepsTheNumberOfAJob(t *testing.T) {
	rep := examined(t, niche)
	rep.Job.Name = "2612 Chart & map room"
	f := open(t, written(t, rep, nil))
	h, err := f.GetHeaderFooter(formName)
	if err != nil || !strings.HasPrefix(h.OddHeader, "&L&9 2612 Chart && map room&R") {
		t.Errorf("header %q, %v", h.OddHeader, err)
	}
}

// The reading of a caliper is a thickness: typed over the slot that fails it would do harm.
func TestAReadingIsTypedWhereItBelongs(t *testing.T) {
	slot, thick, height := check.Cell{Tab: "Joints", Addr: "F3"}, check.Cell{Tab: "Parts", Addr: "G3"}, check.Cell{Tab: "Site", Addr: "B4"}
	c := &check.Check{Inputs: []check.Input{{Symbol: "d", Measure: "caliper the part"}, {Symbol: "t"}, {Symbol: "o", Measure: "measure the height"}, {Symbol: "u"}}}
	in := map[string]check.Value{"d": check.Guess(-.01, 0, .01, "never calipered"), "t": check.Exact(.75).At(thick), "o": check.Exact(92).At(height), "u": check.Exact(1)}
	for decides, want := range map[string]check.Cell{"d": thick, "o": height, "u": slot} {
		f := &check.Finding{Cells: []check.Cell{slot}, Results: []*check.Result{{Check: c, Decides: decides, Row: check.Row{In: in}}}}
		if got := goesInto(f); got != want {
			t.Errorf("%s goes into %v, want %v", decides, got, want)
		}
	}
}
