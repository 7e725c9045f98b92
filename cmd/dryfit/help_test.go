package main

import (
	"bytes"
	"os/exec"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"dryfit/check/catalogue"
)

// split parts a command line into words, as a shell does with double quotes.
func split(line string) []string {
	var words []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			words = append(words, part)
		} else {
			words = append(words, strings.Fields(part)...)
		}
	}
	return words
}

// TestExamplesRun runs what the help of every command shows, in a folder of its own, in the
// order of the list: the first makes the demo shop. Watch never ends, so that its lines are
// only parsed.
func TestExamplesRun(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long")
	}
	t.Chdir(t.TempDir())
	for _, e := range examples {
		for _, line := range e.lines {
			line, file, _ := strings.Cut(line, ">")
			args := split(strings.TrimSuffix(line, " 2"))[1:]
			if e.command == "watch" {
				parses(t, args)
				continue
			}
			if strings.HasPrefix(args[len(args)-1], "/tmp/") {
				args[len(args)-1] = "my shop"
			}
			var stdout, stderr bytes.Buffer
			code := run(args, &stdout, &stderr)
			if code == exitFailed || stdout.Len() == 0 {
				t.Errorf("%s: exit code %d, %d bytes printed\n%s", line, code, stdout.Len(), stderr.String())
			}
			if strings.HasSuffix(file, ".md") && !strings.HasPrefix(stdout.String(), "# ") {
				t.Errorf("%s: no Markdown: %.40q", line, stdout.String())
			}
		}
	}
}

func parses(t *testing.T, args []string) {
	t.Helper()
	cmd, rest, err := newRoot().Find(args)
	if err != nil {
		t.Fatal(args, err)
	}
	if err := cmd.ParseFlags(rest); err != nil {
		t.Error(args, err)
	}
	if err := cmd.ValidateArgs(cmd.Flags().Args()); err != nil {
		t.Error(args, err)
	}
}

// TestHelpTeaches demands of every command two examples or more, a text that is more than its
// title, a group in the list, and a sentence for each flag.
func TestHelpTeaches(t *testing.T) {
	root := newRoot()
	for _, c := range root.Commands() {
		if n := strings.Count(c.Example, "dryfit "); n < 2 {
			t.Errorf("%s: %d examples", c.Name(), n)
		}
		if len(c.Long) < 2*len(c.Short) || c.GroupID == "" {
			t.Errorf("%s: help too short, or in no group", c.Name())
		}
		for line := range strings.Lines(c.Long) {
			if n := len([]rune(line)); n > 110 {
				t.Errorf("%s: a line of %d letters: %s", c.Name(), n, line)
			}
		}
	}
}

// TestCompletion asks what a shell is offered: checks behind explain, checks and rooms behind
// --only also after a comma, folders behind the rest.
func TestCompletion(t *testing.T) {
	for _, c := range []struct {
		args []string
		want []string // among the lines offered
		not  string   // begins none of them
	}{
		{[]string{"explain", ""}, []string{"fit.joint\t" + asked("fit.joint"), "structure.sag\t" + asked("structure.sag")}, "fit\n"},
		{[]string{"explain", "structure.s"}, []string{"structure.sag\t" + asked("structure.sag"), ":4"}, "fit"},
		{[]string{"explain", "fit.joint", ""}, []string{":4"}, "fit"},
		{[]string{"check", "--only", "f"}, []string{"fit", "fit.joint"}, "structure"},
		{[]string{"check", "--only", "fit.lap,sc"}, []string{"fit.lap,schedule", "fit.lap,schedule.read"}, "fit.lap,fit"},
		{[]string{"check", "--units", ""}, []string{"in", "mm"}, "fit"},
		{[]string{"nightly", ""}, []string{":16"}, "fit"},
		{[]string{"ni"}, []string{"nightly\tCheck every active job once and write the roll-up"}, "watch"},
	} {
		var stdout, stderr bytes.Buffer
		if code := run(append([]string{cobra.ShellCompRequestCmd}, c.args...), &stdout, &stderr); code != exitClear {
			t.Errorf("%v: exit code %d: %s", c.args, code, stderr.String())
		}
		for _, w := range c.want {
			if !strings.Contains("\n"+stdout.String(), "\n"+w+"\n") {
				t.Errorf("%v: %q is not offered in\n%s", c.args, w, stdout.String())
			}
		}
		if strings.Contains("\n"+stdout.String(), "\n"+c.not) {
			t.Errorf("%v: %q is offered in\n%s", c.args, c.not, stdout.String())
		}
	}
}

func asked(id string) string {
	c, _ := catalogue.Find(id)
	return c.Asks
}

// The completion scripts are what the shells can read, where the shell is installed.
func TestCompletionScripts(t *testing.T) {
	for _, shell := range []struct{ name, read string }{{"bash", "bash -n"}, {"zsh", "zsh -n"}, {"fish", "fish -n"}, {"powershell", ""}} {
		var script, stderr bytes.Buffer
		if code := run([]string{"completion", shell.name}, &script, &stderr); code != exitClear || !strings.Contains(script.String(), "dryfit") {
			t.Errorf("%s: exit code %d: %s", shell.name, code, stderr.String())
		}
		words := strings.Fields(shell.read)
		if len(words) == 0 {
			continue
		}
		if _, err := exec.LookPath(words[0]); err != nil {
			continue // bash is everywhere; the others where somebody uses them
		}
		cmd := exec.Command(words[0], words[1:]...)
		cmd.Stdin = &script
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("%s: %v: %s", shell.name, err, out)
		}
	}
}
