package main

import (
	"fmt"
	"path/filepath"
	"runtime/debug"

	"github.com/spf13/cobra"

	"dryfit/sheet/read"
)

// readIn is what reading may take before the collector works harder, in bytes: with it a list
// of 50,000 rows is read in less than 100 MiB.
const readIn = 80 << 20

func readCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "read PATH",
		Short: "Show how a workbook was understood",
		Long: `Show how a workbook was understood: its tabs, header cells, columns and units, each row as it was
read, and each cell that was not used. The first thing to run on a strange workbook.`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			debug.SetMemoryLimit(readIn)
			s, places, err := find(args[0])
			if err != nil {
				return err
			}
			var books []*read.Book
			failed := false
			for _, p := range places {
				for _, path := range p.books {
					b, err := openBook(s, path)
					if err != nil {
						fmt.Fprintf(cmd.ErrOrStderr(), "%s: %v\n", filepath.ToSlash(path), err)
						failed = true
						continue
					}
					books = append(books, b.read)
				}
			}
			if asJSON {
				err = read.JSON(cmd.OutOrStdout(), books)
			} else {
				read.Print(cmd.OutOrStdout(), books)
			}
			if err == nil && failed {
				return exit(exitFailed)
			}
			return err
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the reading as JSON")
	return cmd
}
