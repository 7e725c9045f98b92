package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"dryfit/check/catalogue"
)

func explainCommand() *cobra.Command {
	var all bool
	cmd := &cobra.Command{
		Use:   "explain [ID]",
		Short: "Print the page of one check, or the list of all",
		Long: `Print the list of the checks, or the page of one: what it asks, what it costs on site when nobody
asks, its inputs and working, where its rule comes from, what it does not see, and an example that
fails with the same one mended. With --all the pages of all checks, as Markdown, to print or to keep.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case all && len(args) > 0:
				return fmt.Errorf("either --all or the name of one check, not both")
			case all:
				printManual(cmd.OutOrStdout(), catalogue.All)
				return nil
			case len(args) == 0:
				printList(cmd.OutOrStdout())
				return nil
			}
			c, ok := catalogue.Find(args[0])
			if !ok {
				return fmt.Errorf("no check is called %q; \"dryfit explain\" lists them", args[0])
			}
			printPage(cmd.OutOrStdout(), c)
			return nil
		},
	}
	cmd.Flags().BoolVar(&all, "all", false, "the pages of all checks, as Markdown")
	return cmd
}

func printList(w io.Writer) {
	for _, c := range catalogue.All {
		fmt.Fprintf(w, "%-20s %s\n", c.ID, c.Asks)
	}
}
