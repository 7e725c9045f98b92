package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"testing"

	"golang.org/x/sys/unix"
)

// terminal gives both ends of a terminal: what is written to the second is read from the first.
func terminal(t *testing.T) (reads, writes *os.File) {
	t.Helper()
	reads, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skipf("no terminals here: %v", err)
	}
	t.Cleanup(func() { reads.Close() })
	must(t, unix.IoctlSetPointerInt(int(reads.Fd()), unix.TIOCSPTLCK, 0))
	n, err := unix.IoctlGetInt(int(reads.Fd()), unix.TIOCGPTN)
	must(t, err)
	writes, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|unix.O_NOCTTY, 0)
	must(t, err)
	return reads, writes
}

// On a terminal a bar stands in place of a line a job.
func TestBarOnATerminal(t *testing.T) {
	root := t.TempDir()
	makeJobs(t, root, wrongSlab, 3)
	reads, writes := terminal(t)
	cmd := exec.Command("dryfit", "nightly", root)
	cmd.Stderr = writes
	must(t, cmd.Start())
	writes.Close()
	said, _ := io.ReadAll(reads) // ends with an error when the other end is closed
	_ = cmd.Wait()
	if !strings.Contains(string(said), "/3)") || strings.Contains(string(said), "checked") {
		t.Errorf("a bar of 3 jobs and no line a job is wanted: %q", said)
	}
}
