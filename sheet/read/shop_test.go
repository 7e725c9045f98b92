package read

import (
	"testing"

	"dryfit/check"
	"dryfit/check/standard"
)

// The shop's own words come before the built-in ones.
func TestShopWords(t *testing.T) {
	shop := standard.BuiltIn().Speaking([]standard.Word{
		{Kind: "header", Text: "Wanted", Means: "quantity"},
		{Kind: "header", Text: "Long way", Means: "length"},
		{Kind: "role", Text: "Raft", Means: "shelf"},
	})
	fx := parseFixture(t, "== tab S\nTag | What | Wanted | Long way | Width | Thickness\nA | Raft | 3 | 30 | 11 | 3/4\nB | Raft | 2 | 31 | 11 | 3/4\n")
	b, err := Open("a.xlsx", fx.data, shop)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for p := range b.Tabs[0].Parts() {
		n++
		if p.Role != check.Shelf || !p.Qty.Known || !p.Length.Known {
			t.Errorf("%s: role %q, quantity %v, length %v", p.Name(), p.Role, p.Qty, p.Length)
		}
	}
	if n != 2 {
		t.Errorf("%d parts, want 2", n)
	}
}
