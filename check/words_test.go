package check

import "testing"

// given is a report with findings in one job, each of the keys grave or not.
func given(grave map[string]bool) *Report {
	rep := &Report{Job: inches()}
	for _, key := range []string{"a", "b", "c"} {
		rep.Findings = append(rep.Findings, &Finding{Key: key, Verdict: Hold, Margin: -0.25,
			Results: []*Result{{Check: &Check{Grave: grave[key]}}}})
	}
	return rep
}

func TestTheLeadsWord(t *testing.T) {
	grave := map[string]bool{"a": true, "b": true}
	word := func(why string) Acceptance {
		return Acceptance{By: "RB", Why: why, Worst: Hold, Margin: -0.25}
	}
	worse, tighter := word("looked at"), word("looked at")
	worse.Margin, tighter.Margin = -0.20, -0.30
	rose := word("looked at")
	rose.Worst = Verify
	asked := word("looked at")
	asked.Ask, asked.Margin = true, 5
	for name, c := range map[string]struct {
		words map[string]Acceptance
		want  string // the keys that are accepted
	}{
		"nobody said a word":               {nil, ""},
		"a reason":                         {map[string]Acceptance{"c": word("veneered")}, "c"},
		"initials alone":                   {map[string]Acceptance{"c": word("")}, ""},
		"margin worse than accepted":       {map[string]Acceptance{"c": worse}, ""},
		"margin better than accepted":      {map[string]Acceptance{"c": tighter}, "c"},
		"verdict above the accepted":       {map[string]Acceptance{"c": rose}, ""},
		"a question accepts nothing":       {map[string]Acceptance{"c": asked}, ""},
		"one reason on two grave ones":     {map[string]Acceptance{"a": word("as drawn"), "b": word(" As  drawn")}, ""},
		"a reason each on two grave ones":  {map[string]Acceptance{"a": word("two anchors"), "b": word("on a slab")}, "ab"},
		"grave shares it with a light one": {map[string]Acceptance{"a": word("as drawn"), "c": word("as drawn")}, "c"},
		"a question does not share":        {map[string]Acceptance{"a": word("looked at"), "c": asked}, "a"},
	} {
		rep := given(grave)
		rep.count(c.words)
		got := ""
		for _, key := range []string{"a", "b", "c"} {
			for _, f := range rep.Findings {
				if f.Key == key && f.Accepted() {
					got += key
				}
			}
		}
		if got != c.want || rep.Counts.Accepted != len(c.want) {
			t.Errorf("%s: %q accepted, %d counted, want %q", name, got, rep.Counts.Accepted, c.want)
		}
		if all := rep.Verdict == Clear; all != (len(c.want) == 3) {
			t.Errorf("%s: verdict %s with %q accepted", name, rep.Verdict, got)
		}
	}
}
