package task_test

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path"
	"runtime"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

var updateHelp = flag.Bool("update-help", false, "write the drawings of help anew")

// The drawings of help are in each language those of the program, of a valve of the demonstration book.
func TestDrawingsOfHelp(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("other processors round the last digit otherwise")
	}
	book := demonstration(t)
	defer say.Speak("en")
	for name, d := range map[string]task.Drawn{
		"section.png": {Valve: "3 ex"}, "curve.png": {Valve: "3 ex", Loads: true},
		"de/section.png": {Valve: "3 ex"}, "de/curve.png": {Valve: "3 ex", Loads: true},
		"es/section.png": {Valve: "3 ex"}, "es/curve.png": {Valve: "3 ex", Loads: true},
	} {
		if language := path.Dir(name); language == "." || !say.Speak(language) {
			say.Speak("en")
		}
		drawn, err := task.Leave(context.Background(), book, "setup-ferry-built", name, d)
		if err != nil {
			t.Fatal(err)
		}
		file := "../../../assets/help/" + name
		if *updateHelp {
			if err := os.WriteFile(file, drawn, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		kept, err := os.ReadFile(file)
		if err != nil || !bytes.Equal(kept, drawn) {
			t.Errorf("%s is not what the program draws now: %v; run this test with -update-help", name, err)
		}
	}
}
