package inputs

import (
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// survey is a job, what was asked of it and what came of it.
type survey struct {
	*check.Job
	results []*check.Result
	rep     *check.Report
}

func newSurvey(rep *check.Report) *survey {
	s := &survey{Job: rep.Job, rep: rep, results: rep.Clear}
	for _, f := range rep.Findings {
		s.results = append(s.results, f.Results...)
	}
	return s
}

func (s *survey) metric() bool { return s.Unit == length.Millimetre }

// either gives the text for a job in inches, or in millimetres.
func (s *survey) either(inch, metric string) string {
	if s.metric() {
		return metric
	}
	return inch
}

func (s *survey) unit() string { return s.either("in", "mm") }

// plan is the tabs for what the job lacks, in the order in which they are needed.
func (s *survey) plan() []*tab {
	var tabs []*tab
	for _, make := range []func() *tab{s.carryTab, s.siteTab, s.jointsTab, s.loadsTab, s.runsTab} {
		if t := make(); t != nil {
			tabs = append(tabs, t)
		}
	}
	return tabs
}

// named is what the tabs call a case.
func named(c check.Case) string {
	if c.Name == "" {
		return c.Room
	}
	return c.Name
}

// boxes are the cases that stand in an opening: those with sides; all, where none has any.
func (s *survey) boxes() []check.Case {
	var with, all []check.Case
	for _, c := range s.Cases() {
		all = append(all, c)
		if len(c.Role(check.Side)) > 0 {
			with = append(with, c)
		}
	}
	if len(with) == 0 {
		return all
	}
	return with
}

func joined(texts []string) string { return strings.Join(texts, " | ") }
