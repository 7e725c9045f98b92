package read

import (
	"path/filepath"
	"testing"

	"dryfit/check"

	"github.com/google/go-cmp/cmp"
)

// TestPackIsLossless packs every part of every fixture and demands it back as it was.
func TestPackIsLossless(t *testing.T) {
	paths, err := filepath.Glob("testdata/tabs/*.txt")
	if err != nil || len(paths) == 0 {
		t.Fatal("no fixtures")
	}
	small, whole := 0, 0
	for _, path := range paths {
		b, err := Open("book.xlsx", loadFixture(t, path).data, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, tab := range b.Tabs {
			list := partList{book: tab.parts.book, tab: tab.parts.tab}
			var want []*check.Part
			for p := range tab.parts.All() {
				list.add(p)
				want = append(want, p)
			}
			for i, p := range want {
				if list.rows[i].full == nil {
					small++
				} else {
					whole++
				}
				if diff := cmp.Diff(p, list.at(i)); diff != "" {
					t.Errorf("%s, %s: %s", path, p.Row.Addr, diff)
				}
			}
		}
	}
	if small < whole {
		t.Errorf("%d parts fit the small form and %d do not", small, whole)
	}
}
