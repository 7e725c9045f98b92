package watch

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"testing/synctest"
	"time"

	"dryfit/watch/disk"
)

// faulty counts the calls of a replacement and does something at chosen ones. It leaves out the
// waiting for the disk, which no test could see.
type faulty struct {
	disk.Calls
	count int
	log   []string
	// fail says what becomes of call number n.
	fail func(n int) fault
	// meanwhile happens just before call number n.
	meanwhile func(n int)
}

type fault struct {
	how how
	err error
}

type how int

const (
	works    how = iota
	refused      // nothing happens, an error comes back
	halfDone     // a write writes half; any other call is refused
	doneBut      // it happens, and an error comes back all the same
)

func (f *faulty) call(name string, do func() error) error {
	f.count++
	f.log = append(f.log, name)
	if f.meanwhile != nil {
		f.meanwhile(f.count)
	}
	var what fault
	if f.fail != nil {
		what = f.fail(f.count)
	}
	switch what.how {
	case works:
		return do()
	case doneBut:
		_ = do()
	}
	return fmt.Errorf("%s: %w", name, what.err)
}

func (f *faulty) Lstat(name string) (st disk.Status, err error) {
	err = f.call("lstat", func() (err error) { st, err = f.Calls.Lstat(name); return })
	return
}

func (f *faulty) ReadFile(name string) (data []byte, err error) {
	err = f.call("read", func() (err error) { data, err = f.Calls.ReadFile(name); return })
	return
}

func (f *faulty) ReadDir(name string) (list []fs.DirEntry, err error) {
	err = f.call("list", func() (err error) { list, err = f.Calls.ReadDir(name); return })
	return
}

func (f *faulty) Create(name string, perm fs.FileMode) (disk.File, error) {
	return f.open("create", func() (disk.File, error) { return f.Calls.Create(name, perm) })
}

func (f *faulty) Append(name string) (disk.File, error) {
	return f.open("append", func() (disk.File, error) { return f.Calls.Append(name) })
}

func (f *faulty) open(name string, do func() (disk.File, error)) (disk.File, error) {
	var file disk.File
	err := f.call(name, func() (err error) { file, err = do(); return })
	if err != nil {
		if file != nil {
			file.Close()
		}
		return nil, err
	}
	return faultyFile{file, f}, nil
}

func (f *faulty) MkdirAll(name string) error {
	return f.call("mkdir", func() error { return f.Calls.MkdirAll(name) })
}

func (f *faulty) Exchange(temp, path string) error {
	return f.call("exchange", func() error { return f.Calls.Exchange(temp, path) })
}

func (f *faulty) Mend(temp, path string) error {
	return f.call("mend", func() error { return f.Calls.Mend(temp, path) })
}

func (f *faulty) Rename(from, to string) error {
	return f.call("rename", func() error { return f.Calls.Rename(from, to) })
}

func (f *faulty) RenameNew(from, to string) error {
	return f.call("rename to new name", func() error { return f.Calls.RenameNew(from, to) })
}

func (f *faulty) Remove(name string) error {
	return f.call("remove", func() error { return f.Calls.Remove(name) })
}

func (f *faulty) SyncDir(name string) error {
	return f.call("sync folder", func() error { return nil })
}

type faultyFile struct {
	disk.File
	f *faulty
}

func (w faultyFile) Write(p []byte) (n int, err error) {
	if w.f.fail != nil && w.f.fail(w.f.count+1).how == halfDone {
		n, _ = w.File.Write(p[:len(p)/2])
	}
	err = w.f.call("write", func() (err error) { n, err = w.File.Write(p); return })
	return n, err
}

func (w faultyFile) CopyAttributes(from string) error {
	return w.f.call("attributes", func() error { return w.File.CopyAttributes(from) })
}

func (w faultyFile) Sync() error { return w.f.call("sync", func() error { return nil }) }

func (w faultyFile) Close() error {
	err := w.f.call("close", func() error { return nil })
	return errors.Join(err, w.File.Close()) // a process that dies closes its files
}

// callsOf counts the calls of an undisturbed replacement.
func callsOf(t *testing.T, base disk.Calls, isNew bool) *faulty {
	f := &faulty{Calls: base}
	if _, err := (machine{f}).replace(t.Context(), faultJob(t, isNew)); err != nil {
		t.Fatal(err)
	}
	return f
}

// faultJob makes the job in memory where that can be done: thousands of replacements are tried.
func faultJob(t *testing.T, isNew bool) Change {
	if _, err := os.Stat("/dev/shm"); err == nil {
		t.Setenv("TMPDIR", "/dev/shm")
	}
	c := job(t, "old", "brand new")
	if isNew {
		must(t, os.Remove(c.Path))
		c.Was = Hash{}
	}
	return c
}

func holds(path string) string {
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return "nothing"
	}
	return string(data)
}

// recoverAll is the next start on a healthy disk.
func recoverAll(t *testing.T, c Change) []string {
	t.Helper()
	notes, err := Recover(t.Context(), c.Root)
	if err != nil {
		t.Errorf("Recover: %v", err)
	}
	wantTidy(t, c.Root)
	return notes
}

func TestEachCallMayFail(t *testing.T) {
	causes := []error{syscall.ENOSPC, syscall.EACCES, syscall.EIO, disk.ErrAttributes}
	for _, base := range []disk.Calls{disk.System{}, noExchange{disk.System{}}} {
		for _, isNew := range []bool{false, true} {
			calls := callsOf(t, base, isNew)
			t.Logf("%T, new file %v: %d calls: %q", base, isNew, calls.count, calls.log)
			for n := 1; n <= calls.count; n++ {
				for _, what := range []how{refused, halfDone, doneBut} {
					for _, cause := range causes {
						failOne(t, base, isNew, n, calls.log[n-1], fault{what, cause})
					}
				}
			}
		}
	}
}

func failOne(t *testing.T, base disk.Calls, isNew bool, n int, name string, bad fault) {
	t.Helper()
	c := faultJob(t, isNew)
	before := holds(c.Path)
	f := &faulty{Calls: base, fail: func(k int) fault {
		if k == n {
			return bad
		}
		return fault{}
	}}
	done, err := machine{f}.replace(t.Context(), c)
	fail := func(format string, a ...any) {
		t.Helper()
		t.Errorf("call %d (%s), %+v: %s", n, name, bad, fmt.Sprintf(format, a...))
	}
	now := holds(c.Path)
	switch {
	case now != before && now != "brand new":
		fail("the file holds %q", now)
	case err == nil && now != "brand new":
		fail("no error, and the file holds %q", now)
	case err != nil && !errors.Is(err, ErrUnfinished) && now != before:
		fail("error %v, yet the file holds %q", err, now)
	case done.Written != (now == "brand new"):
		fail("Written is %v, the file holds %q", done.Written, now)
	}
	recoverAll(t, c)
	if after := holds(c.Path); after != now {
		fail("Recover made %q of %q", after, now)
	}
	if now == "brand new" && !isNew {
		wantBackups(t, c, "old")
	}
	if t.Failed() {
		t.FailNow()
	}
}

// life is what happens to one replacement: the machine may die at a call, and a person may do
// things before calls.
type life struct {
	dies    int // 0: not
	dying   how
	actions []action
}

type action struct {
	call int
	do   string // "save", "write in place", "remove"
	text string
}

// live plays a life, starts again, and checks that the last thing the person did stands.
func (l life) live(t *testing.T, isNew bool) {
	t.Helper()
	c := faultJob(t, isNew)
	stands, acted := "", false
	f := &faulty{Calls: disk.System{}}
	f.meanwhile = func(n int) {
		for _, a := range l.actions {
			if a.call == n && (l.dies == 0 || n <= l.dies) {
				a.act(t, c.Path)
				stands, acted = a.text, true
			}
		}
	}
	f.fail = func(n int) fault {
		if l.dies > 0 && n == l.dies {
			return fault{l.dying, errDead}
		}
		if l.dies > 0 && n > l.dies {
			return fault{refused, errDead}
		}
		return fault{}
	}
	_, err := machine{f}.replace(t.Context(), c)
	recoverAll(t, c)
	now := holds(c.Path)
	switch {
	case acted && now != stands:
		t.Fatalf("%+v: the file holds %q, want %q (error %v; calls %q)", l, now, stands, err, f.log)
	case !acted && now != "brand new" && now != "old" && !(isNew && now == "nothing"):
		t.Fatalf("%+v: the file holds %q", l, now)
	}
}

var errDead = errors.New("the machine is dead")

func (a action) act(t *testing.T, path string) {
	switch a.do {
	case "save":
		write(t, path+".person", a.text)
		must(t, os.Rename(path+".person", path))
	case "write in place":
		write(t, path, a.text)
	case "remove":
		if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			t.Fatal(err)
		}
	}
}

func TestDeathAtEachCall(t *testing.T) {
	for _, isNew := range []bool{false, true} {
		for n := range callsOf(t, disk.System{}, isNew).count {
			for _, dying := range []how{refused, halfDone, doneBut} {
				life{dies: n + 1, dying: dying}.live(t, isNew)
			}
		}
	}
}

// more is how many calls a replacement may make beyond the undisturbed ones while it puts back.
const more = 12

func TestASaveAtAnyCallStandsWhateverDies(t *testing.T) {
	for _, isNew := range []bool{false, true} {
		last := callsOf(t, disk.System{}, isNew).count
		for _, do := range []string{"save", "write in place"} {
			for n := 1; n <= last; n++ {
				save := []action{{n, do, "a person's save"}}
				life{actions: save}.live(t, isNew)
				for dies := n; dies <= last+more; dies++ {
					life{dies: dies, dying: doneBut, actions: save}.live(t, isNew)
				}
			}
		}
	}
}

func TestTwoActsOfAPersonAtAnyCalls(t *testing.T) {
	last := callsOf(t, disk.System{}, false).count
	for _, first := range []action{{do: "save", text: "one"}, {do: "write in place", text: "one"}, {do: "remove", text: "nothing"}} {
		for n := 1; n <= last; n++ {
			first.call = n
			for k := n; k <= last+more; k++ {
				life{actions: []action{first, {k, "save", "two"}}}.live(t, false)
			}
		}
	}
}

func TestTwoSavesAndADeath(t *testing.T) {
	calls := callsOf(t, disk.System{}, false)
	var exchange int
	for i, name := range calls.log {
		if name == "exchange" {
			exchange = i + 1
		}
	}
	for n := exchange - 2; n <= exchange; n++ { // where a save makes us put back
		for k := n; k <= exchange+more; k++ {
			for dies := k; dies <= exchange+2*more; dies++ {
				for _, dying := range []how{refused, halfDone, doneBut} {
					life{dies, dying, []action{{n, "save", "one"}, {k, "save", "two"}}}.live(t, false)
				}
			}
		}
	}
}

// TestWhatMustLastIsSyncedInOrder reads the order of the calls; only a power cut could show it.
func TestWhatMustLastIsSyncedInOrder(t *testing.T) {
	f := callsOf(t, disk.System{}, false)
	rest := f.log
	for _, want := range []string{
		"create", "sync", "read", // the new file, read back
		"sync", "sync folder", // the journal that says so, and its name
		"exchange", "sync folder",
		"rename to new name", "sync folder", // the old file into the backups
		"remove", // the journal
	} {
		at := slices.Index(rest, want)
		if at < 0 {
			t.Fatalf("calls %q: no %q among the last %q", f.log, want, rest)
		}
		rest = rest[at+1:]
	}
	after := f.log[slices.Index(f.log, "exchange"):]
	if slices.Index(after, "sync folder") > slices.Index(after, "rename to new name") {
		t.Errorf("calls %q: the exchange must last before the old file moves away", f.log)
	}
}

// liar is a disk that loses a bit of what is written.
type liar struct{ disk.Calls }

func (l liar) Create(name string, perm fs.FileMode) (disk.File, error) {
	f, err := l.Calls.Create(name, perm)
	return liarFile{f}, err
}

type liarFile struct{ disk.File }

func (f liarFile) Write(p []byte) (int, error) {
	p = slices.Clone(p)
	p[len(p)/2] ^= 1
	return f.File.Write(p)
}

func TestANewFileThatReadsBackOtherwiseIsNotPutInPlace(t *testing.T) {
	c := faultJob(t, false)
	if _, err := (machine{liar{disk.System{}}}).replace(t.Context(), c); err == nil {
		t.Error("no error")
	}
	if got := holds(c.Path); got != "old" {
		t.Errorf("the file holds %q", got)
	}
	wantTidy(t, c.Root)
}

// held is a disk on which another program holds the file for some tries.
type held struct {
	disk.Calls
	tries *int
	until int
}

func (h held) Exchange(temp, path string) error {
	if *h.tries++; *h.tries < h.until {
		return disk.ErrBusy
	}
	return h.Calls.Exchange(temp, path)
}

func TestAHeldFileIsTriedFiveTimesInTenSeconds(t *testing.T) {
	for _, row := range []struct {
		until int
		holds string
		want  error
	}{{5, "brand new", nil}, {6, "old", ErrOpen}} {
		synctest.Test(t, func(t *testing.T) {
			c := job(t, "old", "brand new")
			start, tries := time.Now(), 0
			_, err := machine{held{disk.System{}, &tries, row.until}}.replace(t.Context(), c)
			if !errors.Is(err, row.want) || holds(c.Path) != row.holds || tries != 5 || time.Since(start) > 10*time.Second {
				t.Errorf("free at try %d: error %v, the file holds %q after %d tries and %v", row.until, err, holds(c.Path), tries, time.Since(start))
			}
			wantTidy(t, c.Root)
		})
	}
}

func TestAWorkbookOpenedWhileWeWriteIsLeftAlone(t *testing.T) {
	c := faultJob(t, false)
	f := &faulty{Calls: disk.System{}}
	f.meanwhile = func(n int) {
		if f.log[n-1] == "attributes" {
			write(t, filepath.Join(filepath.Dir(c.Path), "~$parts.xlsx"), "\x03Ann")
		}
	}
	_, err := machine{f}.replace(t.Context(), c)
	var refused *Refused
	if !errors.As(err, &refused) || !errors.Is(err, ErrOpen) || !strings.Contains(err.Error(), `"Ann"`) {
		t.Errorf("error %v, want a Refused that names Ann", err)
	}
	if got := holds(c.Path); got != "old" {
		t.Errorf("the file holds %q", got)
	}
	wantTidy(t, c.Root)
}

func TestRecoverKeepsAnUnknownSaveBeside(t *testing.T) {
	c := job(t, "old", "brand new")
	f := &faulty{Calls: disk.System{}}
	dead := false
	f.fail = func(n int) fault {
		if dead {
			return fault{refused, errDead}
		}
		if len(f.log) == n && f.log[n-1] == "exchange" {
			dead = true
			action{do: "save", text: "one"}.act(t, c.Path)
			return fault{}
		}
		return fault{}
	}
	if _, err := (machine{f}).replace(t.Context(), c); !errors.Is(err, ErrUnfinished) {
		t.Fatalf("error %v, want ErrUnfinished", err)
	}
	action{do: "save", text: "two"}.act(t, c.Path)
	notes := recoverAll(t, c)
	if len(notes) != 1 || holds(c.Path) != "two" {
		t.Errorf("notes %q, the file holds %q", notes, holds(c.Path))
	}
	folders, err := Files(c.Root)
	must(t, err)
	if len(folders) != 1 || len(folders[0].Left) != 1 || folders[0].Books[0].Rival == "" {
		t.Fatalf("Files: %+v; want the two marked as versions of one workbook", folders)
	}
	if got := holds(folders[0].Left[0].Path); got != "one" {
		t.Errorf("kept beside: %q", got)
	}
	if got := filepath.Dir(folders[0].Left[0].Path); got != filepath.Dir(c.Path) {
		t.Errorf("kept in %q", got)
	}
}

func TestRecoverGoesOnAfterAJournalItCannotRead(t *testing.T) {
	c := job(t, "old", "brand new")
	f := &faulty{Calls: disk.System{}, fail: func(n int) fault {
		if n > 8 {
			return fault{refused, errDead}
		}
		return fault{}
	}}
	_, err := machine{f}.replace(t.Context(), c)
	if !errors.Is(err, errDead) {
		t.Fatal(err)
	}
	strange := filepath.Join(c.Root, stateFolder, journalStart+"000000000000")
	write(t, strange, "nonsense\n")
	if _, err := Recover(t.Context(), c.Root); err == nil {
		t.Error("no error for a journal that cannot be read")
	}
	if _, err := os.Stat(strange); err != nil {
		t.Error("the journal that cannot be read is gone")
	}
	must(t, os.Remove(strange))
	wantTidy(t, c.Root)
}

// TestRetire lets a person save, and the machine die, at each call of taking a file away.
func TestRetire(t *testing.T) {
	clean := &faulty{Calls: disk.System{}}
	c := faultJob(t, false)
	if err := (machine{clean}).retire(c.Root, c.Path, c.Was); err != nil || holds(c.Path) != "nothing" {
		t.Fatalf("error %v, the file holds %q", err, holds(c.Path))
	}
	wantTidy(t, c.Root)
	for save := 0; save <= clean.count; save++ { // 0: nobody saves
		for dies := 1; dies <= clean.count+more; dies++ {
			c := faultJob(t, false)
			f := &faulty{Calls: disk.System{}}
			saved := false
			f.meanwhile = func(n int) {
				if n == save && n <= dies {
					saved = true
					action{do: "save", text: "a person's save"}.act(t, c.Path)
				}
			}
			f.fail = func(n int) fault {
				if n < dies {
					return fault{}
				}
				return fault{refused, errDead}
			}
			err := machine{f}.retire(c.Root, c.Path, c.Was)
			recoverAll(t, c)
			now := holds(c.Path)
			if saved && now != "a person's save" || !saved && now != "old" && now != "nothing" {
				t.Fatalf("save at %d, death at %d of %q: the file holds %q (error %v)", save, dies, f.log, now, err)
			}
		}
	}
}

func TestRetireOfWhatWeWroteLeavesNothing(t *testing.T) {
	c := faultJob(t, true)
	if _, err := Replace(t.Context(), c); err != nil {
		t.Fatal(err)
	}
	must(t, Retire(c.Root, c.Path, Sum(c.New)))
	if got := names(t, c.Root); len(got) != 0 {
		t.Errorf("left: %q", got)
	}
}

func TestRetireLeavesAnOpenFile(t *testing.T) {
	c := faultJob(t, false)
	write(t, filepath.Join(filepath.Dir(c.Path), "~$parts.xlsx"), "\x03Ann")
	if err := Retire(c.Root, c.Path, c.Was); !errors.Is(err, ErrOpen) || holds(c.Path) != "old" {
		t.Errorf("error %v, the file holds %q", err, holds(c.Path))
	}
}

// paper is a disk that holds one file.
type paper struct {
	disk.Calls
	data []byte
}

func (p paper) ReadFile(string) ([]byte, error) { return p.data, nil }

func FuzzReadJournal(f *testing.F) {
	f.Add([]byte("path \"Job 7/parts.xlsx\"\nwant " + strings.Repeat("0a", 32) + "\nours " + strings.Repeat("0b", 32) + "\nready\n"))
	f.Add([]byte("path \"../out\"\nours " + strings.Repeat("0b", 32) + "\n"))
	f.Add([]byte("ready\nput\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := machine{paper{data: data}}.readJournal("root", "root/.dryfit/write-1")
		if err == nil && s != nil && !filepath.IsLocal(s.name) {
			t.Errorf("the journal leads out of the root: %q", s.name)
		}
	})
}
