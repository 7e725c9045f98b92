package read

import "testing"

// Counts as offices type them, and what a person reads; common practice.
func TestTally(t *testing.T) {
	for _, test := range []struct {
		text   string
		want   float64 // 0: no count
		doubts bool
	}{
		{"4", 4, false}, {"2 ea.", 2, false}, {"pr", 2, false}, {"4+1", 4, false}, {"3 + 1 spare", 3, false},
		{"six", 6, false}, {"a single", 1, false}, {"one pair", 2, false}, {"a pair", 2, false}, {"half a dozen", 6, false},
		{"2 dozen", 0, false}, {"one only", 1, false}, {"zwei Stück", 2, false}, {"trois", 3, false}, {"två st", 2, false},
		{"2 (two)", 2, false}, {"two (2)", 2, false}, {"2 (1 L, 1 R)", 2, false}, {"3 (1 L, 1 R)", 3, true},
		{"2 (spare incl.)", 2, false}, {"2 (see 4)", 0, false}, {"HOLD", 0, false}, {"a", 1, false}, {"half", 0, false}, {"3-4", 4, true},
	} {
		got, ok := readTally(test.text)
		if ok != (test.want > 0) || ok && (got.n != test.want || (got.doubt != "") != test.doubts) {
			t.Errorf("%q is %v %v (%s), want %v", test.text, got.n, ok, got.doubt, test.want)
		}
	}
}
