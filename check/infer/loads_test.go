package infer

import (
	"testing"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

func named(mark, box string, role check.Role) *check.Part {
	return &check.Part{Mark: check.Text{Text: mark}, Case: check.Text{Text: box}, Role: role, Qty: check.Exact(2), Unit: length.Inch}
}

// A load finds its case under the name of the opening in which the case stands; by hand.
func TestLoadsFindTheirCase(t *testing.T) {
	alcove := []*check.Opening{{Name: check.Text{Text: "Alcove"}}}
	run := []*check.Run{{Direction: "width", Items: []check.RunItem{{Mark: "A1"}, {Mark: "B1"}}, Fits: check.Text{Text: "alcove"}}}
	two := []*check.Part{named("A1", "Case A", check.Side), named("B1", "Case B", check.Side)}
	for _, c := range []struct {
		name  string
		job   check.Job
		typed string
		want  []string
	}{
		{"one case, any name", check.Job{Parts: []*check.Part{named("A1", "", check.Side)}}, "Alcove", []string{""}},
		{"two cases that a run puts into the opening", check.Job{Parts: two, Openings: alcove, Runs: run}, "Alcove", []string{"Case A", "Case B"}},
		{"a case by its letter", check.Job{Parts: two, Openings: alcove, Runs: run}, "B", []string{"B"}},
		{"nobody of that name", check.Job{Parts: two, Openings: alcove}, "Pantry", []string{"Pantry"}},
	} {
		j := c.job
		j.Shop = standard.BuiltIn()
		j.Loads = []*check.Load{{On: check.Text{Text: c.typed}, Kind: check.Text{Text: "linen"}, Per: check.ByKind}}
		settleLoads(&j)
		if len(j.Loads) != len(c.want) {
			t.Errorf("%s: %d loads, want %d, the first on %q", c.name, len(j.Loads), len(c.want), j.Loads[0].On.Text)
			continue
		}
		for i, l := range j.Loads {
			if l.On.Text != c.want[i] {
				t.Errorf("%s: load %d on %q, want %q", c.name, i, l.On.Text, c.want[i])
			}
		}
	}
}
