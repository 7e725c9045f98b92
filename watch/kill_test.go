package watch

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"dryfit/watch/disk"
)

// victimVar tells the test binary to be the process that is killed: it replaces the named file
// over and over.
const victimVar = "WATCH_TEST_VICTIM"

func TestMain(m *testing.M) {
	if path := os.Getenv(victimVar); path != "" {
		beVictim(path)
	}
	os.Exit(m.Run())
}

// page is a file of the kill test: a line that names its maker, the person's last save that it
// rests on, and a check sum; then the body.
func page(maker string, save, size int, seed uint64) []byte {
	body := make([]byte, size)
	r := rand.New(rand.NewPCG(seed, 1))
	for i := range body {
		body[i] = byte(r.Uint32())
	}
	return fmt.Appendf(nil, "%s %d %x\n%s", maker, save, sha256.Sum256(body), body)
}

// readPage gives the save that a page rests on, and an error for a torn page.
func readPage(data []byte) (save int, err error) {
	head, body, ok := bytes.Cut(data, []byte("\n"))
	fields := strings.Fields(string(head))
	if !ok || len(fields) != 3 || fields[2] != fmt.Sprintf("%x", sha256.Sum256(body)) {
		return 0, fmt.Errorf("torn: %d bytes, first line %.80q", len(data), head)
	}
	return strconv.Atoi(fields[1])
}

func beVictim(path string) {
	root := filepath.Dir(filepath.Dir(path))
	die := func(err error) {
		fmt.Println("victim:", err)
		os.Exit(3)
	}
	release, err := Lock(root)
	if err != nil {
		die(err)
	}
	defer release()
	if _, err := Recover(context.Background(), root); err != nil {
		die(err)
	}
	fmt.Println("ready")
	for seed := rand.Uint64(); ; seed++ {
		old, err := os.ReadFile(path)
		if err != nil {
			die(err)
		}
		save, err := readPage(old)
		if err != nil {
			die(err)
		}
		c := Change{Root: root, Path: path, Was: Sum(old), New: page("ours", save, len(old), seed)}
		if _, err := Replace(context.Background(), c); err != nil && !errors.Is(err, ErrChanged) {
			die(err)
		}
	}
}

// TestKill kills a process at random moments while it replaces a file. In two of three rounds a
// person saves just before the kill, in one of three again after it. After the next start the
// file is whole and rests on the person's last save, and nothing is left over.
func TestKill(t *testing.T) {
	rounds := 40
	if os.Getenv("DRYFIT_REQUIRE_EXTERNAL") == "1" {
		rounds = 1200
	}
	var cut, displaced int
	for _, size := range []int{3_000, 100_000, 2_000_000} {
		k := newKill(t, size)
		for range rounds / 4 * sizeShare(size) {
			k.round(t)
		}
		cut += k.cut
		displaced += k.displaced
	}
	t.Logf("%d kills, %d in the middle of a replacement, %d of them between exchange and end", rounds, cut, displaced)
}

// sizeShare is how many quarters of the rounds a size gets: the smallest two.
func sizeShare(size int) int {
	if size < 10_000 {
		return 2
	}
	return 1
}

type kill struct {
	root, path     string
	size, save     int
	cut, displaced int
}

func newKill(t *testing.T, size int) *kill {
	k := &kill{root: t.TempDir(), size: size}
	k.path = filepath.Join(k.root, "Job 7", "parts.xlsx")
	must(t, os.Mkdir(filepath.Dir(k.path), 0o755))
	must(t, os.WriteFile(k.path, page("person", 0, size, 0), 0o644))
	return k
}

// startVictim returns when the victim is at work.
func (k *kill) startVictim(t *testing.T) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), victimVar+"="+k.path)
	out, err := cmd.StdoutPipe()
	must(t, err)
	must(t, cmd.Start())
	lines := bufio.NewScanner(out)
	if !lines.Scan() || lines.Text() != "ready" {
		t.Fatalf("the victim said %q", lines.Text())
	}
	return cmd, lines
}

func (k *kill) round(t *testing.T) {
	t.Helper()
	cmd, lines := k.startVictim(t)
	time.Sleep(time.Duration(rand.IntN(15_000)) * time.Microsecond)
	before, after := rand.IntN(3) > 0, rand.IntN(3) == 0
	if before {
		k.personSaves(t)
		time.Sleep(time.Duration(rand.IntN(2_000)) * time.Microsecond)
	}
	must(t, cmd.Process.Kill())
	for lines.Scan() {
		t.Errorf("the victim said %q", lines.Text())
	}
	_ = cmd.Wait()
	k.look(t)
	if after {
		k.personSaves(t)
	}
	k.start(t)
}

// personSaves saves as spreadsheet programs do: a new file, then its name.
func (k *kill) personSaves(t *testing.T) {
	t.Helper()
	k.save++
	must(t, os.WriteFile(k.path+".person", page("person", k.save, k.size, rand.Uint64()), 0o644))
	must(t, os.Rename(k.path+".person", k.path))
}

// look checks the file as the kill left it and counts where the kill fell.
func (k *kill) look(t *testing.T) {
	t.Helper()
	if _, err := readPage([]byte(read(t, k.path))); err != nil {
		t.Fatalf("after the kill: %v", err)
	}
	journals, _ := filepath.Glob(filepath.Join(k.root, stateFolder, journalStart+"*"))
	for _, file := range journals {
		k.cut++
		s, err := machine{disk.System{}}.readJournal(k.root, file)
		if err == nil && s != nil && s.ready && holds(s.temp) != "nothing" && Sum([]byte(holds(s.temp))) != s.ours {
			k.displaced++
		}
	}
}

func (k *kill) start(t *testing.T) {
	t.Helper()
	release, err := Lock(k.root)
	must(t, err)
	defer release()
	notes, err := Recover(t.Context(), k.root)
	must(t, err)
	wantTidy(t, k.root)
	save, err := readPage([]byte(read(t, k.path)))
	if err != nil {
		t.Fatalf("after the next start: %v", err)
	}
	if save != k.save {
		t.Fatalf("the file rests on save %d, the person's last is %d", save, k.save)
	}
	for _, note := range notes { // an older save that met a newer one is kept beside: take it away
		t.Log(note)
		kept, _ := filepath.Glob(filepath.Join(filepath.Dir(k.path), "*"+keptMiddle+"*"))
		for _, file := range kept {
			must(t, os.Remove(file))
		}
	}
}

func TestTheLockGoesWithItsProcess(t *testing.T) {
	k := newKill(t, 1000)
	cmd, _ := k.startVictim(t)
	var held *HeldError
	if _, err := Lock(k.root); !errors.As(err, &held) || held.Holder.PID != cmd.Process.Pid {
		t.Errorf("Lock: %v, want a HeldError that names process %d", err, cmd.Process.Pid)
	}
	must(t, cmd.Process.Kill())
	_ = cmd.Wait()
	k.start(t)
}
