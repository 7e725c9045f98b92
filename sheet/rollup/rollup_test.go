package rollup

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/xuri/excelize/v2"

	"dryfit/check"
	"dryfit/sheet/graft"
	"dryfit/sheet/office"
	"dryfit/sheet/write"
)

var (
	friday = time.Date(2031, 3, 14, 2, 0, 0, 0, time.UTC)
	monday = friday.AddDate(0, 0, 3)
)

func line(job string, n int, first time.Time) Line {
	return Line{Job: job, Key: fmt.Sprintf("fit.joint|Nook|J%d|s", n), ID: "fit.joint", Stand: write.Stand{Verdict: check.Hold, Margin: -0.125},
		Where: "Nook\nJ1", Text: fmt.Sprintf("Slot J%d: too narrow, by 1/8 in", n), Fix: "cut the slot 7/8 in",
		Book: job + "/list.xlsx", Cell: "Part's!E14", Link: "'Part''s'!E14", First: first}
}

// sample is a roll-up with a line of every kind.
func sample() Book {
	accepted, asked, lapsed, silent := line("2301 Nook & hall", 1, friday), line("2302", 2, friday), line("2302", 3, friday), line("2303", 4, monday)
	accepted.Said = write.Said{By: "RB", Why: "eased on the bench", On: friday.Add(time.Hour), Beside: &accepted.Stand}
	accepted.Fate = Accepted
	asked.Said = write.Said{Whom: "Ida", What: "_x0041_ or not?", On: friday.Add(2 * time.Hour), Beside: &asked.Stand}
	asked.Fate = Asked
	lapsed.Said = write.Said{By: "KO", Why: "fits", On: friday, Beside: &write.Stand{Verdict: check.Verify, Margin: math.Inf(-1)},
		Before: []write.Past{{As: [4]string{"RB", "older", "", ""}, On: friday.Add(-time.Hour)}}}
	lapsed.Fate = Lapsed
	silent.Stand = write.Stand{Verdict: check.NotChecked}
	lines := []Line{silent, lapsed, asked, accepted}
	run := Run{At: monday, Since: monday, Kind: "nightly", Took: 90 * time.Second, Version: "1.2.3", Jobs: 4, Unchanged: 1, Resting: 2, Faults: 1,
		Verdicts: [4]int{check.Hold: 2, check.NotChecked: 1}, New: 1, Old: 1, Accepted: 1, Asked: 1}
	jobs := []Job{
		{Name: "2302", Verdict: check.Hold, Read: true, Cut: monday.AddDate(0, 0, 2), Counts: Counts{Hold: 2, Asked: 1}, Digest: "d2"},
		{Name: "2301 Nook & hall", Verdict: check.Hold, Read: true, Counts: Counts{Accepted: 1}, Digest: "d1"},
		{Name: "2304", Fault: "list.xlsx: not a workbook", Digest: "d4"},
	}
	return Book{
		Front: Front{Root: "jobs", Run: run, Jobs: jobs, Faults: jobs[2:], New: lines[:1], Old: lines[1:2], Asked: lines[2:3]},
		Since: monday, Lines: len(lines), Rows: slices.Values(lines), Jobs: len(jobs), AllJobs: slices.Values(jobs),
		History: []Run{run, {At: friday, Since: friday, Kind: "nightly", Version: "1.2.2", Jobs: 3}},
		Checks:  map[string]Outcome{"fit.joint": {ID: "fit.joint", Open: 3, Ended: Ended{Mended: 5, Itself: 1, Left: 2}}},
		Words:   []Word{{Job: "2302", Key: lapsed.Key, On: friday, As: lapsed.Said.As(), Fate: "lapsed"}},
	}
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func readBack(t testing.TB, data []byte) Past {
	t.Helper()
	past, err := Read(data, monday.Add(6*time.Hour))
	must(t, err)
	return past
}

func linesOf(b Book) map[string]map[string]Line {
	out := map[string]map[string]Line{}
	for l := range b.Rows {
		if out[l.Job] == nil {
			out[l.Job] = map[string]Line{}
		}
		l.Said = write.Said{} // read back as a word, not with the line
		out[l.Job][l.Key] = l
	}
	return out
}

func TestWhatIsWrittenIsReadBack(t *testing.T) {
	b := sample()
	data, err := Make(b)
	must(t, err)
	past := readBack(t, data)
	if d := cmp.Diff(linesOf(b), past.Lines, cmpopts.EquateEmpty()); d != "" {
		t.Errorf("lines (-want +got):\n%s", d)
	}
	for l := range b.Rows {
		if got := past.Typed[l.Job][l.Key]; cmp.Diff(l.Said, got, cmpopts.EquateEmpty()) != "" {
			t.Errorf("word beside %s: %s", l.Key, cmp.Diff(l.Said, got))
		}
		if past.Changed[l.Job] {
			t.Errorf("%s: taken for typed since", l.Job)
		}
	}
	if d := cmp.Diff(b.History, past.History); d != "" {
		t.Errorf("history (-want +got):\n%s", d)
	}
	if past.Ended["fit.joint"] != (Ended{Mended: 5, Itself: 1, Left: 2}) || past.Digests["2301 Nook & hall"] != "d1" || past.Foreign {
		t.Errorf("got %+v", past)
	}
}

// edit changes a roll-up as a person would.
func edit(t testing.TB, data []byte, change func(f *excelize.File)) []byte {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	must(t, err)
	defer f.Close()
	change(f)
	buf, err := f.WriteToBuffer()
	must(t, err)
	return buf.Bytes()
}

// find gives the row that holds a text and the column under a header.
func find(t testing.TB, f *excelize.File, tab, text, header string) string {
	t.Helper()
	rows, err := f.GetRows(tab)
	must(t, err)
	col := 0
	for i, row := range rows {
		if c := slices.Index(row, header); c >= 0 {
			col = c + 1
		} else if col > 0 && strings.Contains(strings.Join(row, " "), text) {
			return write.At(col, i+1)
		}
	}
	t.Fatalf("no %q under %q on tab %q", text, header, tab)
	return ""
}

func TestAWordTypedOnAnyTab(t *testing.T) {
	data, err := Make(sample())
	must(t, err)
	for _, tab := range []string{TabFront, TabOpen} {
		typed := edit(t, data, func(f *excelize.File) {
			must(t, f.SetCellStr(tab, find(t, f, tab, "Slot J4", "Accept: initials"), " MW "))
			must(t, f.SetCellStr(tab, find(t, f, tab, "Slot J4", "Accept: why"), "seen"))
		})
		past := readBack(t, typed)
		got := past.Typed["2303"]["fit.joint|Nook|J4|s"]
		if got.By != "MW" || got.Why != "seen" || !got.On.Equal(monday.Add(6*time.Hour)) || got.Beside == nil || got.Beside.Verdict != check.NotChecked {
			t.Errorf("%s: %+v", tab, got)
		}
		if !past.Changed["2303"] || past.Changed["2302"] {
			t.Errorf("%s: changed %v", tab, past.Changed)
		}
		words, err := ReadWords(typed, monday.Add(6*time.Hour))
		must(t, err)
		want := map[string]write.Typed{"2303": {"fit.joint|Nook|J4|s": got}}
		if diff := cmp.Diff(want, words.Typed); diff != "" || !words.Changed["2303"] || len(words.Changed) != 1 {
			t.Errorf("%s: words alone, changed %v: %s", tab, words.Changed, diff)
		}
		if len(words.Lines) > 0 || len(words.Digests) > 0 || len(words.History) != len(past.History) || words.Foreign {
			t.Errorf("%s: more or less than words and runs: %+v", tab, words)
		}
	}
}

// What is kept in the hidden cell must not outgrow a cell: cut in the middle it would say nothing.
func TestALongWordIsNotLost(t *testing.T) {
	b := sample()
	long := line("2302", 9, friday)
	long.Said = write.Said{By: "RB", Why: strings.Repeat("because ", 3500), On: friday,
		Before: []write.Past{{As: [4]string{"KO", strings.Repeat("since ", 3000)}, On: friday}}}
	b.Rows, b.Lines = slices.Values([]Line{long}), 1
	data, err := Make(b)
	must(t, err)
	if got := readBack(t, data).Typed["2302"][long.Key]; got.By != "RB" || len(got.Why) < 27_000 {
		t.Errorf("read back: %q, %d letters", got.By, len(got.Why))
	}
}

func TestColumnsAndRowsMayBeMoved(t *testing.T) {
	b := sample()
	data, err := Make(b)
	must(t, err)
	moved := edit(t, data, func(f *excelize.File) {
		must(t, f.InsertCols(TabOpen, "C", 2))
		must(t, f.InsertRows(TabOpen, 2, 3))
	})
	if d := cmp.Diff(linesOf(b), readBack(t, moved).Lines, cmpopts.EquateEmpty()); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func TestRefreshKeepsTheOtherTabs(t *testing.T) {
	b := sample()
	data, err := Make(b)
	must(t, err)
	front := b.Front
	front.Run.At = monday.AddDate(0, 0, 1)
	history := append([]Run{front.Run}, b.History...)
	fresh, err := Refresh(data, front, history)
	must(t, err)
	past := readBack(t, fresh)
	if d := cmp.Diff(linesOf(b), past.Lines, cmpopts.EquateEmpty()); d != "" || len(past.History) != 3 {
		t.Errorf("%d runs; lines (-want +got):\n%s", len(past.History), d)
	}
	if tab := text(t, fresh, TabFront); !strings.Contains(tab, "Tuesday 18 March 2031") {
		t.Errorf("front: %s", tab)
	}
}

func text(t testing.TB, data []byte, tab string) string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	must(t, err)
	defer f.Close()
	rows, err := f.GetRows(tab)
	must(t, err)
	var lines []string
	for _, row := range rows {
		lines = append(lines, strings.Join(row, " | "))
	}
	return strings.Join(lines, "\n")
}

func TestTabsOfThePeopleStay(t *testing.T) {
	data, err := Make(sample())
	must(t, err)
	theirs := edit(t, data, func(f *excelize.File) {
		_, err := f.NewSheet("our meeting")
		must(t, err)
		must(t, f.SetCellStr("our meeting", "B3", "ask Ida on Monday"))
	})
	if !readBack(t, theirs).Foreign {
		t.Fatal("their tab was not seen")
	}
	made, err := Into(theirs, sample())
	must(t, err)
	if !strings.Contains(text(t, made, "our meeting"), "ask Ida on Monday") {
		t.Error("their tab is lost")
	}
}

// A run that found nothing must not look like one that did not run, or that saw nothing.
func TestNothingFoundIsSaid(t *testing.T) {
	front := func(r Run) string {
		data, err := Make(Book{Front: Front{Root: "jobs", Run: r}, Rows: slices.Values([]Line{}), AllJobs: slices.Values([]Job{})})
		must(t, err)
		return text(t, data, TabFront)
	}
	sound := front(Run{At: monday, Jobs: 7, Verdicts: [4]int{check.Clear: 7}})
	for _, want := range []string{"Ran Monday 17 March 2031, 02:00", "7 jobs read. Every workbook would open.", "CLEAR 7", "Nothing new since the last run"} {
		if !strings.Contains(sound, want) {
			t.Errorf("sound jobs: no %q in\n%s", want, sound)
		}
	}
	if empty := front(Run{At: monday}); !strings.Contains(empty, "NO JOB WAS FOUND") || strings.Contains(empty, "Every workbook would open") {
		t.Errorf("no jobs:\n%s", empty)
	}
}

func TestLinksLeadToFileAndCell(t *testing.T) {
	b := sample()
	b.Front.New = []Line{line("2301 Nook & hall", 1, monday)}
	data, err := Make(b)
	must(t, err)
	if rels := part(t, data, "xl/worksheets/_rels/sheet1.xml.rels"); !strings.Contains(rels, `Target="2301%20Nook%20&amp;%20hall/list.xlsx" TargetMode="External"`) {
		t.Errorf("links of the front: %s", rels)
	}
	if rows := part(t, data, "xl/worksheets/sheet1.xml"); !strings.Contains(rows, `location="'Part''s'!E14"`) {
		t.Errorf("places of the links of the front: %s", rows)
	}
	if rows := part(t, data, "xl/worksheets/sheet2.xml"); !strings.Contains(rows, `<f>HYPERLINK("2302/list.xlsx#'Part''s'!E14","Part's!E14")</f>`) {
		t.Errorf("links of the open rows: %s", rows)
	}
}

func part(t testing.TB, data []byte, name string) string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	must(t, err)
	f, err := z.Open(name)
	must(t, err)
	defer f.Close()
	text, err := io.ReadAll(f)
	must(t, err)
	return string(text)
}

func TestTheFrontCountsDaysAndWhatIsGone(t *testing.T) {
	for _, c := range []struct {
		name, want string
		change     func(f *Front)
	}{
		{"asked on Friday", "asked 3 days ago | 2302 | Ida", func(*Front) {}},
		{"late on Sunday", "asked 1 day ago", func(f *Front) { f.Asked[0].Said.On = monday.Add(-3 * time.Hour) }},
		{"since midnight", "asked today", func(f *Front) { f.Asked[0].Said.On = monday.Add(-time.Hour) }},
		{"one with a date", "Jobs, soonest first", func(*Front) {}},
		{"none with a date", "Jobs by name: no dates given", func(f *Front) { f.Jobs = f.Jobs[1:] }},
		{"rows gone", "1 new row since the last run, 2 rows gone", func(f *Front) { f.Run.Ended = 2 }},
		{"nothing but that", "Nothing new since the last run, 1 row gone", func(f *Front) { f.Run.New, f.Run.Ended = 0, 1 }},
	} {
		b := sample()
		b.Front.Asked = slices.Clone(b.Front.Asked)
		c.change(&b.Front)
		data, err := Make(b)
		must(t, err)
		if got := text(t, data, TabFront); !strings.Contains(got, c.want) {
			t.Errorf("%s: no %q in\n%s", c.name, c.want, got)
		}
	}
}

// The front is one page however much there is, as LibreOffice prints it.
func TestTheFrontIsOnePage(t *testing.T) {
	pdfinfo := office.Find(t, "pdfinfo", "poppler-utils")
	b := sample()
	b.Front.New, b.Front.Old, b.Front.Jobs = nil, nil, nil
	b.Front.Run.Old = 99
	for i := range MostJobs {
		b.Front.Jobs = append(b.Front.Jobs, Job{Name: fmt.Sprint(2300 + i), Read: true})
	}
	most, mostNew := b.Front.RoomFor()
	for i := range most {
		l := line("2301 Nook & hall", i, monday)
		l.Text = strings.Repeat("a sentence as long as they come, ", 4)
		if i < mostNew {
			b.Front.New = append(b.Front.New, l)
		} else {
			b.Front.Old = append(b.Front.Old, l)
		}
	}
	tabs, err := write.Assemble(b.Front.page())
	must(t, err)
	data, err := graft.New(tabs)
	must(t, err)
	path := filepath.Join(t.TempDir(), "front.xlsx")
	must(t, os.WriteFile(path, data, 0o644))
	out := office.Convert(t, "pdf", path)
	said, err := exec.Command(pdfinfo, filepath.Join(out, "front.pdf")).Output()
	must(t, err)
	if !strings.Contains(strings.Join(strings.Fields(string(said)), " "), "Pages: 1 ") {
		t.Errorf("pdfinfo says: %s", said)
	}
}
