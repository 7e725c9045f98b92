package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"dryfit/check"
	"dryfit/check/catalogue"
	"dryfit/sheet/inputs"
	"dryfit/sheet/read"
	"dryfit/watch"
)

func inputsCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "inputs JOB",
		Short: "Write a workbook for what a job still lacks, with the form to measure by",
		Long: `Write an input workbook beside the schedule of a job, NAME inputs.xlsx: a tab for each thing the
job lacks (the way in, the opening as measured, joints, loads, runs), filled in with what dryfit finds by
itself, and the measure form to print, a turning value beside each box that decides. What is typed in it is
read by every other command. Run again, it adds what is newly lacking and leaves alone what was typed.`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			s, places, err := find(args[0])
			if err != nil {
				return err
			}
			err = writeInputs(cmd, s, places[0]) // the folder itself comes first
			if len(places) > 1 && errors.Is(err, read.ErrNoParts) {
				return fmt.Errorf("%s holds no part schedule itself; name the folder of one job", args[0])
			}
			return err
		},
	}
}

func writeInputs(cmd *cobra.Command, s shop, p place) error {
	ctx := cmd.Context()
	if ctx == nil {
		ctx = context.Background()
	}
	var out outcome
	books, job, err := understand(s, p, &out)
	if err != nil {
		return fmt.Errorf("%s: %w", p.name, err)
	}
	path := inputsPath(books)
	release, err := watch.Lock(s.root)
	if err != nil {
		return err
	}
	defer release()
	old, err := os.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	data, done, err := inputs.Write(check.Examine(catalogue.All, job, nil), old)
	if err != nil {
		return fmt.Errorf("%s: %w", filepath.ToSlash(path), err)
	}
	for _, n := range out.notes {
		fmt.Fprintln(cmd.ErrOrStderr(), n)
	}
	if len(done) == 0 {
		return tellNothing(cmd.OutOrStdout(), path, old)
	}
	var was watch.Hash
	if old != nil {
		was = watch.Sum(old)
	}
	if _, err := watch.Replace(ctx, watch.Change{Root: s.root, Path: path, Was: was, New: data}); err != nil && !errors.Is(err, watch.ErrUnfinished) {
		return err
	}
	return tellWritten(cmd.OutOrStdout(), path, done)
}

// inputsPath is beside the first workbook that holds a part schedule.
func inputsPath(books []book) string {
	for _, b := range books {
		if hasParts(b.read) {
			return inputs.Path(b.path)
		}
	}
	return inputs.Path(books[0].path)
}

func tellNothing(w io.Writer, path string, old []byte) error {
	if old == nil {
		fmt.Fprintln(w, "nothing is lacking: the job says all that dryfit asks for")
		return nil
	}
	fmt.Fprintf(w, "%s: nothing is newly lacking; it was left as it is\n", filepath.ToSlash(near(path)))
	return nil
}

func tellWritten(w io.Writer, path string, done []string) error {
	fmt.Fprintf(w, "%s: written\n", filepath.ToSlash(near(path)))
	for _, d := range done {
		fmt.Fprintf(w, "  %s\n", d)
	}
	return nil
}
