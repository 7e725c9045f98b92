// Command dryfit checks the part schedules of a millwork shop before the saw runs.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"
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

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
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
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	root.AddCommand(demoCommand(), checkCommand(), readCommand(), explainCommand(), standardsCommand(), inputsCommand(), trialCommand())
	root.AddCommand(nightlyCommand(), watchCommand())
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
