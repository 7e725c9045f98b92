package main

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/check/catalogue"
	"dryfit/sheet/draft"
	"dryfit/sheet/gate"
)

// TestHugeJob leaves a job with more rows than fit into memory alone, and says how many it has.
func TestHugeJob(t *testing.T) {
	var text strings.Builder
	text.WriteString("== Parts\nMark | Part | Qty | L | W | T | Material\n")
	for i := range gate.MaxParts + 1 {
		fmt.Fprintf(&text, "K%d | Shelf | 1 | 30 | 12 | 3/4 | birch ply\n", i+1)
	}
	data, err := draft.Workbook(text.String())
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "hotel", "list.xlsx")
	if err := create(path, data); err != nil {
		t.Fatal(err)
	}
	s, places, err := find(path)
	if err != nil {
		t.Fatal(err)
	}
	out := work(context.Background(), s, places[0], options{checks: catalogue.All, write: true})
	if out.err == nil || !strings.HasPrefix(out.err.Error(), "10001 rows of parts") || len(out.written) > 0 {
		t.Errorf("10,001 rows: error %v, wrote %q; want one error that counts the rows", out.err, out.written)
	}
}
