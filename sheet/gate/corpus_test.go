package gate

import (
	"os"
	"path/filepath"
	"testing"
)

// TestCorpus passes every workbook under DRYFIT_CORPUS through the gate and prints what it
// refuses.
func TestCorpus(t *testing.T) {
	dir := os.Getenv("DRYFIT_CORPUS")
	if dir == "" {
		t.Skip("DRYFIT_CORPUS names no folder of workbooks")
	}
	files, err := filepath.Glob(filepath.Join(dir, "*.xls[xm]"))
	if err != nil {
		t.Fatal(err)
	}
	passed := 0
	for _, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := Check(data); err != nil {
			t.Logf("refused %s: %v", filepath.Base(path), err)
			continue
		}
		passed++
	}
	t.Logf("%d of %d passed", passed, len(files))
	if passed == 0 {
		t.Fatalf("nothing under %s passed", dir)
	}
}
