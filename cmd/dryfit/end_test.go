package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"

	"dryfit/sheet/rollup"
	"dryfit/watch"
)

// process is a dryfit of its own, that can be told to end or be killed.
type process struct {
	*exec.Cmd
	log  *bufio.Scanner
	said strings.Builder
}

func startProcess(t *testing.T, args ...string) *process {
	t.Helper()
	p := &process{Cmd: exec.Command("dryfit", args...)}
	stderr, err := p.StderrPipe()
	must(t, err)
	must(t, p.Start())
	p.log = bufio.NewScanner(stderr)
	return p
}

// readUntil reads the log up to the nth line that holds a text, or to its end.
func (p *process) readUntil(text string, nth int) {
	for nth > 0 && p.log.Scan() {
		p.said.WriteString(p.log.Text() + "\n")
		if strings.Contains(p.log.Text(), text) {
			nth--
		}
	}
}

// end reads the rest of the log and gives the exit code.
func (p *process) end() int {
	p.readUntil("\n", 1)
	_ = p.Wait()
	return p.ProcessState.ExitCode()
}

// leftovers are what an interrupted run leaves to the next, and a clean end to nobody.
func leftovers(t *testing.T, root string) (left []string) {
	must(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && (strings.HasSuffix(path, ".tmp") || strings.HasPrefix(d.Name(), "write-")) {
			left = append(left, path)
		}
		return err
	}))
	return left
}

// wholeOrOld looks at the workbooks of jobs: each is as its maker left it, or holds all tabs.
func wholeOrOld(t *testing.T, root string, made []byte) {
	t.Helper()
	lists, err := filepath.Glob(filepath.Join(root, "*", "list.xlsx"))
	must(t, err)
	for _, list := range lists {
		data, err := os.ReadFile(list)
		must(t, err)
		if !bytes.Equal(data, made) && !strings.Contains(flagged(t, list), "B7") {
			t.Errorf("%s is neither the old nor a new workbook", list)
		}
	}
}

func makeJobs(t *testing.T, root, text string, jobs int) {
	for i := range jobs {
		put(t, filepath.Join(root, fmt.Sprint(2300+i), "list.xlsx"), text)
	}
}

// SIGTERM ends a night and a watch with nothing half done, and says so.
func TestTermEndsCleanly(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no SIGTERM on this system")
	}
	for _, c := range []struct {
		command, says string
		code          int
	}{
		{"nightly", "broken off; what was done is remembered, and the next run continues", exitFailed},
		{"watch", "watching ended", exitClear},
	} {
		t.Run(c.command, func(t *testing.T) {
			t.Parallel()
			root := t.TempDir()
			const jobs = 16
			makeJobs(t, root, wrongSlab, jobs)
			p := startProcess(t, c.command, root)
			p.readUntil(`"how":"checked"`, 3)
			must(t, p.Process.Signal(syscall.SIGTERM))
			if code := p.end(); code != c.code || !strings.Contains(p.said.String(), c.says) {
				t.Errorf("exit code %d, want %d and %q:\n%s", code, c.code, c.says, p.said.String())
			}
			if left := leftovers(t, root); len(left) > 0 {
				t.Errorf("left behind: %q", left)
			}
			wholeOrOld(t, root, bookOf(t, wrongSlab))
			nightOver(t, root)
			if n := len(shownKeys(t, root)); n != jobs {
				t.Errorf("%d lines on the roll-up of the next night, want %d", n, jobs)
			}
		})
	}
}

// A night that is killed, again and again, ends in the same roll-up as one that is left alone.
func TestAKilledNightIsContinued(t *testing.T) {
	killed, alone := t.TempDir(), t.TempDir()
	r := rand.New(rand.NewPCG(4, 19))
	for _, text := range []string{wrongSlab, soundSlab + "B7 | Bench slab | 1 | 41 | 14 | 1 1/2 | 2 x 3/4 MDF\n"} {
		const jobs = 8
		makeJobs(t, killed, text, jobs)
		makeJobs(t, alone, text, jobs)
		for range 3 {
			p := startProcess(t, "nightly", killed)
			p.readUntil(`"how":"checked"`, 1+r.IntN(3))
			must(t, p.Process.Kill())
			p.end()
			wholeOrOld(t, killed, bookOf(t, text))
		}
		nightOver(t, killed)
		nightOver(t, alone)
		if a, b := shown(t, killed), shown(t, alone); !slices.Equal(a, b) {
			t.Fatalf("killed\n%q\nleft alone\n%q", a, b)
		}
	}
	if left := leftovers(t, killed); len(left) > 0 {
		t.Errorf("left behind: %q", left)
	}
}

// The code is for the scheduler: 2 when something could not be read, 1 for an open HOLD.
func TestExitCodesOfANight(t *testing.T) {
	root := t.TempDir()
	code := func() int {
		var out, log bytes.Buffer
		return run([]string{"nightly", root}, &out, &log)
	}
	want := func(what string, want int) {
		t.Helper()
		for range 2 { // the second time from memory
			if got := code(); got != want {
				t.Errorf("%s: exit code %d, want %d", what, got, want)
			}
		}
	}
	want("no job at all", exitFailed)
	put(t, filepath.Join(root, "2301", "list.xlsx"), soundSlab)
	want("one job, sound", exitClear)
	put(t, filepath.Join(root, "2302", "list.xlsx"), wrongSlab)
	want("and one with a HOLD", exitHold)
	must(t, os.MkdirAll(filepath.Join(root, "2303"), 0o755))
	must(t, os.WriteFile(filepath.Join(root, "2303", "list.xlsx"), []byte("no workbook"), 0o644))
	want("and one that cannot be read", exitFailed)
	must(t, os.RemoveAll(filepath.Join(root, "2303")))
	sayAt(t, filepath.Join(root, watch.RollUp), rollup.TabOpen, "B7", "Accept: initials", "RB")
	sayAt(t, filepath.Join(root, watch.RollUp), rollup.TabOpen, "B7", "Accept: why", "veneered core")
	want("the HOLD is accepted", exitClear)
	if got := run([]string{"nightly"}, &bytes.Buffer{}, &bytes.Buffer{}); got != exitFailed {
		t.Errorf("no root: exit code %d", got)
	}
}

// Each job has a line in the log, with whole milliseconds; a job from memory took none.
func TestLogOfANight(t *testing.T) {
	root := t.TempDir()
	makeJobs(t, root, wrongSlab, 2)
	line := regexp.MustCompile(`(?m)^\{"level":"info","job":"230[01]","verdict":"HOLD","how":"checked","hold":1,"verify":0,"notChecked":0,"ms":\d+,"time":"[^"]+"\}$`)
	var out, log bytes.Buffer
	run([]string{"nightly", root}, &out, &log)
	if n := len(line.FindAllString(log.String(), -1)); n != 2 {
		t.Errorf("%d lines of jobs, want 2:\n%s", n, log.String())
	}
	if strings.Contains(log.String(), "\r") || strings.Contains(log.String(), "\x1b") {
		t.Errorf("a bar where nobody looks: %q", log.String())
	}
}
