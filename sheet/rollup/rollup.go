// Package rollup makes the workbook that the lead reads in the morning: one page to print, every
// open row with columns to accept or to ask, the jobs, the history, and what became of the
// findings of each check. It reads back what it wrote and what people typed there, so that the
// workbook alone is record enough. It knows no rule and no file: verdicts and sentences come
// from elsewhere, and bytes go elsewhere.
package rollup

import (
	"cmp"
	"iter"
	"slices"
	"strings"
	"time"

	"dryfit/check"
	"dryfit/sheet/write"
)

// Names of the tabs, in their order.
const (
	TabFront   = "dryfit roll-up"
	TabOpen    = "dryfit open"
	TabJobs    = "dryfit jobs"
	TabHistory = "dryfit runs"
	TabChecks  = "dryfit checks"
	TabWords   = "dryfit words"
)

// Line is one finding of one job.
type Line struct {
	Job   string // folder below the root, with slashes
	Key   string
	ID    string
	Stand write.Stand // its verdict and margin
	Where string
	Text  string
	Fix   string
	Book  string    // workbook below the root, with slashes
	Cell  string    // such as Parts!E14
	Link  string    // such as 'Parts'!E14; empty where there is no cell to go to
	First time.Time // when it was first seen
	Said  write.Said
	Fate  Fate // what the word does
}

// Fate is what a word does to a finding.
type Fate int

// What a word does: nothing, a question, an acceptance, one that lapsed because the finding
// became worse, or one whose reason was given for another finding too.
const (
	Open Fate = iota
	Asked
	Accepted
	Lapsed
	Shared
)

// IsNew reports whether the line was first seen at or after a moment.
func (l Line) IsNew(since time.Time) bool { return !l.First.Before(since) }

// Job is what is known of one job.
type Job struct {
	Name      string // folder below the root, with slashes
	Verdict   check.Verdict
	Stage     string
	Cut, Ship time.Time // zero: not said
	Counts
	Fault  string   // why it, or a workbook of it, could not be read; empty if all could
	Read   bool     // false: nothing of it could be read
	Notes  []string // what was not written, and why
	Digest string   // of its workbooks, to tell whether they changed since
}

// Counts are lines of findings.
type Counts struct {
	Hold, Verify, NotChecked int // without the accepted ones
	Accepted, Asked, New     int
}

// Due is the date that comes first, zero if none is said.
func (j Job) Due() time.Time {
	if j.Cut.IsZero() || !j.Ship.IsZero() && j.Ship.Before(j.Cut) {
		return j.Ship
	}
	return j.Cut
}

// Sooner orders jobs by the date that comes first, those without one last.
func (j Job) Sooner(k Job) int {
	if c := cmp.Compare(b2i(j.Due().IsZero()), b2i(k.Due().IsZero())); c != 0 {
		return c
	}
	return cmp.Or(j.Due().Compare(k.Due()), strings.Compare(j.Name, k.Name))
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// Run is one run over the root.
type Run struct {
	At        time.Time     `json:"at"`
	Since     time.Time     `json:"since"` // what was first seen from then on counts as new
	Kind      string        `json:"kind"`  // "nightly" or "watch"
	Took      time.Duration `json:"took"`
	Version   string        `json:"version"`
	Jobs      int           `json:"jobs"`      // active ones
	Unchanged int           `json:"unchanged"` // of them, not read again
	Resting   int           `json:"resting"`   // not active, or shipped
	Faults    int           `json:"faults"`    // jobs with a workbook that could not be read
	Verdicts  [4]int        `json:"verdicts"`  // jobs by check.Verdict, without those not read at all
	New       int           `json:"new"`
	Old       int           `json:"old"`
	Ended     int           `json:"ended"`
	Accepted  int           `json:"accepted"`
	Asked     int           `json:"asked"`
}

// Continues reports whether the run takes the line of an earlier one in the history: a watch has
// one line a day.
func (r Run) Continues(earlier Run) bool {
	return r.Kind == "watch" && earlier.Kind == "watch" && r.Since.Equal(earlier.Since)
}

// Ended counts what became of findings that are there no more.
type Ended struct {
	Mended int `json:"mended"` // gone after the workbook was changed
	Itself int `json:"itself"` // gone without that: other standards, another version, another stage
	Left   int `json:"left"`   // gone with the job: it is active no more
}

// Outcome is what became of the findings of one check.
type Outcome struct {
	ID string
	Ended
	Open, Accepted, Asked int // now
}

// Front is what the page to print shows. Lists are cut to what a page holds; the counts of the
// run are whole.
type Front struct {
	Root     string
	Run      Run
	Faults   []Job
	Jobs     []Job // soonest first
	New, Old []Line
	Asked    []Line // oldest first
}

// Oldest puts the oldest questions first and cuts them to what the page holds.
func (f Front) Oldest() Front {
	slices.SortStableFunc(f.Asked, func(a, b Line) int { return a.Said.On.Compare(b.Said.On) })
	f.Asked = f.Asked[:min(len(f.Asked), MostAsked)]
	return f
}

// RoomFor says how many lines the page holds, new and old together, and how many of them may be
// new when others are old: what faults, jobs and questions leave.
func (f Front) RoomFor() (lines, fresh int) {
	lines = min(mostLines, mostRows-len(f.Faults)-len(f.Jobs)-min(f.Run.Asked, MostAsked))
	return lines, lines - min(f.Run.Old, leastOld)
}

// What a page holds.
const (
	MostFaults = 4
	MostJobs   = 6
	MostAsked  = 3
	mostRows   = 24 // faults, jobs, lines and questions
	mostLines  = 14 // they are the highest
	leastOld   = 3
)

// Book is the whole roll-up.
type Book struct {
	Front
	Since   time.Time      // lines first seen from then on are new
	Lines   int            // how many Rows
	Rows    iter.Seq[Line] // new ones first, accepted ones last
	Jobs    int            // how many AllJobs
	AllJobs iter.Seq[Job]  // soonest first
	History []Run          // newest first
	Checks  map[string]Outcome
	Words   []Word // newest first
}

// Word is a word of the lead that stands or stood beside a finding.
type Word struct {
	Job, Key string
	On       time.Time
	As       [4]string
	Fate     string // "stands", "lapsed", "replaced", "withdrawn", "finding gone"
}
