package main

import (
	"encoding/json"
	"io"
	"time"

	"dryfit/check"
)

// The JSON report, schema 1. Names are kept: scripts rely on them.
type jsonReport struct {
	Schema  int       `json:"schema"`
	Tool    string    `json:"tool"`
	Version string    `json:"version"`
	Time    string    `json:"time"`
	Root    string    `json:"root"`
	Jobs    []jsonJob `json:"jobs"`
}

type jsonJob struct {
	Job      string           `json:"job"`
	Path     string           `json:"path"`
	Verdict  string           `json:"verdict"`
	Units    string           `json:"units"`
	Books    []check.Book     `json:"books"`
	Counts   check.Counts     `json:"counts"`
	Findings []*check.Finding `json:"findings"`
	Coverage []check.Covered  `json:"coverage"`
	Written  []string         `json:"written"`
	Notes    []string         `json:"notes"`
	Error    string           `json:"error"`
}

func printJSON(w io.Writer, root string, all []outcome, clear bool) error {
	r := jsonReport{Schema: 1, Tool: "dryfit", Version: version, Time: time.Now().Format(time.RFC3339), Root: root, Jobs: []jsonJob{}}
	for _, o := range all {
		r.Jobs = append(r.Jobs, jsonOf(o, clear))
	}
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	e.SetEscapeHTML(false)
	return e.Encode(r)
}

func jsonOf(o outcome, clear bool) jsonJob {
	j := jsonJob{Job: o.place.name, Path: o.place.path, Books: []check.Book{}, Findings: []*check.Finding{},
		Coverage: []check.Covered{}, Written: list(o.written), Notes: list(o.notes)}
	if o.err != nil {
		j.Error = oneLine(o.err.Error())
	}
	if o.report == nil {
		j.Verdict = check.NotChecked.String()
		return j
	}
	j.Verdict, j.Units, j.Counts = o.report.Verdict.String(), o.report.Job.Unit.String(), o.report.Counts
	j.Books = append(j.Books, o.report.Job.Books...)
	j.Findings = append(j.Findings, o.report.Findings...)
	j.Coverage = append(j.Coverage, o.report.Coverage...)
	j.Notes = append(j.Notes, o.report.Job.Notes...)
	if clear {
		for _, r := range o.report.Clear {
			j.Findings = append(j.Findings, check.Single(r))
		}
	}
	return j
}

// list is never null in the report.
func list(s []string) []string { return append([]string{}, s...) }
