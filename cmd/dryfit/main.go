// Command dryfit checks the part schedules of a millwork shop before the saw runs.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"

	"dryfit/check/catalogue"
)

// version is set by the build: -ldflags "-X main.version=1.2.3".
var version = "dev"

// Exit codes.
const (
	exitClear  = 0 // no open HOLD
	exitHold   = 1 // an open HOLD
	exitFailed = 2 // bad usage, or a job that could not be read
)

// exit is an error that only carries an exit code: what there is to say was said.
type exit int

func (e exit) Error() string { return fmt.Sprintf("exit code %d", int(e)) }

// softMemory is where the collector begins to work harder, in bytes: a huge job then takes
// longer and not more.
const softMemory = 512 << 20

func main() {
	debug.SetMemoryLimit(softMemory)
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

func run(args []string, stdout, stderr io.Writer) int {
	root := newRoot()
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	err := root.Execute()
	var code exit
	switch {
	case err == nil:
		return exitClear
	case errors.As(err, &code):
		return int(code)
	}
	fmt.Fprintln(stderr, "dryfit:", err)
	return exitFailed
}

// newRoot is the command with all commands below it.
func newRoot() *cobra.Command {
	root := &cobra.Command{
		Use:   "dryfit",
		Short: "Check part schedules before the saw runs",
		Long: `dryfit reads the part schedules that a millwork shop keeps in .xlsx workbooks, one folder a
job. It checks that the parts go together after finish, carry their load and go into the
measured opening, and writes coloured result tabs back, with a note on each failure.

Start with "dryfit demo", or with "dryfit read FILE" on a workbook of your own.

Exit code: 0 no open HOLD, 1 an open HOLD, 2 bad usage or a job that could not be read.`,
		Version:       version,
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	root.AddCommand(demoCommand(), readCommand(), checkCommand(), explainCommand(), inputsCommand(), standardsCommand())
	root.AddCommand(nightlyCommand(), watchCommand(), trialCommand(), versionCommand())
	teach(root)
	complete(root)
	return root
}

func versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print the version and what it was built for",
		Long: `Print the version, how many checks are in it, and the system it was built for: what to name when
you report a fault. "dryfit --version" prints the version alone.`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			_, err := fmt.Fprintf(cmd.OutOrStdout(), "dryfit %s, %d checks, %s/%s, %s\n", version, len(catalogue.All), runtime.GOOS, runtime.GOARCH, runtime.Version())
			return err
		},
	}
}
