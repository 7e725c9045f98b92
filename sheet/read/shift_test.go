package read

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/check"
)

// TestPlaceDoesNotMatter moves every fixture to another place of its tab, under another tab
// name, and with a stray title above: the same parts must be read.
func TestPlaceDoesNotMatter(t *testing.T) {
	paths, err := filepath.Glob("testdata/tabs/*.txt")
	if err != nil || len(paths) == 0 {
		t.Fatal("no fixtures")
	}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), "| =") || strings.Contains(path, "headless") || strings.Contains(path, "by_room") {
			continue // formulas point at cells; the name of a tab is a room
		}
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txt"), func(t *testing.T) {
			want, got := told(t, string(text)), told(t, moved(string(text)))
			if len(want) != len(got) {
				t.Fatalf("%d parts where it stood, %d after it was moved", len(want), len(got))
			}
			for i := range want {
				if want[i] != got[i] {
					t.Errorf("where it stood: %s\nmoved:          %s", want[i], got[i])
				}
			}
		})
	}
}

// moved puts the rows of every tab three rows down and two columns to the right.
func moved(text string) string {
	var out []string
	inTab := false
	for _, line := range strings.Split(text, "\n") {
		if strings.HasPrefix(line, "== ") {
			inTab = strings.HasPrefix(line, "== tab")
			out = append(out, line)
			if inTab {
				out = append(out, "Printed by the office", "", "")
			}
			continue
		}
		if inTab && strings.TrimSpace(line) != "" {
			hidden := strings.HasPrefix(line, "%hidden")
			line = " | | " + strings.TrimPrefix(line, "%hidden")
			if hidden {
				line = "%hidden" + line
			}
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

func told(t *testing.T, text string) []string {
	t.Helper()
	b, err := Open("book.xlsx", parseFixture(t, text).data, nil)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, tab := range b.Tabs {
		for p := range tab.Parts() {
			out = append(out, tell(p))
		}
	}
	return out
}

func tell(p *check.Part) string {
	s := fmt.Sprint(p.Mark, "|", p.Description, "|", p.Role, "|", p.Case, "|", p.Room, "|", p.Unit, "|", p.Material, "|", p.Edges, "|", p.Finish, "|", p.Grain, "|", p.Note, "|", p.Of, "|", p.Size)
	for _, v := range []check.Value{p.Qty, p.Length, p.Width, p.Thickness, p.CutLength, p.CutWidth} {
		s += fmt.Sprintf("|%v %.4f %.4f %.4f", v.Known, v.Low, v.Nominal, v.High)
	}
	return s
}
