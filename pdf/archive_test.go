package pdf_test

import (
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"time"

	"keeperbook/pdf"
)

// preflight is where Debian keeps the checker of PDF/A-1b (ISO 19005-1) and what it needs.
var preflight = []string{"preflight", "pdfbox2", "fontbox2", "xmpbox", "commons-logging", "javax.activation", "jaxb-api"}

// The checker of part 1 of the standard finds nothing in a sheet that two signed by hand but what part 3 (ISO 19005-3) allows
// and part 1 did not know: the attached record, and the number of the part.
func TestArchive(t *testing.T) {
	var jars []string
	for _, name := range preflight {
		jar := "/usr/share/java/" + name + ".jar"
		if _, err := os.Stat(jar); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatalf("%s is missing; app/setup.sh installs it under CI", jar)
			}
			t.Skipf("%s is not installed; sh app/setup.sh with CI=true installs it", jar)
		}
		jars = append(jars, jar)
	}
	by := &pdf.Signed{Name: "Jürgen Ashlock", Role: "head porter", When: signedAt, Ink: scribble(), Second: true}
	_, file := signedBy(t, by, keyFor(t, by.Name))
	file, err := pdf.Countersign(file, keyFor(t, "E. Tolliver"), &pdf.Signed{Name: "E. Tolliver", Role: "inspector", When: signedAt.Add(time.Hour), Ink: scribble()})
	if err != nil {
		t.Fatal(err)
	}
	// It ends with a fault where it finds something, as it has to here.
	out, err := exec.Command("java", "-cp", strings.Join(jars, ":"), "org.apache.pdfbox.preflight.Validator_A1b", put(t, file)).CombinedOutput()
	var found []string
	for line := range strings.Lines(string(out)) {
		if code, what, ok := strings.Cut(strings.TrimSpace(line), " : "); ok && strings.Contains(code, ".") && !strings.Contains(code, " ") {
			found = append(found, code+" "+what)
		}
	}
	slices.Sort(found)
	want := []string{
		"1.2.9 Body Syntax error, EmbeddedFile entry is present in a FileSpecification dictionary",
		"1.4.7 Trailer Syntax error, EmbeddedFile entry is present in the Names dictionary",
		"7.11.2 Error on MetaData, part must be 1",
	}
	if !slices.Equal(found, want) {
		t.Errorf("%v, it finds\n%s", err, out)
	}
}
