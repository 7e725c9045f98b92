package main

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"dryfit/check"
	"dryfit/check/catalogue"
	"dryfit/check/length"
)

// The unit that a job is worked in changes how it prints and nothing of what it comes to.
func TestUnitsChangeNoVerdict(t *testing.T) {
	dir := t.TempDir()
	if err := makeShop(dir); err != nil {
		t.Fatal(err)
	}
	said := map[length.Unit]map[string]check.Verdict{}
	for _, u := range []length.Unit{length.Inch, length.Millimetre} {
		s, places, err := find(dir)
		if err != nil {
			t.Fatal(err)
		}
		s.unit = u
		all, err := workAll(t.Context(), &s, places, options{checks: catalogue.All})
		if err != nil {
			t.Fatal(err)
		}
		said[u] = map[string]check.Verdict{}
		for _, o := range all {
			if o.report == nil {
				t.Fatalf("%s: %v", o.place.name, o.err)
			}
			if o.report.Job.Unit != u {
				t.Errorf("%s is worked in %v", o.place.name, o.report.Job.Unit)
			}
			for _, c := range o.report.Coverage {
				said[u][o.place.name+" "+c.Mark+" "+c.ID] = c.Verdict
			}
		}
	}
	if diff := cmp.Diff(said[length.Inch], said[length.Millimetre]); diff != "" || len(said[length.Inch]) == 0 {
		t.Errorf("inches (-) and millimetres (+) differ:\n%s", diff)
	}
}
