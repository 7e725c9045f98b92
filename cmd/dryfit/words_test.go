package main

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/check/catalogue"
)

// TestDemoWords reads every sentence of the demo for what nobody would say aloud: escaped
// quotes, a hole, a word twice, roles the shop never typed, words of ours.
func TestDemoWords(t *testing.T) {
	bad := regexp.MustCompile(`\\"|\{\}|%!|\bthe (its|the|a)\b|\bin in\b|\bof of\b|\bis is\b|\b(sill|deck|sibling)s?\b|\b0 in\b|\bNaN\b|\bInf\b`)
	_, jobs := demoJobsDone(t)
	n := 0
	for name, o := range jobs {
		for _, f := range o.report.Findings {
			n++
			for _, s := range []string{f.Text, f.Fix} {
				if m := bad.FindString(s); m != "" && s != "" {
					t.Errorf("%s, %s: %q in %s", name, f.ID, m, s)
				}
			}
			if f.Fix == "" {
				t.Errorf("%s, %s: no way out of %s", name, f.ID, f.Text)
			}
		}
	}
	if n < 50 {
		t.Errorf("only %d sentences were read", n)
	}
}

// Names of inputs stand behind "the" and before "is" in sentences; names of checks in lists.
func TestNamesOfInputs(t *testing.T) {
	for _, c := range catalogue.All {
		for _, in := range c.Inputs {
			first, _, _ := strings.Cut(in.Name, " ")
			if strings.Contains(" its the a an this ", " "+first+" ") {
				t.Errorf("%s: \"the %s is\" is nothing anybody says", c.ID, in.Name)
			}
		}
		for field, text := range map[string]string{"Asks": c.Asks, "Costs": c.Costs, "Applies": c.Applies, "Fails": c.Fails, "Mended": c.Mended} {
			if strings.Contains(text, "sibling") || strings.HasSuffix(text, ".") || strings.Contains(text, "  ") || field == "Asks" && !strings.HasSuffix(text, "?") {
				t.Errorf("%s: %s is not said so: %s", c.ID, field, text)
			}
		}
		if !strings.HasSuffix(c.Limits, ".") {
			t.Errorf("%s: Limits are sentences: %s", c.ID, c.Limits)
		}
	}
}
