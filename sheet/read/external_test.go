package read

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestSavedByLibreOffice lets LibreOffice open and save every fixture, and demands the same
// parts: another program writes other styles, other text forms and cached values.
func TestSavedByLibreOffice(t *testing.T) {
	office, err := exec.LookPath("soffice")
	if err != nil {
		if os.Getenv("DRYFIT_REQUIRE_EXTERNAL") == "1" {
			t.Fatal("soffice is not installed, and DRYFIT_REQUIRE_EXTERNAL=1 demands it")
		}
		t.Skip("soffice is not installed")
	}
	if testing.Short() {
		t.Skip("starts LibreOffice")
	}
	in, out := t.TempDir(), t.TempDir()
	paths, _ := filepath.Glob("testdata/tabs/*.txt")
	ctx, stop := context.WithTimeout(context.Background(), 4*time.Minute)
	defer stop()
	args := []string{"-env:UserInstallation=file://" + t.TempDir(), "--headless", "--convert-to", "xlsx", "--outdir", out}
	for _, path := range paths {
		file := filepath.Join(in, strings.TrimSuffix(filepath.Base(path), ".txt")+".xlsx")
		if err := os.WriteFile(file, loadFixture(t, path).data, 0o644); err != nil {
			t.Fatal(err)
		}
		args = append(args, file)
	}
	if text, err := exec.CommandContext(ctx, office, args...).CombinedOutput(); err != nil {
		t.Fatalf("soffice: %v: %s", err, text)
	}
	for _, path := range paths {
		name := strings.TrimSuffix(filepath.Base(path), ".txt") + ".xlsx"
		t.Run(name, func(t *testing.T) {
			want, got := toldFile(t, filepath.Join(in, name)), toldFile(t, filepath.Join(out, name))
			if len(want) != len(got) {
				t.Fatalf("%d parts as made, %d as saved by LibreOffice", len(want), len(got))
			}
			for i := range want {
				if want[i] != got[i] {
					t.Errorf("as made:  %s\nas saved: %s", want[i], got[i])
				}
			}
		})
	}
}

func toldFile(t *testing.T, path string) []string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	b, err := Open("book.xlsx", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, tab := range b.Tabs {
		for p := range tab.Parts() {
			out = append(out, tell(p))
		}
	}
	return out
}
