package read

import (
	"strings"
	"testing"

	"dryfit/check"
)

// severalJob assembles the job of a workbook in text.
func severalJob(t *testing.T, text string) *check.Job {
	t.Helper()
	j, err := Job("7 Attic", "/jobs/7 Attic", []*Book{openText(t, "a.xlsx", text)}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

const severalParts = `== tab Parts
Mark | Part | Case | Qty | L | W | T
L1 | Side | A | 1 | 60 | 11 | 3/4
L2 | Side | A | 1 | 60 | 11 | 3/4
S1 | Shelf | A | 2 | 40 | 11 | 3/4
S2 | Shelf | A | 1 | 40 | 11 | 3/4
S3 | Shelf | A | 1 | 40 | 11 | 3/4
U1 | Upright | A | 1 | 60 | 11 | 3/4
U2 | Upright | A | 1 | 60 | 11 | 3/4
K1, K2 | Seat | B | 1 | 30 | 11 | 3/4
P/1 | Side | B | 2 | 30 | 11 | 3/4
T1 | Shelf | B | 1 | 28 | 11 | 3/4
== tab Other
`

// One cell names several parts; what each gets was worked out by hand. Pieces: L1, L2, U1, U2
// one each, S1 two, S2 and S3 one each.
func TestSeveralPartsInOneCell(t *testing.T) {
	const head = "Joint | In | Receives | Kind | No. | Slot width | Depth | Ctrs\n"
	for _, c := range []struct {
		name, rows string
		want       []string
		unread     string
	}{
		{"a comma, four pieces in each of two sides are eight", "J1 | L1, L2 | S1-S3 | dado | 8 | 25/32 | 3/8 | ",
			[]string{"S1>L1 2", "S2>L1 1", "S3>L1 1", "S1>L2 2", "S2>L2 1", "S3>L2 1"}, ""},
		{"two dots, and", "J1 | L1 and L2 | S1..S3 | dado | 8 | 25/32 | 3/8 | ",
			[]string{"S1>L1 2", "S2>L1 1", "S3>L1 1", "S1>L2 2", "S2>L2 1", "S3>L2 1"}, ""},
		{"a stroke, a number alone", "J1 | U1/2 | S2 & 3 | dado | 4 | 25/32 | 3/8 | ",
			[]string{"S2>U1 1", "S3>U1 1", "S2>U2 1", "S3>U2 1"}, ""},
		{"every shelf, of the same case", "J1 | U1 | all shelves | dado | 4 | 25/32 | 3/8 | ",
			[]string{"S1>U1 2", "S2>U1 1", "S3>U1 1"}, ""},
		{"in German", "J1 | U1, U2 | alle Fachböden | dado | 8 | 25/32 | 3/8 | ",
			[]string{"S1>U1 2", "S2>U1 1", "S3>U1 1", "S1>U2 2", "S2>U2 1", "S3>U2 1"}, ""},
		{"positions go in order where there is one for each piece", "J1 | U1 | S1, S2 | dado | 3 | 25/32 | 3/8 | 10, 20, 30",
			[]string{"S1>U1 2 at 10 20", "S2>U1 1 at 30"}, ""},
		{"positions of both sides alike", "J1 | L1, L2 | S1 | dado | 4 | 25/32 | 3/8 | 10, 20",
			[]string{"S1>L1 2 at 10 20", "S1>L2 2 at 10 20"}, ""},
		{"positions that do not come out even go nowhere", "J1 | U1 | S2, S3 | dado | 2 | 25/32 | 3/8 | 10, 20, 30",
			[]string{"S2>U1 1", "S3>U1 1"}, "A2 S2, S3"},
		{"crossings that do not come out even are asked for", "J1 | L1, L2 | S1 | dado | 5 | 25/32 | 3/8 | ",
			[]string{"S1>L1 -", "S1>L2 -"}, "E2 5"},
		{"a mark with a comma in it is one mark", "J1 | P/1 | K1, K2 | dado | 2 | 25/32 | 3/8 | ", []string{"K1, K2>P/1 2"}, ""},
		{"a list with a mark that no part bears keeps it", "J1 | L1, L7 | S2 | dado | 2 | 25/32 | 3/8 | ",
			[]string{"S2>L1 1", "S2>L7 1"}, ""},
		{"a dash over marks that are none stays as it is", "J1 | X1-X4 | S2 | dado | 2 | 25/32 | 3/8 | ", []string{"S2>X1-X4 2"}, ""},
	} {
		j := severalJob(t, severalParts+head+c.rows)
		var got []string
		for _, jt := range j.Joints {
			s := jt.Enters.Text + ">" + jt.Into.Text + " " + num(jt.Count)
			for i, v := range jt.At {
				if i == 0 {
					s += " at"
				}
				s += " " + num(v)
			}
			got = append(got, s)
		}
		if g, w := strings.Join(got, "; "), strings.Join(c.want, "; "); g != w {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, g, w)
		}
		var unread []string
		for _, u := range j.Unread {
			unread = append(unread, u.Cell.Addr+" "+u.Text)
		}
		if g := strings.Join(unread, " | "); g != c.unread {
			t.Errorf("%s: unread %q, want %q", c.name, g, c.unread)
		}
	}
}

func TestSeveralLoadedInOneCell(t *testing.T) {
	for _, c := range []struct{ rows, want string }{
		{"Shelf | Load\nS1, S2 | 24 lb/ft\nT1 | 12 lb/ft", "S1 2; S2 2; T1 1"},
		{"Shelf | Load\nS1 - S3 | 24 lb/ft\nT1 | 12 lb/ft", "S1 2; S2 2; S3 2; T1 1"},
		{"Shelf | Load\nall shelves | 24 lb/ft\nK1, K2 | 12 lb/ft", "S1 2; S2 2; S3 2; T1 2; K1, K2 1"},
		{"Case | Load\nA & B | 24 lb/ft\nT1 | 12 lb/ft", "A 2; B 2; T1 1"},
		{"LOADS\nS1-S3 24 lb/ft\nT1, L1 12 lb/ft", "S1 2; S2 2; S3 2; T1 1; L1 1"},
		{"LOADS\nS1 - S3 24 lb/ft\nA, B 12 lb/ft", "S1 2; S2 2; S3 2; A 1; B 1"},
	} {
		var got []string
		for _, l := range severalJob(t, severalParts+c.rows).Loads {
			got = append(got, l.On.Text+" "+num(l.Amount))
		}
		if g := strings.Join(got, "; "); g != c.want {
			t.Errorf("%q: got %s, want %s", c.rows, g, c.want)
		}
	}
}
