package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"dryfit/check/catalogue"
)

// complete says what a shell may offer behind each command, for "dryfit completion".
func complete(root *cobra.Command) {
	for _, c := range root.Commands() {
		switch c.Name() {
		case "explain":
			c.ValidArgsFunction = offerIDs
		case "check":
			_ = c.RegisterFlagCompletionFunc("only", offerOnly) // fails only for a flag that is not there
			_ = c.RegisterFlagCompletionFunc("units", cobra.FixedCompletions([]cobra.Completion{"in", "mm"}, cobra.ShellCompDirectiveNoFileComp))
		case "demo", "inputs", "standards", "nightly", "watch", "trial":
			c.ValidArgsFunction = offerFolder
		}
	}
}

// offerIDs offers the checks, each with what it asks.
func offerIDs(_ *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	var out []cobra.Completion
	for _, c := range catalogue.All {
		if len(args) == 0 && strings.HasPrefix(c.ID, begun) {
			out = append(out, cobra.CompletionWithDesc(c.ID, c.Asks))
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

// offerOnly offers rooms and checks behind the last comma.
func offerOnly(_ *cobra.Command, _ []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	before := begun[:strings.LastIndex(begun, ",")+1]
	var names []string
	for _, c := range catalogue.All {
		names = append(names, room(c.ID), c.ID)
	}
	slices.Sort(names)
	var out []cobra.Completion
	for _, n := range slices.Compact(names) {
		if strings.HasPrefix(n, begun[len(before):]) {
			out = append(out, before+n)
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
}

func offerFolder(_ *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return nil, cobra.ShellCompDirectiveFilterDirs
}
