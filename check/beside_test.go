package check

import (
	"testing"

	"dryfit/check/length"
)

// held is a check that passes from a size of its own on: x at least k.
func held(id string) *Check {
	return &Check{ID: id, Inputs: []Input{{Symbol: "x", Unit: Count}, {Symbol: "k", Unit: Count}},
		Steps: []Step{{Symbol: "m", Formula: "x-k", Unit: Count}}, Mends: []Mend{{Symbol: "x", Order: "make it {}", Up: true, Reach: 9}}}
}

// By hand: 2 must become 3 for the row, 5 for the one beside it; beyond 9 steps nothing is found.
func TestAFixLeavesTheRowsBesideItInPeace(t *testing.T) {
	j := &Job{Unit: length.Inch}
	other := held("structure.other")
	for _, row := range []struct {
		name   string
		beside Value // k of the row beside
		to     float64
		text   string
		leaves string
	}{
		{"the row beside wants less", Exact(2), 3, "make it 3", ""},
		{"it is a question until 5", Guess(2, 3, 5, "unsaid"), 5, "make it 5; at 3 still open: other", ""},
		{"it is a HOLD until 5", Exact(5), 5, "make it 5", ""},
		{"nothing within reach does", Exact(50), 3, "make it 3", "other"},
		{"nobody knows", Value{}, 3, "make it 3", ""},
	} {
		in := map[string]Value{"x": Exact(2), "k": Exact(3)}
		r := held("structure.one").Judge(j, Row{In: in, Cause: "now",
			Beside: []Beside{{other, Row{Cause: "other", In: map[string]Value{"x": Exact(2), "k": row.beside}}}}})
		r.Solve()
		if r.Fix == nil || r.Fix.To != row.to || r.Fix.Text != row.text || r.Fix.Leaves != row.leaves {
			t.Errorf("%s: %+v, want %v, %q, leaving %q", row.name, r.Fix, row.to, row.text, row.leaves)
		}
	}
}
