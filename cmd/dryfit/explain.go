package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"dryfit/check"
	"dryfit/check/catalogue"
)

func explainCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "explain [ID]",
		Short: "Print the page of one check, or the list of all",
		Args:  cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				for _, c := range catalogue.All {
					fmt.Fprintf(cmd.OutOrStdout(), "%-20s %s\n", c.ID, c.Asks)
				}
				return nil
			}
			c, ok := catalogue.Find(args[0])
			if !ok {
				return fmt.Errorf("no check is called %q; \"dryfit explain\" lists them", args[0])
			}
			explain(cmd.OutOrStdout(), c)
			return nil
		},
	}
}

// explain prints the page of a check from its fields.
func explain(w io.Writer, c *check.Check) {
	fmt.Fprintf(w, "%s\n\n%s\n\n", c.ID, c.Asks)
	fmt.Fprintf(w, "What it costs when nobody asks: %s.\nApplies to: %s.\nAsked until: %s.\n", c.Costs, c.Applies, c.Until)
	fmt.Fprintln(w, "\nInputs")
	for _, in := range c.Inputs {
		fmt.Fprintf(w, "  %-4s %s (%s)\n", in.Symbol, in.Name, in.Unit)
	}
	fmt.Fprintln(w, "\nWorking")
	for _, s := range c.Steps {
		fmt.Fprintf(w, "  %-4s = %s\n         %s (%s)\n", s.Symbol, s.Formula, s.Name, s.Unit)
	}
	last := c.Steps[len(c.Steps)-1]
	fmt.Fprintf(w, "\nVerdict: passes where %s, %s, is at or above zero.\n%s", last.Symbol, last.Name, rule)
	fmt.Fprintln(w, "\nWhat clears it")
	for _, m := range c.Mends {
		fmt.Fprintf(w, "  %s\n", strings.ReplaceAll(m.Order, "{}", m.Symbol))
	}
	if c.NoMend != "" {
		fmt.Fprintf(w, "  else: %s\n", c.NoMend)
	}
	fmt.Fprintln(w, "\nSource")
	for _, s := range c.Source {
		fmt.Fprintf(w, "  %s (%s)\n", s.Title, s.How)
	}
	fmt.Fprintf(w, "\nDoes not see: %s\n\nFails:  %s\nMended: %s\n", c.Limits, c.Fails, c.Mended)
}

const rule = `  HOLD         fails as typed, even with every guess at its kindest
  VERIFY       fails for some values inside the ranges of its inputs, not for all
  CLEAR        passes everywhere inside the ranges
  NOT CHECKED  an input is missing
`
