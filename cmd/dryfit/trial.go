package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"dryfit/check"
	"dryfit/check/catalogue"
	"dryfit/sheet/callbacks"
	"dryfit/sheet/read"
)

func trialCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "trial ROOT",
		Short: "Hold the checks against what went wrong with finished jobs",
		Long: `Hold the checks against finished jobs whose folder says what went wrong. A job says it on a tab of
callbacks, in any of its workbooks: header words "case | mark | what happened | check", a row for each thing
somebody was called back for. The check may be left out: it is found by the words. A tab without a row
says that nothing went wrong. Nothing is written.`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			t, err := runTrial(args[0])
			if err != nil {
				return err
			}
			if asJSON {
				err = t.printJSON(cmd.OutOrStdout())
			} else {
				t.print(cmd.OutOrStdout())
			}
			if err == nil && t.told() == 0 {
				return exit(exitFailed)
			}
			return err
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the outcome as JSON")
	return cmd
}

// trial is what came of it. Names in JSON are kept: scripts rely on them.
type trial struct {
	Schema    int             `json:"schema"`
	Tool      string          `json:"tool"`
	Version   string          `json:"version"`
	Root      string          `json:"root"`
	Jobs      []trialJob      `json:"jobs"`
	Checks    []*trialCheck   `json:"checks"`
	Callbacks []trialCallback `json:"callbacks"`
	Alarms    []trialAlarm    `json:"falseAlarms"`
}

// trialJob is one job of the trial.
type trialJob struct {
	Job       string `json:"job"`
	Told      bool   `json:"told"` // it has a tab of callbacks
	Callbacks int    `json:"callbacks"`
	Error     string `json:"error,omitempty"`
}

// trialCheck is the score of one check.
type trialCheck struct {
	ID          string `json:"id"`
	Hits        int    `json:"hits"`        // callbacks it would have told of
	ByVerify    int    `json:"byVerify"`    // hits that were only a VERIFY
	Misses      int    `json:"misses"`      // callbacks it ought to have told of, and was silent
	Asleep      int    `json:"asleep"`      // misses for want of an input
	FalseAlarms int    `json:"falseAlarms"` // a HOLD where nothing went wrong
	InVain      int    `json:"inVain"`      // a VERIFY where nothing went wrong
}

// trialCallback is what became of one callback.
type trialCallback struct {
	Job     string     `json:"job"`
	Cell    check.Cell `json:"cell"`
	Case    string     `json:"case,omitempty"`
	Marks   []string   `json:"marks,omitempty"`
	What    string     `json:"what"`
	Outcome string     `json:"outcome"` // hit, miss, asleep or outside
	Check   string     `json:"check,omitempty"`
	Verdict string     `json:"verdict,omitempty"`
	Finding string     `json:"finding,omitempty"` // key of the finding that told of it
}

// trialAlarm is a HOLD where nothing went wrong.
type trialAlarm struct {
	Job  string `json:"job"`
	ID   string `json:"id"`
	Text string `json:"text"`
}

func runTrial(root string) (*trial, error) {
	s, places, err := find(root)
	if err != nil {
		return nil, err
	}
	t := &trial{Schema: 1, Tool: "dryfit", Version: version, Root: root, Jobs: []trialJob{}, Checks: []*trialCheck{}, Callbacks: []trialCallback{}, Alarms: []trialAlarm{}}
	for _, c := range catalogue.All {
		t.Checks = append(t.Checks, &trialCheck{ID: c.ID})
	}
	for _, p := range places {
		t.job(s, p)
	}
	return t, nil
}

// job tries the checks on one job, as if it stood before the saw again, with no word of the
// lead's.
func (t *trial) job(s shop, p place) {
	j := trialJob{Job: p.name}
	books, job, err := understand(s, p, &outcome{})
	if errors.Is(err, read.ErrNoParts) && p.root {
		return
	}
	if err != nil {
		j.Error = oneLine(err.Error())
		t.Jobs = append(t.Jobs, j)
		return
	}
	var calls []callbacks.Callback
	for _, b := range books {
		list, found, err := callbacks.Read(b.path, b.data)
		if err != nil {
			j.Error = oneLine(err.Error())
			continue
		}
		j.Told = j.Told || found
		calls = append(calls, list...)
	}
	j.Callbacks = len(calls)
	t.Jobs = append(t.Jobs, j)
	if !j.Told {
		return
	}
	rep := check.Examine(catalogue.All, job, nil)
	right := map[*check.Finding]bool{}
	for _, c := range calls {
		t.callback(p.name, rep, c, right)
	}
	t.alarms(p.name, rep, right)
}

// callback looks for the finding that would have told of a callback, the loudest first.
func (t *trial) callback(job string, rep *check.Report, c callbacks.Callback, right map[*check.Finding]bool) {
	out := trialCallback{Job: job, Cell: c.Row, Case: c.Case, Marks: c.Marks, What: c.What, Outcome: "outside"}
	ids := accused(c.Check, c.What)
	var best *check.Finding
	for _, f := range rep.Findings {
		if asks(f, ids) == "" || !speaksOf(rep.Job, f, c) {
			continue
		}
		if f.Verdict == check.Hold || f.Verdict == check.Verify {
			right[f] = true
		}
		if best == nil || f.Verdict > best.Verdict {
			best = f
		}
	}
	switch {
	case len(ids) == 0:
	case best == nil:
		out.Outcome, out.Check = "miss", silent(rep, ids, c)
	case best.Verdict == check.NotChecked:
		out.Outcome, out.Check, out.Verdict, out.Finding = "asleep", asks(best, ids), best.Verdict.String(), best.Key
	default:
		out.Outcome, out.Check, out.Verdict, out.Finding = "hit", best.ID, best.Verdict.String(), best.Key
	}
	t.Callbacks = append(t.Callbacks, out)
	t.count(out)
}

// asks is the first of some checks that a finding is of; one about a missing tab is of many. ""
// for none.
func asks(f *check.Finding, ids []string) string {
	for _, id := range ids {
		if slices.ContainsFunc(f.Results, func(r *check.Result) bool { return r.Check.ID == id }) {
			return id
		}
	}
	return ""
}

func (t *trial) count(c trialCallback) {
	score := t.score(c.Check)
	switch c.Outcome {
	case "hit":
		score.Hits++
		if c.Verdict == check.Verify.String() {
			score.ByVerify++
		}
	case "asleep":
		score.Misses++
		score.Asleep++
	case "miss":
		score.Misses++
	}
}

func (t *trial) score(id string) *trialCheck {
	for _, c := range t.Checks {
		if c.ID == id {
			return c
		}
	}
	return &trialCheck{}
}

// speaksOf reports whether a finding speaks of what a callback names: one of its marks, else
// its case; a callback that names neither is of the whole job, as is a finding without marks.
func speaksOf(j *check.Job, f *check.Finding, c callbacks.Callback) bool {
	if len(c.Marks) == 0 && c.Case == "" || len(f.Marks) == 0 {
		return true
	}
	for _, m := range c.Marks {
		if slices.ContainsFunc(f.Marks, func(have string) bool { return strings.EqualFold(have, m) }) {
			return true
		}
	}
	if len(c.Marks) > 0 && f.Case == "" || c.Case == "" {
		return false
	}
	if f.Case != "" {
		return len(c.Marks) == 0 && check.Case{Name: f.Case}.Is(c.Case)
	}
	return slices.ContainsFunc(f.Marks, func(m string) bool {
		p := j.Part(m)
		return p != nil && (check.Case{Name: p.Case.Text, Room: p.Room.Text}).Is(c.Case)
	})
}

// silent is the check that a miss is counted against: the first that looked at what the
// callback names, else the first of those that ought to have told.
func silent(rep *check.Report, ids []string, c callbacks.Callback) string {
	for _, id := range ids {
		for _, covered := range rep.Coverage {
			if covered.ID == id && slices.Contains(c.Marks, covered.Mark) {
				return id
			}
		}
	}
	return ids[0]
}

// alarms counts the findings that no callback bears out.
func (t *trial) alarms(job string, rep *check.Report, right map[*check.Finding]bool) {
	for _, f := range rep.Findings {
		switch {
		case right[f]:
		case f.Verdict == check.Hold:
			t.score(f.ID).FalseAlarms++
			t.Alarms = append(t.Alarms, trialAlarm{Job: job, ID: f.ID, Text: f.Text})
		case f.Verdict == check.Verify:
			t.score(f.ID).InVain++
		}
	}
}

// told is how many jobs have a tab of callbacks.
func (t *trial) told() int {
	n := 0
	for _, j := range t.Jobs {
		if j.Told {
			n++
		}
	}
	return n
}

func (t *trial) printJSON(w io.Writer) error {
	t.Checks = t.spoke()
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	e.SetEscapeHTML(false)
	return e.Encode(t)
}

// spoke are the checks with anything to count.
func (t *trial) spoke() []*trialCheck {
	out := []*trialCheck{}
	for _, c := range t.Checks {
		if *c != (trialCheck{ID: c.ID}) {
			out = append(out, c)
		}
	}
	return out
}

func (t *trial) print(w io.Writer) {
	if t.told() == 0 {
		fmt.Fprintf(w, "No job in %s has a tab of callbacks, so there is nothing to hold the checks against.\n"+
			"Add one to a workbook of a finished job: a header \"case | mark | what happened | check\" and a row for each\n"+
			"thing somebody was called back for; no row, where nothing went wrong. The check may be left out.\n", filepath.ToSlash(t.Root))
		return
	}
	fmt.Fprintf(w, "%-22s %5s %10s %7s %8s %13s %8s\n", "check", "hits", "by VERIFY", "misses", "asleep", "false alarms", "in vain")
	total := trialCheck{ID: "all"}
	for _, c := range t.spoke() {
		c.line(w)
		total.Hits += c.Hits
		total.ByVerify += c.ByVerify
		total.Misses += c.Misses
		total.Asleep += c.Asleep
		total.FalseAlarms += c.FalseAlarms
		total.InVain += c.InVain
	}
	total.line(w)
	fmt.Fprint(w, "\nhits: told of before. by VERIFY: hits that were only a VERIFY. misses: ought to have been told of. asleep:\n"+
		"misses for want of an input. false alarms: a HOLD where nothing went wrong. in vain: a VERIFY where nothing did.\n")
	t.printCallbacks(w, "miss", "Missed")
	t.printCallbacks(w, "asleep", "Missed for want of an input")
	t.printAlarms(w)
	t.printCallbacks(w, "outside", "No check knows of it (name one in the check column if it should)")
	t.printJobs(w)
}

func (c *trialCheck) line(w io.Writer) {
	fmt.Fprintf(w, "%-22s %5d %10d %7d %8d %13d %8d\n", c.ID, c.Hits, c.ByVerify, c.Misses, c.Asleep, c.FalseAlarms, c.InVain)
}

func (t *trial) printCallbacks(w io.Writer, outcome, title string) {
	for _, c := range t.Callbacks {
		if c.Outcome != outcome {
			continue
		}
		if title != "" {
			fmt.Fprintf(w, "\n%s\n", title)
			title = ""
		}
		about := strings.TrimSpace(c.Case + " " + strings.Join(c.Marks, ", "))
		if about != "" {
			about += ": "
		}
		fmt.Fprintf(w, "  %-22s %s  %s%s [%s]\n", c.Check, c.Job, about, c.What, c.Cell)
	}
}

func (t *trial) printAlarms(w io.Writer) {
	for i, a := range t.Alarms {
		if i == 0 {
			fmt.Fprint(w, "\nFalse alarms\n")
		}
		fmt.Fprintf(w, "  %-22s %s  %s\n", a.ID, a.Job, a.Text)
	}
}

// printJobs says how many jobs the score rests on, and which do not count.
func (t *trial) printJobs(w io.Writer) {
	var untold, unread []string
	for _, j := range t.Jobs {
		switch {
		case j.Error != "":
			unread = append(unread, j.Job+": "+j.Error)
		case !j.Told:
			untold = append(untold, j.Job)
		}
	}
	fmt.Fprintf(w, "\n%d of %d jobs say what went wrong, in %d callbacks.\n", t.told(), len(t.Jobs), len(t.Callbacks))
	if len(untold) > 0 {
		fmt.Fprintf(w, "Left out, without a tab of callbacks: %s\n", strings.Join(untold, ", "))
	}
	for _, u := range unread {
		fmt.Fprintf(w, "Not read: %s\n", u)
	}
}
