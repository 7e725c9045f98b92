package main

import (
	"strings"

	"github.com/spf13/cobra"
)

// examples are what the help of each command shows. They speak of the demo shop, so that
// everybody can run them after "dryfit demo"; a test runs them all, in this order.
var examples = []struct {
	group, command string
	lines          []string
}{
	{"begin", "demo", []string{
		`dryfit demo`,
		`dryfit demo "/tmp/my shop"`,
	}},
	{"begin", "read", []string{
		`dryfit read "dryfit-demo/2614 Probenraum Blaskapelle/Stueckliste.xlsx"`,
		`dryfit read "dryfit-demo/2617 Observatory library"`,
		`dryfit read --json "dryfit-demo/2629 Loom studio"`,
	}},
	{"begin", "check", []string{
		`dryfit check --no-write "dryfit-demo/2620 Tea counter"`,
		`dryfit check dryfit-demo`,
		`dryfit check --no-write --only fit,structure.sag --units mm --json dryfit-demo`,
	}},
	{"begin", "explain", []string{
		`dryfit explain`,
		`dryfit explain fit.joint`,
		`dryfit explain --all >checks.md`,
	}},
	{"shop", "inputs", []string{
		`dryfit inputs "dryfit-demo/2626 Toy library wall"`,
		`dryfit inputs "dryfit-demo/2617 Observatory library"`,
	}},
	{"shop", "standards", []string{
		`dryfit standards dryfit-demo`,
		`dryfit standards --check dryfit-demo`,
		`dryfit standards --update dryfit-demo`,
	}},
	{"shop", "nightly", []string{
		`dryfit nightly dryfit-demo`,
		`dryfit nightly --all dryfit-demo 2>night.log`,
	}},
	{"shop", "watch", []string{
		`dryfit watch dryfit-demo`,
		`dryfit watch --poll dryfit-demo 2>watch.log`,
	}},
	{"shop", "trial", []string{
		`dryfit trial dryfit-demo`,
		`dryfit trial --json dryfit-demo`,
	}},
	{"tool", "version", []string{
		`dryfit version`,
		`dryfit --version`,
	}},
}

// teach puts the examples into the help of the commands, and the commands in the order in
// which they are met.
func teach(root *cobra.Command) {
	cobra.EnableCommandSorting = false
	root.AddGroup(&cobra.Group{ID: "begin", Title: "To begin with:"}, &cobra.Group{ID: "shop", Title: "For the shop:"}, &cobra.Group{ID: "tool", Title: "About dryfit:"})
	root.SetHelpCommandGroupID("tool")
	root.SetCompletionCommandGroupID("tool")
	for _, e := range examples {
		for _, c := range root.Commands() {
			if c.Name() == e.command {
				c.GroupID, c.Example = e.group, "  "+strings.Join(e.lines, "\n  ")
			}
		}
	}
}
