package graft

import (
	"bytes"
	"context"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// missing skips a test for want of a program, or fails it where the programs are demanded.
func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("DRYFIT_REQUIRE_EXTERNAL") == "1" {
		t.Fatalf("%s is not installed, and DRYFIT_REQUIRE_EXTERNAL=1 demands it", what)
	}
	t.Skipf("%s is not installed", what)
}

// reading is what another program reads in our tabs, as field and text; "error" if nothing.
type reading map[string]string

// resave lets a program open, read and save every file of one folder into another.
type resave func(t *testing.T, from, into string) map[string]reading

// externalHosts are the hosts that go through other programs: those made here or, where the
// corpus is named and the programs are demanded, all of it.
func externalHosts(t *testing.T) []namedHost {
	var list []namedHost
	dir := os.Getenv("DRYFIT_CORPUS")
	if dir == "" || os.Getenv("DRYFIT_REQUIRE_EXTERNAL") != "1" {
		for _, h := range hosts(t) {
			if h.reason == "" {
				h.name = strings.NewReplacer(" ", "_", ",", "").Replace(h.name) + ".xlsx"
				list = append(list, h)
			}
		}
		return list
	}
	for _, path := range corpusFiles(t, dir) {
		data, err := os.ReadFile(path)
		must(t, err)
		list = append(list, namedHost{name: filepath.Base(path), data: data})
	}
	return list
}

// counts are the lengths of the lists of a styles part.
func counts(t *testing.T, data []byte) map[string]int {
	t.Helper()
	h, err := openHost(data)
	must(t, err)
	n := map[string]int{}
	r, ok := h.relation("styles")
	if !ok {
		return n
	}
	tree, err := h.tree(r.target)
	must(t, err)
	for list := range tree.Root().Children() {
		for range list.Children() {
			n[list.Name()]++
		}
	}
	return n
}

// threeCycles grafts, lets the program save, and does so again: no tab may be added twice, no
// mark be lost, no list of the styles grow, and the program must read in our tabs what stands
// there.
func threeCycles(t *testing.T, program resave, list []namedHost, want reading) {
	tabs := sampleTabs(t)
	now := map[string][]byte{}
	refused := 0
	for _, h := range list {
		out, err := Graft(h.data, tabs)
		var no *Refusal
		if errors.As(err, &no) {
			refused++
			continue
		}
		must(t, err)
		now[h.name] = out
	}
	odd := unreadable(t, program, list, now)
	wide := map[string]map[string]int{}
	for round := 1; round <= 3; round++ {
		saved := through(t, program, now)
		for _, name := range slices.Sorted(maps.Keys(now)) {
			got := saved[name]
			if got.data == nil {
				t.Errorf("%s, round %d: %v", name, round, got.reading)
				delete(now, name)
				continue
			}
			for field, text := range want {
				if got.reading[field] != text {
					t.Errorf("%s, round %d: %s reads %q, want %q", name, round, field, got.reading[field], text)
				}
			}
			again, err := backInto(got.data, tabs)
			if err != nil {
				t.Errorf("%s, round %d: %v", name, round, err)
				delete(now, name)
				continue
			}
			now[name] = again
			n := counts(t, again)
			if before, ok := wide[name]; ok && !maps.Equal(before, n) {
				t.Errorf("%s, round %d: lists of the styles were %v and are %v", name, round, before, n)
			}
			if round > 1 || !grew(counts(t, got.data), n) {
				wide[name] = n
			}
		}
	}
	t.Logf("%d workbooks through three cycles, %d refused, %d that the program cannot read without us either: %v", len(now), refused, len(odd), odd)
	if len(now) == 0 {
		t.Error("nothing came through")
	}
}

// grew reports whether a list became longer.
func grew(before, after map[string]int) bool {
	for name, n := range after {
		if n > before[name] {
			return true
		}
	}
	return false
}

// backInto grafts into what a program saved and checks what must hold then.
func backInto(saved []byte, tabs Tabs) ([]byte, error) {
	marked, err := Ours(saved)
	if err != nil {
		return nil, err
	}
	if !slices.Equal(marked, sampleNames) {
		return nil, fmt.Errorf("marked tabs after the save: %q", marked)
	}
	again, err := Graft(saved, tabs)
	if err != nil {
		return nil, err
	}
	if err := Verify(saved, again); err != nil {
		return nil, err
	}
	a, err := openHost(saved)
	if err != nil {
		return nil, err
	}
	b, err := openHost(again)
	if err != nil {
		return nil, err
	}
	if len(a.sheets) != len(b.sheets) {
		return nil, fmt.Errorf("%d tabs became %d", len(a.sheets), len(b.sheets))
	}
	return again, frozenAt(a, "1")
}

// frozenAt demands that the first of our tabs is frozen below so many rows.
func frozenAt(h *host, rows string) error {
	for _, s := range h.sheets {
		if s.name != sampleNames[0] {
			continue
		}
		t, err := h.tree(s.part)
		if err != nil {
			return err
		}
		pane := t.Root().Child("sheetViews").Child("sheetView").Child("pane")
		if !pane.Ok() {
			return errors.New("the frozen pane is lost")
		}
		if got, _ := pane.Attr("ySplit"); strings.TrimSuffix(got, ".0") != rows {
			return fmt.Errorf("frozen below row %s, want %s", got, rows)
		}
	}
	return nil
}

type savedBook struct {
	data    []byte
	reading reading
}

// through sends all workbooks through the program in one go.
func through(t *testing.T, program resave, books map[string][]byte) map[string]savedBook {
	t.Helper()
	from, into := t.TempDir(), t.TempDir()
	for name, data := range books {
		must(t, os.WriteFile(filepath.Join(from, name), data, 0o644))
	}
	said := program(t, from, into)
	out := map[string]savedBook{}
	for name := range books {
		data, err := os.ReadFile(filepath.Join(into, name))
		if err != nil || said[name]["error"] != "" {
			data = nil
		}
		out[name] = savedBook{data, said[name]}
	}
	return out
}

// unreadable takes out of books those whose original the program cannot open and save either,
// and returns their names.
func unreadable(t *testing.T, program resave, list []namedHost, books map[string][]byte) []string {
	t.Helper()
	originals := map[string][]byte{}
	for _, h := range list {
		if books[h.name] != nil {
			originals[h.name] = h.data
		}
	}
	var odd []string
	for name, got := range through(t, program, originals) {
		if got.data == nil {
			odd = append(odd, name)
			delete(books, name)
		}
	}
	slices.Sort(odd)
	return odd
}

func TestOpenpyxl(t *testing.T) {
	python := ""
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import openpyxl").Run() == nil {
			python = name
			break
		}
	}
	if python == "" {
		missing(t, "openpyxl")
	}
	program := func(t *testing.T, from, into string) map[string]reading {
		out, err := exec.Command(python, "testdata/resave.py", from, into).Output()
		must(t, err)
		all := map[string]reading{}
		for line := range bytes.Lines(out) {
			var fields map[string]any
			must(t, json.Unmarshal(line, &fields))
			r := reading{}
			for name, v := range fields {
				r[name] = fmt.Sprint(v)
			}
			all[r["file"]] = r
		}
		return all
	}
	want := reading{"text": "verdict <&>", "number": "1.5", "format": `0.000" in"`, "formula": "=B12*2",
		"fill": "FFD8E2DC", "bold": "true", "link": "https://example.org/page?a=1&b=2", "frozen": "A2",
		"rules": "2", "titles": "$1:$1", "rich": "rich text", "note": "a note", "pictures": "1"}
	if exec.Command(python, "-c", "import PIL").Run() != nil {
		delete(want, "pictures") // openpyxl leaves pictures out when Pillow is missing
	}
	// openpyxl looks for the styles in xl/ only.
	list := slices.DeleteFunc(externalHosts(t), func(h namedHost) bool {
		host, err := openHost(h.data)
		return err == nil && host.base() != "xl"
	})
	threeCycles(t, program, list, want)
}

func TestLibreOffice(t *testing.T) {
	office, err := findOffice()
	if err != nil {
		missing(t, "LibreOffice")
	}
	profile := officeProfile(t, office)
	program := func(t *testing.T, from, into string) map[string]reading {
		runOffice(t, office, profile, fmt.Sprintf(`macro:///Standard.Module1.Resave("%s","%s")`, from, into))
		text, err := os.ReadFile(filepath.Join(into, "readings.txt"))
		must(t, err)
		all := map[string]reading{}
		for line := range strings.Lines(string(text)) {
			fields := strings.Split(strings.TrimSpace(line), "|")
			r := reading{}
			for _, f := range fields[1:] {
				name, v, _ := strings.Cut(f, "=")
				r[name] = v
			}
			all[fields[0]] = r
		}
		return all
	}
	threeCycles(t, program, externalHosts(t), reading{"text": "verdict <&>", "number": "1.500 in", "formula": "=B12*2", "result": "3.00",
		"fill": "D8E2DC", "link": "https://example.org/page?a=1&b=2", "frozen": "True", "notes": "1", "pictures": "2", // with that of the note
		"rules": "2", "titles": "True", "rich": "rich text"})
}

// officeProfile makes a profile of LibreOffice that holds our macro. The first start fills the
// profile, and would overwrite a macro that is there before.
func officeProfile(t *testing.T, office string) string {
	t.Helper()
	profile := t.TempDir()
	runOffice(t, office, profile, "--terminate_after_init")
	source, err := os.ReadFile("testdata/resave.bas")
	must(t, err)
	var escaped bytes.Buffer
	must(t, xml.EscapeText(&escaped, source))
	module := `<?xml version="1.0" encoding="UTF-8"?><script:module xmlns:script="http://openoffice.org/2000/script"` +
		` script:name="Module1" script:language="StarBasic">` + escaped.String() + `</script:module>`
	must(t, os.WriteFile(filepath.Join(profile, "user/basic/Standard/Module1.xba"), []byte(module), 0o644))
	return profile
}

// runOffice runs LibreOffice to its end.
func runOffice(t *testing.T, office, profile string, args ...string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 4*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, office, append([]string{"-env:UserInstallation=file://" + profile, "--headless", "--norestore"}, args...)...)
	cmd.WaitDelay = time.Second
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("LibreOffice: %v: %s", err, out)
	}
}

// findOffice returns the program itself, not the script and the splash screen before it,
// which would outlive a program that had to be stopped.
func findOffice() (string, error) {
	script, err := exec.LookPath("soffice")
	if err != nil {
		return "", err
	}
	if script, err = filepath.EvalSymlinks(script); err != nil {
		return "", err
	}
	program := filepath.Join(filepath.Dir(script), "soffice.bin")
	if _, err := os.Stat(program); err != nil {
		return script, nil
	}
	return program, nil
}
