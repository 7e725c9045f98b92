// Package write turns a report into result tabs: the front, the flagged rows, the schedule
// in colour, the coverage, the working and the page for the crew. It knows no rule: verdicts,
// sentences and numbers come from the report. Nothing in the tabs depends on the clock, so that
// an unchanged job gives unchanged bytes.
package write
