package watch

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/fsnotify/fsnotify"
)

// log is what Run told.
type log struct {
	mu       sync.Mutex
	visits   []Visit
	restless []Folder
	said     []string
	answer   func(Visit) Outcome
	ended    chan error
}

// begin runs a watch of root. Inside synctest its clock is the test's.
func begin(ctx context.Context, o Options, answer func(Visit) Outcome) *log {
	l := &log{answer: answer, ended: make(chan error, 1)}
	o.Settled = func(ctx context.Context, visits []Visit) Outcome {
		all := Outcome{Wrote: map[string]Hash{}}
		for _, v := range visits {
			l.mu.Lock()
			l.visits = append(l.visits, v)
			l.mu.Unlock()
			if l.answer != nil {
				out := l.answer(v)
				for path, sum := range out.Wrote {
					all.Wrote[path] = sum
				}
				all.Again = append(all.Again, out.Again...)
			}
		}
		return all
	}
	o.Restless = func(f Folder) { l.mu.Lock(); l.restless = append(l.restless, f); l.mu.Unlock() }
	o.Say = func(s string) { l.mu.Lock(); l.said = append(l.said, s); l.mu.Unlock() }
	go func() { l.ended <- Run(ctx, o) }()
	return l
}

// take gives the visits since the last call in words: "Job 7: parts.xlsx" or "Job 7: gone parts.xlsx".
func (l *log) take() []string {
	l.mu.Lock()
	defer l.mu.Unlock()
	var list []string
	for _, v := range l.visits {
		var words []string
		for _, b := range v.Books {
			words = append(words, filepath.Base(b.Path))
		}
		for _, path := range v.Gone {
			words = append(words, "gone "+filepath.Base(path))
		}
		list = append(list, filepath.Base(v.Path)+": "+strings.Join(words, ", "))
	}
	l.visits = nil
	return list
}

func (l *log) want(t *testing.T, when string, want ...string) {
	t.Helper()
	if got := l.take(); !slices.Equal(got, want) {
		t.Errorf("%s: visits %q, want %q", when, got, want)
	}
}

// shop is a root with a job folder of one workbook.
func shop(t *testing.T) (root, book string) {
	root = t.TempDir()
	book = filepath.Join(root, "Job 7", "parts.xlsx")
	must(t, os.Mkdir(filepath.Dir(book), 0o755))
	write(t, book, "old")
	return root, book
}

// inBubble runs a test on a clock of its own, on which minutes pass at once.
func inBubble(t *testing.T, test func(t *testing.T, root, book string)) {
	t.Helper()
	synctest.Test(t, func(t *testing.T) {
		root, book := shop(t)
		test(t, root, book)
	})
}

func pass(d time.Duration) {
	time.Sleep(d)
	synctest.Wait()
}

func TestTheStartVisitsEachFolderOnceItHasSettled(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		must(t, os.MkdirAll(filepath.Join(root, "Job 8", "drawings"), 0o755))
		write(t, filepath.Join(root, "Job 8", "drawings", "plan.pdf"), "no workbook")
		write(t, filepath.Join(root, "standards.xlsx"), "standards")
		l := begin(t.Context(), Options{Root: root, Poll: true}, nil)
		pass(4900 * time.Millisecond)
		l.want(t, "before two looks 5 s apart")
		pass(200 * time.Millisecond)
		l.want(t, "after them", filepath.Base(root)+": standards.xlsx", "Job 7: parts.xlsx")
		pass(time.Hour)
		l.want(t, "in an hour without changes")
	})
}

func TestAFileInTheMakingIsNotVisited(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		l := begin(t.Context(), Options{Root: root, Poll: true}, nil)
		pass(10 * time.Second)
		l.take()
		for range 90 { // copied in pieces, one a second
			f, err := os.OpenFile(book, os.O_APPEND|os.O_WRONLY, 0)
			must(t, err)
			f.WriteString("piece")
			f.Close()
			pass(time.Second)
		}
		l.want(t, "while it is copied")
		pass(time.Minute + 10*time.Second)
		l.mu.Lock()
		sum := l.visits[0].Hashes[book]
		l.mu.Unlock()
		l.want(t, "after it", "Job 7: parts.xlsx")
		if sum != Sum([]byte(read(t, book))) {
			t.Error("the visit has another hash than the file")
		}
	})
}

func TestAFolderThatNeverSettlesIsTold(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		l := begin(t.Context(), Options{Root: root, Poll: true}, nil)
		for i := range 31 * 60 / 3 {
			write(t, book, fmt.Sprint("state ", i))
			pass(3 * time.Second)
			if i == 29*60/3 && len(l.restless) != 0 {
				t.Error("told before 30 minutes")
			}
		}
		l.want(t, "while it moves")
		if len(l.restless) != 1 || l.restless[0].Path != filepath.Dir(book) {
			t.Errorf("restless: %+v, want the folder once", l.restless)
		}
		pass(2 * time.Minute)
		l.want(t, "when it rests at last", "Job 7: parts.xlsx")
	})
}

func TestOurOwnWriteWakesNobodyButASaveOverItDoes(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		l := begin(t.Context(), Options{Root: root, Poll: true}, func(v Visit) Outcome {
			write(t, book, "ours")
			write(t, Sibling(book), "results")
			return Outcome{Wrote: map[string]Hash{book: Sum([]byte("ours")), Sibling(book): Sum([]byte("results"))}}
		})
		pass(10 * time.Minute)
		l.want(t, "ten walks", "Job 7: parts.xlsx")
		write(t, book, "theirs")
		pass(2 * time.Minute)
		l.want(t, "after a save", "Job 7: parts.xlsx")
	})
}

func TestASaveDuringTheVisitIsSeen(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		first := true
		l := begin(t.Context(), Options{Root: root, Poll: true}, func(v Visit) Outcome {
			if !first {
				return Outcome{}
			}
			first = false
			write(t, book, "saved during the visit")
			return Outcome{Wrote: map[string]Hash{book: Sum([]byte("ours"))}}
		})
		pass(3 * time.Minute)
		l.want(t, "start and save", "Job 7: parts.xlsx", "Job 7: parts.xlsx")
	})
}

func TestANameThatIsBrieflyAbsentIsNotGone(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		l := begin(t.Context(), Options{Root: root, Poll: true}, nil)
		pass(59 * time.Second)
		l.take()
		must(t, os.Rename(book, book+".part")) // as a spreadsheet program saves, very slowly
		pass(4 * time.Second)
		write(t, book, "new")
		pass(2 * time.Minute)
		l.want(t, "after the save", "Job 7: parts.xlsx")
		must(t, os.Remove(book))
		pass(2 * time.Minute)
		l.want(t, "after the removal", "Job 7: gone parts.xlsx")
		write(t, book, "back")
		pass(2 * time.Minute)
		l.want(t, "after its return", "Job 7: parts.xlsx")
		must(t, os.RemoveAll(filepath.Dir(book)))
		pass(2 * time.Minute)
		l.want(t, "after the folder went")
	})
}

func TestAFolderThatGoesIsToldAmongOthers(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		write(t, filepath.Join(root, "standards.xlsx"), "standards")
		l := begin(t.Context(), Options{Root: root, Poll: true}, nil)
		pass(10 * time.Second)
		l.take()
		must(t, os.Rename(filepath.Dir(book), filepath.Join(root, "Job 9")))
		pass(2 * time.Minute)
		l.want(t, "after the move", "Job 7: gone parts.xlsx", "Job 9: parts.xlsx")
	})
}

func TestAgainIsVisitedAtEachWalkUntilItIsDone(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		tries := 0
		l := begin(t.Context(), Options{Root: root, Poll: true}, func(v Visit) Outcome {
			if tries++; tries < 3 {
				return Outcome{Again: []string{v.Path}}
			}
			return Outcome{}
		})
		pass(2*time.Minute + 10*time.Second)
		l.want(t, "two walks later", "Job 7: parts.xlsx", "Job 7: parts.xlsx", "Job 7: parts.xlsx")
		pass(10 * time.Minute)
		l.want(t, "when done")
	})
}

func TestAnEmptyRootMeansTheShareIsGone(t *testing.T) {
	for _, row := range []struct{ name, instead string }{{"no folder", ""}, {"empty folder", "made"}} {
		inBubble(t, func(t *testing.T, root, book string) {
			l := begin(t.Context(), Options{Root: root, Poll: true}, nil)
			pass(10 * time.Second)
			l.take()
			must(t, os.Rename(root, root+" away"))
			if row.instead != "" {
				must(t, os.Mkdir(root, 0o755))
			}
			pass(5 * time.Minute)
			l.want(t, row.name)
			if row.instead != "" {
				must(t, os.Remove(root))
			}
			must(t, os.Rename(root+" away", root))
			pass(5 * time.Minute)
			l.want(t, "after its return")
			if said := l.said[1:]; len(said) != 2 { // the first says what starts a look
				t.Errorf("%s: said %q, want one line when it went and one when it came", row.name, said)
			}
		})
	}
}

func TestAShareThatGoesWhileAFolderSettlesTakesNothing(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		l := begin(t.Context(), Options{Root: root, Poll: true}, nil)
		pass(30 * time.Second)
		l.take()
		write(t, book, "new")
		pass(32 * time.Second) // the walk at 60 s has seen it, the second look is at 65 s
		must(t, os.Rename(root, root+" away"))
		pass(30 * time.Second)
		l.want(t, "while the root is away")
		must(t, os.Rename(root+" away", root))
		pass(2 * time.Minute)
		l.want(t, "after its return", "Job 7: parts.xlsx")
	})
}

func TestAStampAloneIsNoChangeAndAChangeWithoutAStampIsFoundInADay(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		l := begin(t.Context(), Options{Root: root, Poll: true}, nil)
		pass(10 * time.Second)
		l.take()
		stamp := time.Date(2020, 1, 2, 3, 4, 5, 0, time.UTC)
		must(t, os.Chtimes(book, stamp, stamp))
		pass(5 * time.Minute)
		l.want(t, "new stamp, same bytes")
		write(t, book, "dlo")
		must(t, os.Chtimes(book, stamp, stamp))
		pass(25 * time.Hour)
		l.want(t, "same size and stamp, other bytes", "Job 7: parts.xlsx")
	})
}

func TestWhatPeopleTypeInTheRollUpIsSeen(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		rollUp := filepath.Join(root, RollUp)
		l := begin(t.Context(), Options{Root: root, Poll: true, Also: []string{rollUp}}, func(v Visit) Outcome {
			write(t, rollUp, "ours")
			return Outcome{Wrote: map[string]Hash{rollUp: Sum([]byte("ours"))}}
		})
		pass(10 * time.Minute)
		l.want(t, "start", "Job 7: parts.xlsx")
		write(t, rollUp, "ACCEPT")
		pass(2 * time.Minute)
		l.want(t, "after typing", filepath.Base(root)+": "+RollUp)
	})
}

func TestASecondVersionCallsForAVisit(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		l := begin(t.Context(), Options{Root: root, Poll: true}, nil)
		pass(10 * time.Second)
		l.take()
		write(t, strings.TrimSuffix(book, ".xlsx")+" (conflicted copy 2026-11-25).xlsx", "other")
		pass(2 * time.Minute)
		l.mu.Lock()
		defer l.mu.Unlock()
		if len(l.visits) != 1 || len(l.visits[0].Books) != 1 || l.visits[0].Books[0].Rival == "" || len(l.visits[0].Left) != 1 {
			t.Errorf("visits %+v, want one that tells of the second version", l.visits)
		}
	})
}

func TestTheEndOfTheContextEndsTheWatchAfterTheVisit(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		ctx, cancel := context.WithCancel(t.Context())
		visited := false
		l := begin(ctx, Options{Root: root, Poll: true}, func(v Visit) Outcome {
			cancel()
			time.Sleep(time.Minute)
			visited = true
			return Outcome{}
		})
		if err := <-l.ended; err != nil || !visited {
			t.Errorf("ended with %v, visit done: %v", err, visited)
		}
	})
}

func TestARootThatIsNotThereIsAnError(t *testing.T) {
	if err := Run(t.Context(), Options{Root: filepath.Join(t.TempDir(), "none"), Poll: true}); err == nil {
		t.Error("no error")
	}
}

// TestNoChangeIsLost does a thousand random things to files at random moments; at the end every
// folder has been visited as it is.
func TestNoChangeIsLost(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		r := rand.New(rand.NewPCG(7, 11))
		l := begin(t.Context(), Options{Root: root, Poll: true}, nil)
		for i := range 1000 {
			randomAct(t, r, root, i)
			pass(time.Duration(r.IntN(12_000)) * time.Millisecond)
		}
		pass(3 * time.Minute)
		seen := map[string]Visit{}
		l.last(seen)
		if err := allSeen(seen, root); err != nil || len(seen) < 12 {
			t.Errorf("%d folders seen: %v", len(seen), err)
		}
	})
}

// randomAct saves, writes in place, removes, or moves a folder.
func randomAct(t *testing.T, r *rand.Rand, root string, i int) {
	t.Helper()
	folder := filepath.Join(root, fmt.Sprint("Job ", r.IntN(12)))
	book := filepath.Join(folder, fmt.Sprint("book", r.IntN(3), ".xlsx"))
	text := fmt.Sprint("state ", i)
	must(t, os.MkdirAll(folder, 0o755))
	switch r.IntN(10) {
	case 0:
		os.Remove(book)
	case 1:
		_ = os.Rename(folder, filepath.Join(root, fmt.Sprint("Job ", r.IntN(12), " moved")))
	case 2, 3, 4:
		write(t, book, text)
	default:
		write(t, book+".part", text)
		must(t, os.Rename(book+".part", book))
	}
}

// allSeen compares the last visit of each folder with what is there.
func allSeen(last map[string]Visit, root string) error {
	folders, err := Files(root)
	if err != nil {
		return err
	}
	there := map[string]bool{}
	for _, f := range folders {
		there[f.Path] = true
		v := last[f.Path]
		if len(v.Hashes) != len(f.Books) {
			return fmt.Errorf("%q was last seen with %d workbooks, it has %d", f.Path, len(v.Hashes), len(f.Books))
		}
		for _, b := range f.Books {
			if v.Hashes[b.Path] != Sum([]byte(holds(b.Path))) {
				return fmt.Errorf("%q was last seen with other bytes", b.Path)
			}
		}
	}
	for path, v := range last {
		if len(v.Books) > 0 && !there[path] {
			return fmt.Errorf("%q was last seen with workbooks, it has none", path)
		}
	}
	return nil
}

// last takes the visits and adds the last of each folder to those seen before.
func (l *log) last(seen map[string]Visit) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, v := range l.visits {
		seen[v.Path] = v
	}
	l.visits = nil
}

// The tests from here on use the real clock and real file events, with a walk an hour away.

func withEvents(t *testing.T, root string) *log {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	l := begin(ctx, Options{Root: root, Every: time.Hour, Settle: 30 * time.Millisecond}, nil)
	t.Cleanup(func() {
		cancel()
		if err := <-l.ended; err != nil {
			t.Error(err)
		}
	})
	l.wait(t, "Job 7: parts.xlsx")
	if !strings.HasPrefix(l.said[0], "file events") {
		t.Skipf("no file events here: %q", l.said)
	}
	return l
}

// wait waits for visits in any order, and for no others.
func (l *log) wait(t *testing.T, want ...string) {
	t.Helper()
	var got []string
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		got = append(got, l.take()...)
		if slices.Sort(got); slices.Equal(got, want) {
			return
		}
	}
	t.Fatalf("visits %q, want %q", got, want)
}

func TestEventsBringTheLookForward(t *testing.T) {
	root, book := shop(t)
	l := withEvents(t, root)
	write(t, book+".part", "saved")
	must(t, os.Rename(book+".part", book))
	l.wait(t, "Job 7: parts.xlsx")

	outside := t.TempDir()
	write(t, filepath.Join(outside, "parts.xlsx"), "moved in")
	must(t, os.Rename(outside, filepath.Join(root, "Job 8")))
	l.wait(t, "Job 8: parts.xlsx")
	write(t, filepath.Join(root, "Job 8", "parts.xlsx"), "changed in the new folder")
	l.wait(t, "Job 8: parts.xlsx")

	must(t, os.Rename(filepath.Join(root, "Job 8"), filepath.Join(root, "Job 9")))
	l.wait(t, "Job 8: gone parts.xlsx", "Job 9: parts.xlsx")
	write(t, filepath.Join(root, "Job 9", "parts.xlsx"), "changed after the move")
	l.wait(t, "Job 9: parts.xlsx")
	must(t, os.RemoveAll(filepath.Join(root, "Job 9")))
	l.wait(t, "Job 9: gone parts.xlsx")
}

func TestItSaysWhatStartsALook(t *testing.T) {
	inBubble(t, func(t *testing.T, root, book string) {
		l := begin(t.Context(), Options{Root: root, Poll: true}, nil)
		pass(time.Second)
		if len(l.said) != 1 || !strings.HasPrefix(l.said[0], "no file events, as asked") || !strings.HasSuffix(l.said[0], "every 1m0s") {
			t.Errorf("walks alone: %q", l.said)
		}
	})
}

// A watch that the system refuses is told of once; the walks go on.
func TestTheLimitOfWatchesIsToldOnce(t *testing.T) {
	h, err := newHints()
	must(t, err)
	h.close() // a watcher that is closed refuses every folder, as one does that is full
	var said []string
	for _, folder := range []string{t.TempDir(), t.TempDir()} {
		h.add(folder, func(line string) { said = append(said, line) })
	}
	if len(said) != 1 || !strings.Contains(said[0], "walks see what changes there") {
		t.Errorf("said %q", said)
	}
}

func TestAnOverflowCallsForAWalk(t *testing.T) {
	h, err := newHints()
	must(t, err)
	defer h.close()
	h.watcher.Errors <- fsnotify.ErrEventOverflow
	<-h.wake()
	if folders, walk := h.take(); len(folders) != 0 || !walk {
		t.Errorf("folders %q, walk %v; want a walk", folders, walk)
	}
}

func TestEventsOfABurstAreNotLost(t *testing.T) {
	root, _ := shop(t)
	l := withEvents(t, root)
	r := rand.New(rand.NewPCG(3, 5))
	for i := range 1000 {
		randomAct(t, r, root, i)
	}
	seen := map[string]Visit{}
	err := fmt.Errorf("not looked yet")
	for end := time.Now().Add(30 * time.Second); err != nil && time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		l.last(seen)
		err = allSeen(seen, root)
	}
	if err != nil || len(seen) < 12 {
		t.Errorf("%d folders seen: %v", len(seen), err)
	}
}
