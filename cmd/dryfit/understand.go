package main

import (
	"fmt"
	"slices"

	"dryfit/check"
	"dryfit/check/infer"
	"dryfit/check/length"
	"dryfit/sheet/gate"
	"dryfit/sheet/inputs"
	"dryfit/sheet/read"
)

// understand reads the workbooks of a job and infers what they leave unsaid. Standards of the
// job's own rule over those of the shop.
func understand(s shop, p place, out *outcome) ([]book, *check.Job, error) {
	books, err := openBooks(s, p, out)
	if err != nil {
		return nil, nil, err
	}
	own := ownStandards(s, books)
	if len(own.Tabs) > 0 {
		s.table = own.Over(s.table)
		out.notes, out.err = slices.Clone(p.notes), nil
		if books, err = openBooks(s, p, out); err != nil {
			return nil, nil, err
		}
	}
	job, err := assemble(s, p, readings(books))
	if err != nil {
		return nil, nil, err
	}
	if n := len(job.Parts); n > gate.MaxParts {
		return nil, nil, fmt.Errorf("%d rows of parts, more than the %d that are checked in one go; give each part of the job a folder of its own", n, gate.MaxParts)
	}
	own.name(job, out)
	if err := settleInputs(job, books); err != nil {
		out.notes = append(out.notes, err.Error())
	}
	infer.Complete(job)
	read.SettleSlots(job, readings(books))
	return books, job, nil
}

// assemble makes the job in the unit that was asked for, else in its own.
func assemble(s shop, p place, books []*read.Book) (*check.Job, error) {
	if s.unit == length.Unsaid {
		return read.Job(p.name, p.path, books, s.table)
	}
	return read.JobIn(s.unit, p.name, p.path, books, s.table)
}

// settleInputs takes out what dryfit filled in and nobody confirmed.
func settleInputs(job *check.Job, books []book) error {
	for _, b := range books {
		if !hasAside(b.read, inputs.Confirmed) {
			continue
		}
		if err := inputs.Settle(job, b.path, b.data); err != nil {
			return err
		}
	}
	return nil
}

// hasAside reports whether a tab has a header word that the reader has no use for.
func hasAside(b *read.Book, word string) bool {
	for _, t := range b.Tabs {
		for _, u := range slices.Concat(t.Aside, t.Unread) {
			if u.Text == word {
				return true
			}
		}
	}
	return false
}
