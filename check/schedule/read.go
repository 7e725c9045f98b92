package schedule

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// Read asks whether every row says what it must: a quantity and three sizes that can be
// read in one way and could be a part.
var Read = &check.Check{
	ID:      "schedule.read",
	Asks:    "Does the row say a quantity and three sizes that can be read in one way, and could they be a part?",
	Costs:   "a part cut from a misread cell, found when it does not fit",
	Applies: "every row of the part schedule that is a part",
	Inputs: []check.Input{
		{Symbol: "n", Name: "cells that cannot be read or cannot be", Unit: check.Count},
		{Symbol: "d", Name: "difference between the readings", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "m", Name: "nothing left open", Formula: "0-n-d", Unit: check.Count},
	},
	NoMend: "type the size again, in one way",
	Source: []check.Source{{Title: "a size has one reading; no part is thicker than it is wide", How: "common practice"}},
	Limits: "Does not know whether a readable size is the right one.",
	Until:  check.Released,
	Root:   true,
	Value:  "n",
	Fails:  `thickness "3/4ish", or 4 thick and 3/4 wide`,
	Mended: `thickness "3/4"`,
	Rows:   readRows,
	Says:   func(r *check.Result) string { return r.Row.Words["says"] },
	Way: func(r *check.Result) string {
		if r.Verdict == check.Verify {
			return "type it again, in one way"
		}
		return ""
	},
}

func readRows(j *check.Job) []check.Row {
	unread := map[string][]check.Unread{}
	for _, u := range j.Unread {
		unread[line(u.Cell)] = append(unread[line(u.Cell)], u)
	}
	var out []check.Row
	for _, p := range j.Pieces() {
		if p.Role == check.Trim {
			continue
		}
		rows := readProblems(j, p, unread[line(p.Row)])
		if len(rows) == 0 {
			r := row(p, "")
			r.In["n"], r.In["d"] = check.Exact(0), check.Exact(0)
			rows = append(rows, r)
		}
		out = append(out, rows...)
	}
	return out
}

// line is the row of a tab in which a cell stands.
func line(c check.Cell) string {
	return c.Book + "|" + c.Tab + "|" + strings.TrimLeft(c.Addr, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
}

func readProblems(j *check.Job, p *check.Part, unread []check.Unread) []check.Row {
	var out []check.Row
	told := map[check.Cell]bool{}
	for _, u := range unread {
		if u.Wants == "" {
			continue // a note or a column of the office's own: told by the reader, stops no cut
		}
		told[u.Cell] = true
		if broken(u) {
			continue // told by schedule.formulas
		}
		out = append(out, hold(p, u.Wants, u.Cell, fmt.Sprintf("reads %s; %s", check.Typed(u.Text), u.Why)))
	}
	for _, d := range p.Doubts {
		if told[d.Cell] {
			continue
		}
		told[d.Cell] = true
		out = append(out, doubt(p, d))
	}
	for _, s := range p.Sizes() {
		if s.Value.Known && s.Value.Nominal <= 0 {
			out = append(out, hold(p, s.Field, s.Value.From, fmt.Sprintf("%s %s cannot be", s.Field, j.Len(s.Value.Nominal))))
		}
	}
	if p.Qty.Known && p.Qty.Nominal <= 0 {
		out = append(out, hold(p, "quantity", p.Qty.From, fmt.Sprintf("quantity %g cannot be; leave the row out or strike it", p.Qty.Nominal)))
	}
	if p.Thickness.Known && p.Width.Known && p.Thickness.Low > p.Width.High && p.Width.Nominal > 0 {
		out = append(out, hold(p, "thickness over width", p.Thickness.From,
			fmt.Sprintf("%s thick but only %s wide", j.Len(p.Thickness.Nominal), j.Len(p.Width.Nominal))))
	}
	if p.Thickness.Known && p.Length.Known && p.Thickness.Low > p.Length.High && p.Length.Nominal > 0 {
		out = append(out, hold(p, "thickness over length", p.Length.From,
			fmt.Sprintf("%s thick but only %s long", j.Len(p.Thickness.Nominal), j.Len(p.Length.Nominal))))
	}
	if !p.FitOnSite() {
		out = append(out, absent(p, told)...)
	}
	return out
}

// absent are the sizes and the quantity that nobody typed. One column that is missing in a
// tab is one line, so the question names the column, not the row.
func absent(p *check.Part, told map[check.Cell]bool) []check.Row {
	var out []check.Row
	for _, s := range append(p.Sizes(), check.Size{Field: "quantity", Value: p.Qty}) {
		if s.Value.Known || told[s.Value.From] && s.Value.From != (check.Cell{}) || len(told) > 0 {
			continue
		}
		r := row(p, "no "+s.Field, s.Value.Ask.Cell)
		r.In["d"] = check.Exact(0)
		r.In["n"] = check.Missing(check.Ask{Cell: s.Value.Ask.Cell, What: "the " + s.Field, Says: s.Field + " is not given"})
		out = append(out, r)
	}
	return out
}

func hold(p *check.Part, cause string, c check.Cell, says string) check.Row {
	r := row(p, cause, c)
	r.In["n"], r.In["d"] = check.Exact(1), check.Exact(0)
	r.Words["says"] = says
	return r
}

// doubt carries both readings as a range: the guess alone makes it VERIFY.
func doubt(p *check.Part, d check.Doubt) check.Row {
	r := row(p, d.Field, d.Cell)
	r.In["n"] = check.Exact(0)
	r.In["d"] = check.Guess(0, 0, 1, "readings of "+d.Cell.String()).At(d.Cell)
	r.Words["says"] = fmt.Sprintf("%s %s reads as %s: %s", d.Field, check.Typed(d.Text), strings.Join(d.Readings, " or "), d.Why)
	return r
}
