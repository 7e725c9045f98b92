package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/xuri/excelize/v2"

	"dryfit/sheet/draft"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"dryfit": func() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) },
	})
}

// TestScript runs whole commands. In a script, "workbook FILE TEXT" makes a workbook from
// plain text, so that rows and findings stand on one screen; "type FILE TAB CELL TEXT" types
// into a cell and saves, as another program would. "cells FILE TAB" prints a tab, a line a row;
// "say FILE TAB ROW HEADER TEXT" types under a header, beside the first row that holds a text.
func TestScript(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		UpdateScripts:       os.Getenv("DRYFIT_UPDATE") == "1",
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"workbook":  workbook,
			"type":      typeIn,
			"cells":     cells,
			"say":       say,
			"insertrow": insertRow,
		},
	})
}

func workbook(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: workbook FILE TEXT")
	}
	data, err := draft.Workbook(ts.ReadFile(args[1]))
	ts.Check(err)
	ts.Check(os.MkdirAll(filepath.Dir(ts.MkAbs(args[0])), 0o755))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), data, 0o644))
}

func typeIn(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 4 {
		ts.Fatalf("usage: type FILE TAB CELL TEXT")
	}
	f, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	ts.Check(f.SetCellStr(args[1], args[2], args[3]))
	ts.Check(f.Save())
}
