package standards

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// jobs reads the list of jobs.
func (sh *sheet) jobs() int {
	n := 0
	for r := sh.head + 1; r < len(sh.rows); r++ {
		if sh.blank(r) || sh.repeated(r, "folder") {
			continue
		}
		j := Job{Folder: sh.cell(r, "folder"), Stage: plain(sh.cell(r, "stage")), Note: sh.cell(r, "note"), Active: true, From: sh.from(r, "folder")}
		if j.Folder == "" {
			sh.problem(r, "folder", "the name of the job's folder wanted")
			continue
		}
		switch plain(sh.cell(r, "active")) {
		case "", "yes", "y", "x", "1", "true":
		case "no", "n", "0", "false", "done", notActive:
			j.Active = false
		default:
			sh.problem(r, "active", "yes or no wanted")
		}
		if j.Stage != "" && !slices.Contains(stages(), j.Stage) {
			sh.problem(r, "stage", "a stage wanted: %s", strings.Join(stages(), ", "))
			j.Stage = ""
		}
		j.Cut, j.Ship = sh.date(r, "cut"), sh.date(r, "ship")
		sh.out.Jobs = append(sh.out.Jobs, j)
		n++
	}
	return n
}

// date reads a day: a date of the spreadsheet, or 2026-03-14 as text. A day whose month
// could be its day is asked about.
func (sh *sheet) date(r int, id string) time.Time {
	text := sh.cell(r, id)
	if text == "" {
		return time.Time{}
	}
	if serial, err := strconv.ParseFloat(text, 64); err == nil && serial > 20000 && serial < 80000 {
		if d, err := excelize.ExcelDateToTime(serial, false); err == nil {
			return d.UTC().Truncate(24 * time.Hour)
		}
	}
	for _, form := range []string{time.DateOnly, "2006/1/2", "2 Jan 2006", "Jan 2, 2006", "2 January 2006", "January 2, 2006", "2.1.2006"} {
		if d, err := time.Parse(form, text); err == nil {
			return d
		}
	}
	sh.problem(r, id, "a date wanted, such as 2026-03-14")
	return time.Time{}
}

// Job says what the standards know of a job's folder: its line, else what a folder word
// says, else that it is active.
func (s Standards) Job(folder string) Job {
	for _, j := range s.Jobs {
		if strings.EqualFold(j.Folder, folder) {
			return j
		}
	}
	j := Job{Folder: folder, Active: true}
	for _, w := range s.Words {
		if w.Kind != "folder" || !holdsWord(folder, w.Text) {
			continue
		}
		j.From = w.From
		if plain(w.Means) == notActive {
			j.Active = false
		} else {
			j.Stage = plain(w.Means)
		}
	}
	return j
}

// holdsWord reports whether a folder's name has the word, not only its letters.
func holdsWord(folder, word string) bool {
	split := func(s string) string {
		return " " + strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
			return strings.ContainsRune(" _-.,()[]", r)
		}), " ") + " "
	}
	return strings.Contains(split(folder), split(word))
}
