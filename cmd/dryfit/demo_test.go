package main

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/catalogue"
)

// demoJobsDone is the demo shop, made and checked.
func demoJobsDone(t *testing.T) (string, map[string]outcome) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "shop")
	if err := makeShop(dir); err != nil {
		t.Fatal(err)
	}
	s, places, err := find(dir)
	if err != nil {
		t.Fatal(err)
	}
	all, err := workAll(context.Background(), &s, places, options{checks: catalogue.All})
	if err != nil {
		t.Fatal(err)
	}
	jobs := map[string]outcome{}
	for _, o := range all {
		if o.err != nil {
			t.Fatalf("%s: %v", o.place.name, o.err)
		}
		jobs[o.place.name] = o
	}
	return dir, jobs
}

// TestDemoShowsEveryCheck demands that each check speaks in the demo for a reason of its own,
// and not only because a whole tab is missing; that no job of the demo floods its reader; and
// that sound work says nothing.
func TestDemoShowsEveryCheck(t *testing.T) {
	const most = 8 // lines of one job: what the report prints
	_, jobs := demoJobsDone(t)
	speaks := map[string]bool{}
	for name, o := range jobs {
		for _, f := range o.report.Findings {
			if !strings.HasPrefix(f.Key, "job|no ") {
				speaks[f.ID] = true
			}
		}
		if n := len(o.report.Findings); n > most {
			t.Errorf("%s: %d findings, at most %d are wanted", name, n, most)
		}
	}
	for _, c := range catalogue.All {
		if !speaks[c.ID] {
			t.Errorf("no job of the demo shows %s", c.ID)
		}
	}
	sound, ok := jobs["2629 Loom studio"]
	if !ok || sound.report.Verdict != check.Clear || len(sound.report.Findings) > 0 {
		t.Errorf("the sound job: %+v", sound.report)
	}
	if clear := sound.report.Counts.Clear; clear < 20 {
		t.Errorf("the sound job rests on %d answers only", clear)
	}
}

// The finished job of the demo tells what went wrong with it: two things that the checks would
// have told of, one they missed, and no false alarm.
func TestDemoTrial(t *testing.T) {
	dir, _ := demoJobsDone(t)
	tr, err := runTrial(dir)
	if err != nil {
		t.Fatal(err)
	}
	outcomes := map[string]int{}
	for _, c := range tr.Callbacks {
		outcomes[c.Outcome]++
	}
	if outcomes["hit"] != 2 || outcomes["miss"] != 1 || outcomes["outside"] != 1 || len(tr.Alarms) != 0 {
		t.Errorf("callbacks %v, false alarms %v", outcomes, tr.Alarms)
	}
}
