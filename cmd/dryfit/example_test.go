package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"dryfit/check"
	"dryfit/check/catalogue"
	"dryfit/sheet/draft"
)

// TestPageExamples makes workbooks of the example on the page of each check, the row that
// fails and the same mended: the check must speak of the first and be silent about the second.
func TestPageExamples(t *testing.T) {
	for _, c := range catalogue.All {
		t.Run(c.ID, func(t *testing.T) {
			t.Parallel()
			archive, err := txtar.ParseFile(filepath.Join("testdata", "examples", c.ID+".txt"))
			if err != nil {
				t.Fatal(err)
			}
			if want := fmt.Sprintf("Fails: %s\nMended: %s\n", c.Fails, c.Mended); string(archive.Comment) != want {
				t.Errorf("the page says\n%sand the example is of\n%s", want, archive.Comment)
			}
			if len(archive.Files) != 2 || archive.Files[0].Name != "fails" || archive.Files[1].Name != "mended" {
				t.Fatal("an example is two workbooks, fails and mended")
			}
			fails, mended := spoken(t, c, archive.Files[0].Data), spoken(t, c, archive.Files[1].Data)
			if len(fails) == 0 {
				t.Error("says nothing of the row that fails")
			}
			if len(mended) > 0 {
				t.Errorf("mended, it still says %s: %s -> %s", mended[0].Verdict, mended[0].Text, mended[0].Fix)
			}
		})
	}
}

// spoken is what a check says of a workbook, a missing tab left aside.
func spoken(t *testing.T, c *check.Check, text []byte) []*check.Finding {
	t.Helper()
	data, err := draft.Workbook(string(text))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "job", "list.xlsx")
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	s, places, err := find(path)
	if err != nil {
		t.Fatal(err)
	}
	o := work(t.Context(), s, places[0], options{checks: []*check.Check{c}})
	if o.err != nil {
		t.Fatal(o.err)
	}
	var out []*check.Finding
	for _, f := range o.report.Findings {
		if f.Verdict == check.Hold || f.Verdict == check.Verify {
			out = append(out, f)
		}
	}
	return out
}
