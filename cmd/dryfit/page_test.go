package main

import (
	"bytes"
	"strings"
	"testing"

	"dryfit/check/catalogue"
)

// TestPages demands that the page of each check and its section in the manual print every
// field of it, in the order in which it is read.
func TestPages(t *testing.T) {
	var manual bytes.Buffer
	printManual(&manual, catalogue.All)
	sections := strings.Split(manual.String(), "\n## ")[1:]
	if len(sections) != len(catalogue.All) {
		t.Fatalf("%d sections for %d checks", len(sections), len(catalogue.All))
	}
	for i, c := range catalogue.All {
		want := []string{c.ID, c.Asks, c.Costs, c.Applies}
		for _, in := range c.Inputs {
			want = append(want, in.Name)
		}
		for _, s := range c.Steps {
			want = append(want, s.Symbol, "= "+s.Formula, s.Name)
		}
		want = append(want, ways(c)...)
		for _, s := range c.Source {
			want = append(want, s.Title, s.How)
		}
		want = append(want, c.Limits, c.Fails, c.Mended)
		var page bytes.Buffer
		printPage(&page, c)
		for where, text := range map[string]string{"page": page.String(), "manual": sections[i]} {
			if strings.Contains(text, "{}") || strings.Contains(text, "..\n") {
				t.Errorf("%s, %s: a hole or two full stops", c.ID, where)
			}
			for _, w := range want {
				at := strings.Index(text, w)
				if at < 0 {
					t.Errorf("%s, %s: %q is missing, or stands too early", c.ID, where, w)
					break
				}
				text = text[at+len(w):]
			}
		}
	}
}
