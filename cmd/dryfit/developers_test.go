package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestMapNamesEveryPackage holds the map in DEVELOPERS.md against the tree: each package
// stands in it, but for those inside a package, and each folder and file in it is there.
func TestMapNamesEveryPackage(t *testing.T) {
	root := filepath.Join("..", "..")
	data, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, text, _ := strings.Cut(string(data), "```\n")
	text, _, ok := strings.Cut(text, "```")
	if !ok {
		t.Fatal("no map")
	}
	named, room := map[string]bool{}, ""
	for line := range strings.Lines(text) {
		if line[0] != ' ' {
			room, line, _ = strings.Cut(line, "/ ")
			named[room] = true
		}
		for _, word := range regexp.MustCompile(`(?:^|\s)([a-z]+(?:/[a-z]+)*(?:/|\.go))(?:\s|$)|(?:^|\s)(testdata/[a-z]+)\s`).FindAllStringSubmatch(strings.ReplaceAll(line, " ", "  "), -1) {
			path := filepath.Join(room, strings.TrimSuffix(word[1]+word[2], "/"))
			if _, err := os.Stat(filepath.Join(root, path)); err != nil {
				t.Errorf("the map names %s, which is not there", path)
			}
			named[filepath.ToSlash(path)] = true
		}
	}
	for _, top := range []string{"check", "sheet", "watch", "cmd"} {
		err := filepath.WalkDir(filepath.Join(root, top), func(path string, d fs.DirEntry, err error) error {
			if err != nil || !d.IsDir() {
				return err
			}
			if d.Name() == "testdata" {
				return fs.SkipDir
			}
			rel, err := filepath.Rel(root, path)
			if err != nil {
				return err
			}
			rel = filepath.ToSlash(rel)
			files, err := filepath.Glob(filepath.Join(path, "*.go"))
			if err == nil && len(files) > 0 && strings.Count(rel, "/") < 2 && !named[rel] {
				t.Errorf("the map does not name %s", rel)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}
