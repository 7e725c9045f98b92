package main

import (
	"os/exec"
	"strings"
	"testing"
)

// arrows says which of our rooms a room may import. Rooms of checks do not import one another.
var arrows = map[string][]string{
	"check": {"check"},
	"sheet": {"check", "sheet"},
	"watch": {"watch"},
	"cmd":   {"check", "sheet", "watch"},
}

// closed are packages that a room may not import: a check knows no workbook, file or clock.
var closed = map[string][]string{
	"check": {"github.com/xuri/excelize/v2", "os", "net", "time", "net/http"},
	"watch": {"github.com/xuri/excelize/v2"},
}

// rooms of checks stand side by side.
var rooms = []string{"dryfit/check/schedule", "dryfit/check/fit", "dryfit/check/structure", "dryfit/check/opening"}

// Run with -count=1: the test cache does not see what "go list" read.
func TestArrows(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "dryfit/...").CombinedOutput()
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, out)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) < 10 {
		t.Fatalf("only %d packages listed", len(lines))
	}
	for _, line := range lines {
		names := strings.Fields(line)
		for _, imported := range names[1:] {
			if why := wrong(names[0], imported); why != "" {
				t.Errorf("%s imports %s: %s", names[0], imported, why)
			}
		}
	}
}

func wrong(from, to string) string {
	room := roomOf(from)
	for _, c := range closed[room] {
		if to == c {
			return room + " may not know it"
		}
	}
	if strings.HasPrefix(to, "dryfit/") && !contains(arrows[room], roomOf(to)) {
		return "the arrow points the wrong way"
	}
	if from != to && within(from, rooms) && within(to, rooms) {
		return "rooms of checks do not import one another"
	}
	return ""
}

func roomOf(path string) string {
	return strings.Split(strings.TrimPrefix(path, "dryfit/"), "/")[0]
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

func within(path string, rooms []string) bool {
	for _, r := range rooms {
		if path == r || strings.HasPrefix(path, r+"/") {
			return true
		}
	}
	return false
}
