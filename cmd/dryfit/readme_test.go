package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"dryfit/sheet/draft"
)

const readmePath = "../../README.md"

// block is one fenced block of the README: its language, its lines, and the byte where these
// begin.
type block struct {
	kind, text string
	at         int
}

func readme(t *testing.T) (string, []block) {
	t.Helper()
	data, err := os.ReadFile(readmePath)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	var out []block
	for _, m := range regexp.MustCompile("(?ms)^```([a-z]+)\n(.*?)^```$").FindAllStringSubmatchIndex(text, -1) {
		out = append(out, block{text[m[2]:m[3]], text[m[4]:m[5]], m[4]})
	}
	if len(out) < 8 {
		t.Fatalf("%d blocks found in the README", len(out))
	}
	return text, out
}

// built builds dryfit as the README says, and returns its path.
func built(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "dryfit")
	if runtime.GOOS == "windows" {
		path += ".exe"
	}
	cmd := exec.Command("go", "build", "-o", path, ".")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return path
}

// TestReadmeCommands runs every command that the README tells people to run, against a built
// binary in a folder of its own, one after the other as a newcomer would. The tests
// themselves, and the builds for other systems, are run by .ci/run.
func TestReadmeCommands(t *testing.T) {
	if testing.Short() {
		t.Skip("builds a binary")
	}
	_, blocks := readme(t)
	exe := built(t)
	dir := t.TempDir()
	ran := 0
	for _, b := range blocks {
		if b.kind != "sh" {
			continue
		}
		for line := range strings.Lines(b.text) {
			line = strings.TrimSpace(line)
			line = strings.Replace(line, "go run ./cmd/dryfit", "dryfit", 1)
			switch {
			case line == "go build -o dryfit ./cmd/dryfit": // built did it
				continue
			case line == "go test ./...", line == ".ci/build dist":
				inCI(t, strings.TrimSuffix(line, " dist"))
				continue
			case strings.HasPrefix(line, "source "):
				bash(t, dir, exe, line)
				ran++
				continue
			}
			args := split(line)
			if args[0] != "dryfit" {
				t.Errorf("no command of ours: %s", line)
				continue
			}
			cmd := exec.Command(exe, args[1:]...)
			cmd.Dir = dir
			out, err := cmd.CombinedOutput()
			if code := cmd.ProcessState.ExitCode(); err != nil && code != exitHold || len(out) == 0 {
				t.Errorf("%s: %v\n%s", line, err, out)
			}
			ran++
		}
	}
	if ran < 6 {
		t.Errorf("%d commands ran, at least 6 are expected", ran)
	}
}

// inCI demands that .ci/run runs a command of the README that is too heavy for here.
func inCI(t *testing.T, command string) {
	t.Helper()
	data, err := os.ReadFile("../../.ci/run")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), command) {
		t.Errorf(".ci/run does not run %s", command)
	}
}

func bash(t *testing.T, dir, exe, line string) {
	t.Helper()
	if _, err := exec.LookPath("bash"); err != nil {
		return
	}
	cmd := exec.Command("bash", "-c", "set -e\n"+line+"\ncomplete -p dryfit")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "PATH="+filepath.Dir(exe)+string(filepath.ListSeparator)+os.Getenv("PATH"))
	if out, err := cmd.CombinedOutput(); err != nil || !strings.Contains(string(out), "dryfit") {
		t.Errorf("%s: %v\n%s", line, err, out)
	}
}

// TestReadmeExample makes the schedule of the worked example, checks it, types what the README
// says was typed, and checks it again: both outputs stand in the README word for word.
// DRYFIT_UPDATE=1 writes them there.
func TestReadmeExample(t *testing.T) {
	text, blocks := readme(t)
	start := strings.Index(text, "## A schedule mended")
	end := start + strings.Index(text[start:], "\n## The four")
	var parts []block
	for _, b := range blocks {
		if b.at > start && b.at < end {
			parts = append(parts, b)
		}
	}
	if start < 0 || end < start || len(parts) != 3 {
		t.Fatalf("%d blocks in the worked example, want the schedule and two outputs", len(parts))
	}
	t.Chdir(t.TempDir())
	book := filepath.Join("Lantern room", "grid.xlsx")
	data, err := draft.Workbook(parts[0].text)
	if err != nil {
		t.Fatal(err)
	}
	if err := create(book, data); err != nil {
		t.Fatal(err)
	}
	failing := says(t, exitHold)
	changed := typeTable(t, book, text[start:end])
	mended := says(t, exitClear)
	if changed < 4 || !strings.HasPrefix(mended, "CLEAR") {
		t.Errorf("%d cells changed:\n%s", changed, mended)
	}
	if failing == parts[1].text && mended == parts[2].text {
		return
	}
	if os.Getenv("DRYFIT_UPDATE") != "1" {
		t.Fatalf("the README shows other words than dryfit says; DRYFIT_UPDATE=1 writes these there:\n%s\n%s", failing, mended)
	}
	text = text[:parts[1].at] + failing + text[parts[1].at+len(parts[1].text):parts[2].at] + mended + text[parts[2].at+len(parts[2].text):]
	if err := os.WriteFile(readmeHere, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// readmeHere is the README from any folder.
var readmeHere = func() string {
	path, err := filepath.Abs(readmePath)
	if err != nil {
		panic(err)
	}
	return path
}()

// says is what a check of the worked example prints, without the line of the file to open.
func says(t *testing.T, want int) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if code := run([]string{"check", "--no-write", "Lantern room"}, &stdout, &stderr); code != want {
		t.Fatalf("exit code %d, want %d: %s%s", code, want, stdout.String(), stderr.String())
	}
	return stdout.String()
}

// typeTable types what a table of the README says into a workbook, after it has seen that the
// cells hold what they were said to hold, and counts them.
func typeTable(t *testing.T, path, text string) int {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	n := 0
	for _, m := range regexp.MustCompile(`(?m)^\| (\w+)!([A-Z])(\d+)(?::[A-Z](\d+))? \| (.+) \| (.+) \|$`).FindAllStringSubmatch(text, -1) {
		from, _ := strconv.Atoi(m[3])
		to := from
		if m[4] != "" {
			to, _ = strconv.Atoi(m[4])
		}
		for row := from; row <= to; row++ {
			cell := fmt.Sprintf("%s%d", m[2], row)
			if was, err := f.GetCellValue(m[1], cell); err != nil || was != m[5] {
				t.Fatalf("%s!%s holds %q, the README says %q (%v)", m[1], cell, was, m[5], err)
			}
			var value any = m[6]
			if x, err := strconv.ParseFloat(m[6], 64); err == nil {
				value = x
			}
			if err := f.SetCellValue(m[1], cell, value); err != nil {
				t.Fatal(err)
			}
			n++
		}
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	return n
}

// TestReadmeNamesCommands looks up every command and flag that the README names in passing.
func TestReadmeNamesCommands(t *testing.T) {
	text, _ := readme(t)
	named := map[string]bool{}
	for line := range strings.Lines(text) {
		var flags []string
		for _, m := range regexp.MustCompile("`([^`]+)`").FindAllStringSubmatch(line, -1) {
			words := strings.Fields(m[1])
			switch {
			case words[0] == "dryfit" && len(words) > 1 && !strings.Contains(strings.Join(commandNames(), " "), words[1]):
				if !strings.Contains("flagged rows coverage working install words roll-up.xlsx", words[1]) {
					t.Errorf("%q names no command, no tab and no file of ours", m[1])
				}
			case words[0] == "dryfit" && len(words) > 1:
				named[words[1]] = true
			case strings.HasPrefix(words[0], "--"):
				flags = append(flags, words[0])
			}
		}
		for _, f := range flags {
			if !known(f) {
				t.Errorf("no command knows the flag %s", f)
			}
		}
	}
	for _, n := range commandNames() {
		if n != "help" && !named[n] {
			t.Errorf("the README does not name dryfit %s", n)
		}
	}
}

func commandNames() []string {
	root := newRoot()
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd("version")
	var out []string
	for _, c := range root.Commands() {
		out = append(out, c.Name())
	}
	return out
}

func known(flag string) bool {
	root := newRoot()
	root.InitDefaultVersionFlag()
	root.InitDefaultHelpFlag()
	for _, c := range append(root.Commands(), root) {
		if c.Flags().Lookup(strings.TrimPrefix(flag, "--")) != nil {
			return true
		}
	}
	return false
}

// TestReadmeLinks looks for each file that the README links to, and for the line of .ci/pictures
// that makes each picture; a picture that no page shows is not kept.
func TestReadmeLinks(t *testing.T) {
	text, _ := readme(t)
	script, err := os.ReadFile("../../.ci/pictures")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`\]\(([^)#:]+)\)`).FindAllStringSubmatch(text, -1) {
		if _, err := os.Stat(filepath.Join("../..", m[1])); err != nil {
			t.Errorf("the README links to %s: %v", m[1], err)
		}
	}
	pictures, err := os.ReadDir("../../testdata/readme")
	if err != nil || len(pictures) == 0 {
		t.Fatal("no pictures", err)
	}
	for _, p := range pictures {
		name := strings.TrimSuffix(p.Name(), ".png")
		if !strings.Contains(text, "testdata/readme/"+p.Name()) || !strings.Contains(string(script), "\npicture "+name+" ") {
			t.Errorf("%s is not shown, or nothing makes it", p.Name())
		}
	}
}

// TestReadmeSchedulers looks at the snippets for the system's schedulers as the systems read
// them: five fields before a command, unit files, and a task whose quotes close; each runs a
// command that dryfit knows.
func TestReadmeSchedulers(t *testing.T) {
	_, blocks := readme(t)
	cron := regexp.MustCompile(`^(\*|[0-9]+(?:-[0-9]+)?)( +(\*|[0-9]+(?:-[0-9]+)?)){4}  +(/\S+/dryfit) (.+?) +>>\S+ 2>&1\n$`)
	task := regexp.MustCompile(`^schtasks /Create /TN "[^"]+" /SC WEEKLY /D [A-Z,]+ /ST \d\d:\d\d /TR "((?:[^"\\]|\\.)*)" /RU \w+ /RP \*\n$`)
	seen := map[string]bool{}
	for _, b := range blocks {
		switch {
		case b.kind == "bat":
			m := task.FindStringSubmatch(b.text)
			if m == nil {
				t.Fatalf("no task: %s", b.text)
			}
			parses(t, split(strings.ReplaceAll(m[1], `\"`, `"`))[1:])
			seen["task"] = true
		case b.kind == "ini":
			name := unitFile(t, b.text)
			seen[name] = true
		case strings.Contains(b.text, "/var/log"):
			m := cron.FindStringSubmatch(b.text)
			if m == nil {
				t.Fatalf("no line for cron: %s", b.text)
			}
			parses(t, split(m[5]))
			seen["cron"] = true
		}
	}
	for _, want := range []string{"cron", "service", "timer", "task"} {
		if !seen[want] {
			t.Errorf("no snippet for %s", want)
		}
	}
}

// unitFile looks at a unit file, with systemd's own eyes where it is installed, and says of
// what kind it is.
func unitFile(t *testing.T, text string) string {
	t.Helper()
	keys := map[string]string{}
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if k, v, ok := strings.Cut(line, "="); ok {
			keys[k] = v
		} else if line != "" && !regexp.MustCompile(`^\[(Unit|Service|Timer|Install)\]$`).MatchString(line) {
			t.Errorf("a line of a unit file is neither a section nor a key: %s", line)
		}
	}
	kind := "timer"
	if command := keys["ExecStart"]; command != "" {
		kind = "service"
		parses(t, split(command)[1:])
	}
	if _, err := exec.LookPath("systemd-analyze"); err != nil {
		return kind
	}
	if when := keys["OnCalendar"]; when != "" {
		if out, err := exec.Command("systemd-analyze", "calendar", when).CombinedOutput(); err != nil {
			t.Errorf("OnCalendar=%s: %v: %s", when, err, out)
		}
	}
	return kind
}
