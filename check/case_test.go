package check

import "testing"

// A job that was copied and given other parts has other cases; by hand: A, then B.
func TestCasesFollowTheParts(t *testing.T) {
	j := &Job{Parts: []*Part{{Case: Text{Text: "A"}}}}
	if c := j.Cases(); len(c) != 1 || c[0].Name != "A" {
		t.Fatalf("cases %+v, want A", c)
	}
	other := *j
	other.Parts = []*Part{{Case: Text{Text: "B"}}}
	if c := other.Cases(); len(c) != 1 || c[0].Name != "B" {
		t.Errorf("cases of the copy %+v, want B", c)
	}
}

func TestNamesThatMeanOneCase(t *testing.T) {
	for _, c := range []struct {
		own, typed string
		want       bool
	}{
		{"CASE A - NICHE", "A", true},
		{"CASE A - NICHE", "niche a", true},
		{"CASE A - NICHE", "B", false},
		{"Wardrobe W1", "W1", true},
		{"Wardrobe W1", "W2", false},
		{"Back bar", "", false},
	} {
		if got := (Case{Name: c.own}).Is(c.typed); got != c.want {
			t.Errorf("%q is %q: %v, want %v", c.own, c.typed, got, c.want)
		}
	}
}
