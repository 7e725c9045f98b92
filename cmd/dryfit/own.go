package main

import (
	"slices"

	"dryfit/check"
	"dryfit/sheet/read"
	"dryfit/sheet/standards"
)

// jobStandards is what the standards tabs in the workbooks of one job say.
type jobStandards struct {
	standards.Standards
	tabs map[check.Cell]bool // book and tab of each
}

// ownStandards reads the standards tabs of a job, in the workbooks that hold a tab which is
// nothing else. The shop's own workbook is none of them.
func ownStandards(s shop, books []book) jobStandards {
	own := jobStandards{tabs: map[check.Cell]bool{}}
	for _, b := range books {
		if b.path == s.from || !mayHoldStandards(b.read) {
			continue
		}
		st, err := standards.ReadJob(b.path, b.data)
		if err != nil {
			continue
		}
		for _, t := range st.Tabs {
			own.tabs[check.Cell{Book: b.path, Tab: t.Name}] = true
		}
		own.Tabs = append(own.Tabs, st.Tabs...)
		own.Entries = append(own.Entries, st.Entries...)
		own.Words = append(own.Words, st.Words...)
		own.Problems = append(own.Problems, st.Problems...)
	}
	return own
}

// mayHoldStandards reports whether a workbook has a tab, not empty, that the reader made
// nothing of.
func mayHoldStandards(b *read.Book) bool {
	return slices.ContainsFunc(b.Tabs, func(t *read.Tab) bool {
		return t.Kind == "ignored" && t.Why != "empty" && t.Why != "written by dryfit"
	})
}

// name calls the tabs by what they are, and tells their faults.
func (own jobStandards) name(j *check.Job, out *outcome) {
	for i, b := range j.Books {
		for k, t := range b.Tabs {
			if own.tabs[check.Cell{Book: b.Path, Tab: t.Name}] {
				j.Books[i].Tabs[k].Kind, j.Books[i].Tabs[k].Why = "standards", ""
			}
		}
	}
	for _, p := range own.Problems {
		out.notes = append(out.notes, p.Error())
	}
}
