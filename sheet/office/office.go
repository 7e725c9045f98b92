// Package office lets tests ask an independent spreadsheet program, LibreOffice, what it
// makes of a workbook. Only tests import it.
package office

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// Find returns the path of a program that a test asks for. Without it the test is skipped,
// or fails when DRYFIT_REQUIRE_EXTERNAL=1.
func Find(t testing.TB, program, packageName string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err == nil {
		return path
	}
	if os.Getenv("DRYFIT_REQUIRE_EXTERNAL") == "1" {
		t.Fatalf("%s (%s) is not installed, and DRYFIT_REQUIRE_EXTERNAL=1 demands it", program, packageName)
	}
	t.Skipf("%s (%s) is not installed", program, packageName)
	return ""
}

// Convert has LibreOffice load some files and save each in another format ("xlsx", "pdf"), and
// returns the folder they are saved in.
func Convert(t testing.TB, format string, files ...string) string {
	t.Helper()
	soffice := Find(t, "soffice", "LibreOffice")
	out := t.TempDir()
	ctx, cancel := context.WithTimeout(context.Background(), 3*time.Minute)
	defer cancel()
	args := []string{"-env:UserInstallation=file://" + filepath.ToSlash(filepath.Join(t.TempDir(), "profile")),
		"--headless", "--convert-to", format, "--outdir", out}
	if said, err := exec.CommandContext(ctx, soffice, append(args, files...)...).CombinedOutput(); err != nil {
		t.Fatalf("soffice: %v: %s", err, said)
	}
	return out
}
