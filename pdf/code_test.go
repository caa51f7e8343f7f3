package pdf

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// A scanner reads the fingerprint off the page, as it is printed beside it.
func TestAScannerReadsTheFingerprint(t *testing.T) {
	for _, program := range []string{"pdftoppm", "zbarimg"} {
		if _, err := exec.LookPath(program); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatalf("%s is missing; app/setup.sh installs it under CI", program)
			}
			t.Skipf("%s is not installed; sh app/setup.sh with CI=true installs it", program)
		}
	}
	print := strings.Repeat("3ece d52a 25be b0fd ", 4)
	hex := strings.ReplaceAll(print, " ", "")
	words := evaluate.Words(record.Units{Length: unit.In, Load: unit.Lbf})
	p := newPress(595, 842, time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC), "code")
	newFlow(p, words).fingerprint(hex, nil)
	data, err := p.bytes()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "page.pdf"), data, 0o600); err != nil {
		t.Fatal(err)
	}
	run := func(name string, args ...string) string {
		cmd := exec.Command(name, args...)
		cmd.Dir = dir
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		return string(out)
	}
	run("pdftoppm", "-r", "150", "-png", "page.pdf", "page")
	if said := strings.TrimSpace(run("zbarimg", "-q", "--raw", "page-1.png")); !strings.EqualFold(said, hex) {
		t.Errorf("it reads %q, printed is %q", said, hex)
	}
}
