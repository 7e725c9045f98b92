package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/xuri/excelize/v2"
)

func cells(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: cells FILE TAB")
	}
	f, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	rows, err := f.GetRows(args[1])
	ts.Check(err)
	for _, row := range rows {
		fmt.Fprintln(ts.Stdout(), strings.ReplaceAll(strings.Join(row, " | "), "\n", " "))
	}
}

func say(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 5 {
		ts.Fatalf("usage: say FILE TAB ROW HEADER TEXT")
	}
	f, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	ts.Check(sayIn(f, args[1], args[2], args[3], args[4]))
	ts.Check(f.Save())
}

// sayIn types under a header, beside the first row that holds a text.
func sayIn(f *excelize.File, tab, beside, header, text string) error {
	rows, err := f.GetRows(tab)
	if err != nil {
		return err
	}
	column := -1
	for i, row := range rows {
		if c := slices.Index(row, header); c >= 0 {
			column = c
			continue
		}
		if column >= 0 && strings.Contains(strings.Join(row, " "), beside) {
			at, err := excelize.CoordinatesToCellName(column+1, i+1)
			if err != nil {
				return err
			}
			return f.SetCellStr(tab, at, text)
		}
	}
	return fmt.Errorf("tab %q: no row with %q under %q in %q", tab, beside, header, rows)
}

func insertRow(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: insertrow FILE TAB ROW")
	}
	f, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	n, err := strconv.Atoi(args[2])
	ts.Check(err)
	ts.Check(f.InsertRows(args[1], n, 1))
	ts.Check(f.Save())
}
