package main

import (
	"slices"
	"strings"
	"testing"

	"dryfit/check/catalogue"
)

// The words people use lead to the checks that ought to have told; other words lead to none.
func TestAccused(t *testing.T) {
	for _, c := range []struct {
		named, what string
		want        []string // among those accused; nil for none at all
		not         string
	}{
		{"", "Shelves bind in the slots", []string{"fit.joint"}, "structure.sag"},
		{"", "middle shelf SAGGED after a year", []string{"structure.sag"}, "fit.joint"},
		{"", "case too tall for the niche, cut down on site", []string{"opening.height"}, "opening.carry"},
		{"", "would not go up the stairs", []string{"opening.carry"}, "opening.height"},
		{"", "paint scratched by the piano", nil, ""},
		{"", "message about the invoice", nil, ""}, // "sag" inside a word
		{"structure.sag", "anything", []string{"structure.sag"}, "fit.joint"},
		{"structure", "anything", []string{"structure.sag", "structure.anchor"}, "fit.joint"},
		{"no.such-check", "sags", nil, ""},
	} {
		got := accused(c.named, c.what)
		for _, id := range c.want {
			if !slices.Contains(got, id) {
				t.Errorf("%s %q accuses %v, want %s among them", c.named, c.what, got, id)
			}
		}
		if c.want == nil && len(got) > 0 || slices.Contains(got, c.not) {
			t.Errorf("%s %q accuses %v", c.named, c.what, got)
		}
	}
}

// Every check that the words lead to is in the catalogue.
func TestTroublesNameChecks(t *testing.T) {
	for _, each := range troubles {
		for _, id := range strings.Fields(each.checks) {
			if _, ok := catalogue.Find(id); !ok {
				t.Errorf("%q leads to %s, which is no check", each.phrases, id)
			}
		}
	}
}
