package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"

	"github.com/spf13/cobra"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/sheet/read"
	"dryfit/watch"
)

type checkFlags struct {
	noWrite, json, allSteps bool
	only                    []string
	units                   string
}

func checkCommand() *cobra.Command {
	var f checkFlags
	cmd := &cobra.Command{
		Use:   "check PATH...",
		Short: "Check job folders, workbooks or a root of job folders",
		Long: `Check job folders, single workbooks, or a root of job folders. The result tabs are written into
each workbook that holds a part schedule; everything else in it stays as it was. A workbook that
somebody has open is left alone: its results go beside it.

It prints a line a job, then what is open in each, with the cell it stands in and what clears it:
  HOLD         do not cut: it fails as typed
  VERIFY       measure or confirm the one value named
  NOT CHECKED  fill the cell named
The exit code is 0 with no open HOLD, 1 with one, 2 if a job could not be read.`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error { return checkPaths(cmd, args, f) },
	}
	cmd.Flags().BoolVar(&f.noWrite, "no-write", false, "only report; change no file at all")
	cmd.Flags().BoolVar(&f.json, "json", false, "print the report as JSON")
	cmd.Flags().BoolVar(&f.allSteps, "all-steps", false, "with --json: CLEAR results with their working too")
	cmd.Flags().StringSliceVar(&f.only, "only", nil, "only these checks or rooms, such as fit,structure.sag")
	cmd.Flags().StringVar(&f.units, "units", "", "work and print in this unit: in or mm (default: as the job is typed)")
	return cmd
}

func checkPaths(cmd *cobra.Command, paths []string, f checkFlags) error {
	checks, err := chosen(f.only)
	if err != nil {
		return err
	}
	unit, known := map[string]length.Unit{"": length.Unsaid, "in": length.Inch, "mm": length.Millimetre}[f.units]
	if !known {
		return fmt.Errorf("--units %s: in or mm is wanted", f.units)
	}
	var all []outcome
	var roots []string
	for _, path := range paths {
		s, places, err := find(path)
		if err != nil {
			return err
		}
		roots = append(roots, path)
		s.unit = unit
		done, err := workAll(cmd.Context(), &s, places, options{checks: checks, write: !f.noWrite})
		if err != nil {
			return err
		}
		for _, n := range s.notes {
			fmt.Fprintln(cmd.ErrOrStderr(), n)
		}
		all = append(all, done...)
	}
	if f.json {
		err = printJSON(cmd.OutOrStdout(), strings.Join(roots, ", "), all, f.allSteps)
	} else {
		printReport(cmd.OutOrStdout(), all)
	}
	if err != nil {
		return err
	}
	return verdictOf(all)
}

// workAll does the jobs of one root side by side on all cores, and returns them in order.
// While results are written, no other dryfit may write below the same root.
func workAll(ctx context.Context, s *shop, places []place, o options) ([]outcome, error) {
	if ctx == nil {
		ctx = context.Background()
	}
	if o.write {
		release, err := watch.Lock(s.root)
		if err != nil {
			return nil, err
		}
		defer release()
		notes, err := watch.Recover(ctx, s.root)
		if err != nil {
			return nil, fmt.Errorf("putting right what a broken run left: %w", err)
		}
		s.notes = append(s.notes, notes...)
	}
	out := make([]outcome, len(places))
	var wait sync.WaitGroup
	slots := make(chan struct{}, runtime.NumCPU())
	for i, p := range places {
		wait.Add(1)
		slots <- struct{}{}
		go func() {
			defer wait.Done()
			out[i] = work(ctx, *s, p, o)
			<-slots
		}()
	}
	wait.Wait()
	return jobsAmong(out), nil
}

// jobsAmong leaves out the folders that turned out to be no jobs: the root, and a folder
// inside a job folder, where they hold no part schedule.
func jobsAmong(all []outcome) []outcome {
	inJob := func(path string) bool {
		return slices.ContainsFunc(all, func(o outcome) bool {
			return !errors.Is(o.err, read.ErrNoParts) && strings.HasPrefix(path, o.place.path+string(filepath.Separator))
		})
	}
	var out []outcome
	for _, o := range all {
		if errors.Is(o.err, read.ErrNoParts) && (o.place.root || inJob(o.place.path)) {
			continue
		}
		out = append(out, o)
	}
	return out
}

// verdictOf is the exit code of a run.
func verdictOf(all []outcome) error {
	code := exit(exitClear)
	for _, o := range all {
		switch {
		case o.err != nil:
			return exit(exitFailed)
		case o.report.Verdict == check.Hold:
			code = exitHold
		}
	}
	if code == exitClear {
		return nil
	}
	return code
}

func room(id string) string { return strings.SplitN(id, ".", 2)[0] }
