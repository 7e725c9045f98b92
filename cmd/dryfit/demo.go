package main

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"dryfit/check"
	"dryfit/check/catalogue"
	"dryfit/check/standard"
	"dryfit/sheet/draft"
	"dryfit/sheet/standards"
)

// demoShop is the invented shop: a folder a job, each workbook written down as plain text.
//
//go:embed demo
var demoShop embed.FS

// demoJobs are the jobs of the demo that are no longer before cut.
var demoJobs = []standards.Job{
	{Folder: "2519 Tide gauge hut", Active: true, Stage: check.Shipped.String(), Note: "its tab of callbacks is for dryfit trial"},
	{Folder: "2608 Semaphore cabin", Active: true, Stage: check.Finished.String()},
}

func demoCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "demo [DIR]",
		Short: "Make an invented shop, check it, say what to open",
		Long: `Make an invented shop in DIR (default dryfit-demo): a standards workbook and sixteen job folders
whose schedules are typed in different habits. Every check finds something in one of them; the
Loom studio is sound. Check it and say what to open. A workbook that is there already is checked
as it is, so that you can change it and look again.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			dir := "dryfit-demo"
			if len(args) == 1 {
				dir = args[0]
			}
			if err := makeShop(dir); err != nil {
				return err
			}
			s, places, err := find(dir)
			if err != nil {
				return err
			}
			all, err := workAll(cmd.Context(), &s, places, options{checks: catalogue.All, write: true})
			if err != nil {
				return err
			}
			fmt.Fprintf(cmd.OutOrStdout(), "An invented shop stands in %s. Checked:\n\n", filepath.ToSlash(dir))
			printReport(cmd.OutOrStdout(), all)
			fmt.Fprintln(cmd.OutOrStdout(), "\nChange a size in a schedule, save it, and run the same line again: what is there is checked as it is.")
			return failures(all)
		},
	}
}

// failures is exit code 2 if a job could not be read; that the demo holds mistakes is no
// failure of the demo.
func failures(all []outcome) error {
	for _, o := range all {
		if o.err != nil {
			return exit(exitFailed)
		}
	}
	return nil
}

// makeShop writes the workbooks of the demo that are not there yet.
func makeShop(dir string) error {
	err := fs.WalkDir(demoShop, "demo", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(demoShop, path)
		if err != nil {
			return err
		}
		data, err := draft.Workbook(string(text))
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		rel := strings.TrimSuffix(strings.TrimPrefix(path, "demo/"), ".txt") + ".xlsx"
		return create(filepath.Join(dir, filepath.FromSlash(rel)), data)
	})
	if err != nil {
		return err
	}
	data, err := standards.Write(standard.BuiltIn(), standards.Draft{Shop: "Fernhollow Millwork (invented)", Jobs: demoJobs})
	if err != nil {
		return err
	}
	return create(filepath.Join(dir, standardsName), data)
}

// create writes a file unless it is there already.
func create(path string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}
