package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"dryfit/check/standard"
	"dryfit/sheet/standards"
	"dryfit/watch"
)

// standardsName is what a new standards workbook is called; an old one is known by its tabs.
const standardsName = "shop standards.xlsx"

func standardsCommand() *cobra.Command {
	var check, update bool
	cmd := &cobra.Command{
		Use:   "standards ROOT",
		Short: "Write, check or update the shop's standards workbook",
		Long: `Write the shop's standards workbook into ROOT, the folder that holds the job folders: every value
the checks go by, with its range and source, to be replaced by the shop's own. If there is one
already, it is left as it is. What the shop types in it rules in every job from then on, and the
working says so.`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			path, data, err := standardsIn(args[0])
			switch {
			case err != nil:
				return err
			case check && path == "":
				return fmt.Errorf("%s: no standards workbook in it; \"dryfit standards %s\" writes one", args[0], args[0])
			case check:
				return checkStandards(cmd, path, data)
			case update && path != "":
				return updateStandards(cmd, args[0], path, data)
			case path != "":
				fmt.Fprintf(cmd.OutOrStdout(), "%s is there already and was left as it is; --check validates it, --update adds what is new\n", filepath.ToSlash(path))
				return nil
			}
			return writeStandards(cmd, filepath.Join(args[0], standardsName))
		},
	}
	cmd.Flags().BoolVar(&check, "check", false, "name every cell that makes no sense, and what would")
	cmd.Flags().BoolVar(&update, "update", false, "add what a newer version brings; touch nothing typed")
	return cmd
}

// standardsIn finds the standards workbook of a root; no path if there is none. A second version
// that a sync client made of it is not taken for it.
func standardsIn(root string) (string, []byte, error) {
	folder, err := watch.FolderAt(root)
	if err != nil {
		return "", nil, err
	}
	for _, b := range folder.Books {
		path := filepath.Join(root, filepath.Base(b.Path))
		data, err := os.ReadFile(path)
		if err != nil {
			return "", nil, err
		}
		if _, err := standards.Read(path, data); err == nil {
			return path, data, nil
		}
	}
	return "", nil, nil
}

func writeStandards(cmd *cobra.Command, path string) error {
	data, err := standards.Write(standard.BuiltIn(), standards.Draft{})
	if err != nil {
		return err
	}
	if err := create(path, data); err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "%s: written with %d built-in values; type the shop's own beside them\n", filepath.ToSlash(path), len(standard.BuiltIn().Entries()))
	return nil
}

func checkStandards(cmd *cobra.Command, path string, data []byte) error {
	st, err := standards.Read(path, data)
	if err != nil {
		return err
	}
	for _, p := range st.Problems {
		fmt.Fprintln(cmd.OutOrStdout(), p.Error())
	}
	for _, n := range st.Notes {
		fmt.Fprintln(cmd.OutOrStdout(), n)
	}
	if len(st.Problems) > 0 {
		return exit(exitFailed)
	}
	fmt.Fprintf(cmd.OutOrStdout(), "%s: %d values and %d words of the shop's own, all of them in reason\n", filepath.ToSlash(path), len(st.Entries), len(st.Words))
	return nil
}

func updateStandards(cmd *cobra.Command, root, path string, data []byte) error {
	updated, done, err := standards.Update(path, data)
	if err != nil {
		return err
	}
	release, err := watch.Lock(root)
	if err != nil {
		return err
	}
	defer release()
	ctx := cmd.Context()
	if ctx == nil {
		ctx = context.Background()
	}
	res, err := watch.Replace(ctx, watch.Change{Root: root, Path: path, Was: watch.Sum(data), New: updated})
	if err != nil && !errors.Is(err, watch.ErrUnfinished) {
		return err
	}
	if !res.Written {
		fmt.Fprintf(cmd.OutOrStdout(), "%s: nothing is new\n", filepath.ToSlash(path))
		return nil
	}
	for _, d := range done {
		fmt.Fprintln(cmd.OutOrStdout(), d)
	}
	return nil
}
