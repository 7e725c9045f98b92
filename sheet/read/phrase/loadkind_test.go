package phrase

import (
	"slices"
	"strings"
	"testing"

	"dryfit/check/standard"
)

// Every kind of load of the standards is read by its own name, and no word means a kind that
// the standards do not have.
func TestLoadKindsAreThoseOfTheStandards(t *testing.T) {
	var known []string
	for _, e := range standard.BuiltIn().Entries() {
		if e.Group == "load" && !strings.HasPrefix(e.Item, "floor") && !strings.HasPrefix(e.Item, "pull") && !slices.Contains(known, e.Item) {
			known = append(known, e.Item)
		}
	}
	if len(known) < 10 {
		t.Fatalf("only %q in the standards", known)
	}
	for _, item := range known {
		l, ok := oneLoad("Case B: "+item, "")
		if !ok || l.Kind != item {
			t.Errorf("%q is read as %q, want itself", item, l.Kind)
		}
	}
	for word, kind := range loadKinds {
		if !slices.Contains(known, kind) {
			t.Errorf("%q means %q, which the standards do not know", word, kind)
		}
	}
}
