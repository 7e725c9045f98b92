package schedule

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// sized is a part of a schedule with its three sizes; the row gives the cells.
func sized(mark string, role check.Role, row int, l, w, t float64) *check.Part {
	at := func(col string) check.Cell {
		return check.Cell{Book: "b", Tab: "Parts", Addr: fmt.Sprint(col, row)}
	}
	return &check.Part{Row: at("A"), Mark: check.Text{Text: mark, From: at("A")}, Role: role, Qty: check.Exact(2).At(at("B")),
		Length: check.Exact(l).At(at("C")), Width: check.Exact(w).At(at("D")), Thickness: check.Exact(t).At(at("E")),
		Material: check.Text{Text: "MDF", From: at("F")}, Unit: length.Inch}
}

func job(ps ...*check.Part) *check.Job {
	return &check.Job{Name: "t", Unit: length.Inch, Shop: standard.BuiltIn(), Parts: ps}
}

// says runs one check and lists its findings, worst first, as "VERDICT marks: text".
func says(c *check.Check, j *check.Job) string {
	var out []string
	for _, f := range check.Examine([]*check.Check{c}, j, nil).Findings {
		out = append(out, fmt.Sprintf("%s %s", f.Verdict, f.Text))
	}
	return strings.Join(out, "\n")
}

func TestRead(t *testing.T) {
	doubtful := sized("A2", check.Shelf, 3, 30, 4, 1.75)
	doubtful.Thickness = check.Guess(1.5, 1.5, 2, "nominal").At(doubtful.Thickness.From)
	doubtful.Doubts = []check.Doubt{{Field: "thickness", Cell: doubtful.Thickness.From, Text: "2x4", Readings: []string{"1 1/2", "2"}, Why: "nominal or true size"}}
	unread := job(sized("A1", check.Shelf, 2, 30, 11, .75))
	unread.Parts[0].Thickness = check.Value{}
	unread.Unread = []check.Unread{{Cell: check.Cell{Book: "b", Tab: "Parts", Addr: "E2"}, Text: "3/4ish", Why: "a thickness wants a length such as 3/4", Mark: "A1", Wants: "thickness"}}
	noColumn := job(sized("A1", check.Shelf, 2, 30, 11, .75), sized("A2", check.Shelf, 3, 31, 11, .75))
	for _, p := range noColumn.Parts {
		p.Thickness = check.Value{}
	}
	trim := sized("T1", check.Trim, 2, 96, 0, 0)
	cases := []struct {
		name string
		job  *check.Job
		want string
	}{
		{"sound", job(sized("A1", check.Shelf, 2, 30, 11, .75)), ""},
		{"unreadable is a stop", unread, `HOLD A1: reads "3/4ish"; a thickness wants a length such as 3/4`},
		{"negative cannot be", job(sized("A1", check.Shelf, 2, -30, 11, .75)), "HOLD A1: length -30 in cannot be"},
		{"zero cannot be", job(sized("A1", check.Shelf, 2, 30, 11, 0)), "HOLD A1: thickness 0 in cannot be"},
		{"none of a part is no part", job(qty(sized("A1", check.Shelf, 2, 30, 11, .75), 0)), "HOLD A1: quantity 0 cannot be; leave the row out or strike it"},
		{"thicker than wide", job(sized("A1", check.Shelf, 2, 30, .75, 11)), "HOLD A1: 11 in thick but only 3/4 in wide"},
		{"thicker than long", job(sized("A1", check.Cleat, 2, .5, 1.5, .75)), "HOLD A1: 3/4 in thick but only 1/2 in long"},
		{"two readings are to verify", job(doubtful), `VERIFY A2: thickness "2x4" reads as 1 1/2 or 2: nominal or true size`},
		{"a missing column is one line", noColumn, "NOT CHECKED A1, A2: thickness is not given"},
		{"trim is cut to length on site", job(trim), ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := says(Read, c.job); got != c.want {
				t.Errorf("says %q, want %q", got, c.want)
			}
		})
	}
}

func TestUnits(t *testing.T) {
	three := func(odd float64) *check.Job {
		return job(sized("A1", check.Shelf, 2, 571, 300, 19), sized("A2", check.Shelf, 3, 572, 300, 19), sized("A3", check.Shelf, 4, odd, 300, 19))
	}
	for _, j := range []*check.Job{three(22.5), three(571), three(400), three(47.6), three(57.1)} {
		j.Unit = length.Millimetre
	}
	metric := func(j *check.Job) *check.Job { j.Unit = length.Millimetre; return j }
	cases := []struct {
		name, hand string
		job        *check.Job
		want       string
	}{
		{"inches in a millimetre column", "571 and 572 over 22.5 is 25.4", metric(three(22.5)), "HOLD A3: length 22.5 mm, the others 571 mm: inches typed for millimetres?"},
		{"one of the family", "", metric(three(571)), ""},
		{"shorter, but no slip of unit", "571/400 = 1.43", metric(three(400)), ""},
		{"feet among inches", "571/47.6 = 12.0", metric(three(47.6)), "HOLD A3: length 47.6 mm, the others 571 mm: feet typed for inches?"},
		{"centimetres among millimetres", "571/57.1 = 10", metric(three(57.1)), "VERIFY A3: length 57.1 mm, the others 571 mm: centimetres typed for millimetres?"},
		{"millimetre thickness in an inch job", "19/25.4 = .748", job(sized("B1", check.Side, 2, 84, 12, 19)), "HOLD B1: thickness 19 in, the others 3/4 in: millimetres typed for inches?"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := says(Units, c.job); got != c.want {
				t.Errorf("says %q, want %q (%s)", got, c.want, c.hand)
			}
		})
	}
}

// A role of one row is held against the carcass it belongs to: by hand, 86 is ten times 8.6.
func TestASizeTenTimesTooSmall(t *testing.T) {
	carcass := func(side float64, others ...*check.Part) *check.Job {
		return job(append([]*check.Part{sized("N1", check.Side, 2, side, 12, .75)}, others...)...)
	}
	back, scribe := sized("N6", check.Back, 3, 86, 36, .25), sized("N7", check.Scribe, 4, 86, 1.5, .75)
	if got := says(Units, carcass(8.6, back, scribe)); !strings.HasPrefix(got, "VERIFY N1: length 8.6 in, the others 86 in") {
		t.Errorf("says %q, want a slip by ten", got)
	}
	for name, j := range map[string]*check.Job{"as long as the others": carcass(86, back, scribe), "one other is no family": carcass(8.6, back)} {
		if got := says(Units, j); got != "" {
			t.Errorf("%s: says %q, want nothing", name, got)
		}
	}
}

func TestMarks(t *testing.T) {
	named := job(sized("A1", check.Shelf, 2, 30, 11, .75))
	named.Joints = []*check.Joint{{Row: check.Cell{Tab: "Joints", Addr: "A2"}, Into: check.Text{Text: "A1"}, Enters: check.Text{Text: "A9", From: check.Cell{Tab: "Joints", Addr: "B2"}}}}
	cleat := job(sized("A1", check.Cleat, 2, 30, 11, .75))
	cleat.Joints = []*check.Joint{{Into: check.Text{Text: "wall studs"}, Enters: check.Text{Text: "A1"}, Kind: check.CleatJoint}}
	loaded := job(sized("A1", check.Side, 2, 30, 11, .75))
	loaded.Loads = []*check.Load{{On: check.Text{Text: "Pantry"}, Kind: check.Text{Text: "books"}}}
	inCase := func(p *check.Part, c string) *check.Part { p.Case = check.Text{Text: c}; return p }
	cases := []struct {
		name string
		job  *check.Job
		want string
	}{
		{"once each", job(sized("A1", check.Shelf, 2, 30, 11, .75), sized("A2", check.Shelf, 3, 31, 11, .75)), ""},
		{"twice with other sizes", job(sized("A1", check.Shelf, 2, 30, 11, .75), sized("A1", check.Shelf, 3, 36, 11, .75)), "HOLD A1: stands in 2 rows with different sizes"},
		{"twice with equal sizes", job(sized("A1", check.Shelf, 2, 30, 11, .75), sized("A1", check.Shelf, 3, 30, 11, .75)), "VERIFY A1: stands in 2 rows with equal sizes; meant twice?"},
		{"O and 0", job(sized("B10", check.Shelf, 2, 30, 11, .75), sized("B1O", check.Shelf, 3, 36, 11, .75)), "VERIFY B10: also typed B1O; one part or two?"},
		{"letters alone are no digits", job(sized("SL", check.Shelf, 2, 30, 11, .75), sized("SI", check.Shelf, 3, 36, 11, .75)), ""},
		{"a joint names a part that is not there", named, "HOLD A9: a joint names it, but no part bears this mark"},
		{"a cleat on the wall", cleat, ""},
		{"a load on nothing of that name", loaded, "VERIFY Pantry: a load names it, but no case and no part does"},
		{"marks start again in each case", job(inCase(sized("1", check.Side, 2, 84, 12, .75), "W1"), inCase(sized("2", check.Shelf, 3, 30, 11, .75), "W1"),
			inCase(sized("1", check.Side, 4, 72, 12, .75), "W2"), inCase(sized("2", check.Shelf, 5, 33, 11, .75), "W2")), ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := says(Marks, c.job); got != c.want {
				t.Errorf("says %q, want %q", got, c.want)
			}
		})
	}
}

func TestLayers(t *testing.T) {
	stack := func(total float64, layers ...check.Layer) *check.Job {
		p := sized("L1", check.Shelf, 2, 60, 12, total)
		p.Layers = layers
		return job(p)
	}
	of := func(n, t float64, m string) check.Layer {
		return check.Layer{Count: check.Exact(n), Thickness: check.Exact(t), Material: m}
	}
	board := sized("P1", check.Base, 2, 36, 4, .75)
	board.Material.Text = "5/8 plywood"
	narrow := sized("N1", check.Shelf, 2, 36, 12, .75)
	narrow.CutWidth = check.Exact(11).At(narrow.Width.From)
	narrow.Banded = []check.Edge{{On: "front", Thickness: check.Exact(.75)}}
	unsaid, tape := *narrow, *narrow
	unsaid.Banded = nil
	tape.CutWidth, tape.Banded = check.Exact(11.93), []check.Edge{{On: "front", Thickness: check.Exact(.039)}}
	cases := []struct {
		name, hand string
		job        *check.Job
		want       string
	}{
		{"nobody names the strip", "", job(&unsaid), ""},
		{"tape of a name", "11.93 + .039 = 11.969, within 1/16 of 12", job(&tape), ""},
		{"three layers make it", "3 x .75 = 2.25", stack(2.25, of(3, .75, "MDF")), ""},
		{"one layer short", "2 x .75 = 1.5 against 2.25, off by a whole layer", stack(2.25, of(2, .75, "MDF")), "HOLD L1: 2 layers make 1 1/2 in, stated 2 1/4 in"},
		{"a sixteenth off by name is no layer", "3 x 23/32 = 2.156", stack(2.25, of(3, .71875, "plywood")), ""},
		{"skins of another stuff than each other", "", stack(1.5, of(1, .75, "MDF"), of(1, .75, "birch ply")), "VERIFY L1: outer layers differ (3/4 in MDF, 3/4 in birch ply): it will cup"},
		{"board thinner than stated", "5/8 under 3/4", job(board), "VERIFY P1: stated 3/4 in thick, board is 5/8 plywood"},
		{"strip leaves it narrow", "11 + 3/4 = 11 3/4 under 12", job(narrow), "HOLD N1: cut 11 in and strips 3/4 in make 11 3/4 in, finished is 12 in"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := says(Layers, c.job); got != c.want {
				t.Errorf("says %q, want %q (%s)", got, c.want, c.hand)
			}
		})
	}
}

func TestMaterial(t *testing.T) {
	of := func(material string, thick float64) *check.Part {
		p := sized("A1", check.Shelf, 2, 30, 11, thick)
		p.Material.Text = material
		return p
	}
	finished := of("MDF", .75)
	finished.Finish = check.Text{Text: "pante", From: check.Cell{Tab: "Parts", Addr: "G2"}}
	cases := []struct {
		name    string
		job     *check.Job
		verdict string
	}{
		{"known and sold", job(of("MDF", .75)), ""},
		{"solid wood is planed to any thickness", job(of("red oak", .81)), ""},
		{"nobody sells it", job(of("MDF", .82)), "VERIFY"},
		{"thicker than any sheet is glued up", job(of("MDF", 2.215)), ""},
		{"unknown", job(of("MFD", .75)), "NOT CHECKED"},
		{"unknown finish", job(finished), "NOT CHECKED"},
	}
	blank := func(n int) *check.Job {
		j := job()
		for i := range 4 {
			p := sized(fmt.Sprint("A", i+1), check.Shelf, i+2, 30, 11, .75)
			if i < n {
				p.Material = check.Text{}
			}
			j.Parts = append(j.Parts, p)
		}
		return j
	}
	cases = append(cases, []struct {
		name    string
		job     *check.Job
		verdict string
	}{
		{"one row of four names none", blank(1), "NOT CHECKED A1: material is not given, the other rows name one"},
		{"two rows of four name none", blank(2), ""},
		{"no row names one", blank(4), ""},
	}...)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := says(Material, c.job)
			if c.verdict == "" && got != "" || !strings.HasPrefix(got, c.verdict) {
				t.Errorf("says %q, want %q", got, c.verdict)
			}
		})
	}
	fs := check.Examine([]*check.Check{Material}, blank(1), nil).Findings
	if len(fs) != 1 || fs[0].Cells[0].Addr != "F2" {
		t.Errorf("no material in row 2: %+v; want the cell F2, in the column of the others", fs)
	}
	fs = check.Examine([]*check.Check{Material}, job(of("MFD", .75)), nil).Findings
	if len(fs) != 1 || !strings.Contains(fs[0].Fix, "MDF") {
		t.Errorf("unknown material: %+v; want the nearest known name MDF in the fix", fs)
	}
}
