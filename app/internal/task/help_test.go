package task_test

import (
	"bytes"
	"context"
	"flag"
	"os"
	"runtime"
	"testing"

	"keeperbook/app/internal/task"
)

var updateHelp = flag.Bool("update-help", false, "write the drawings of help anew")

// The drawings of help are those of the program, of a valve of the demonstration book.
func TestDrawingsOfHelp(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("other processors round the last digit otherwise")
	}
	book := demonstration(t)
	for name, d := range map[string]task.Drawn{"section.png": {Valve: "3 ex"}, "curve.png": {Valve: "3 ex", Loads: true}} {
		drawn, err := task.Leave(context.Background(), book, "setup-ferry-built", name, d)
		if err != nil {
			t.Fatal(err)
		}
		path := "../../../assets/help/" + name
		if *updateHelp {
			if err := os.WriteFile(path, drawn, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		kept, err := os.ReadFile(path)
		if err != nil || !bytes.Equal(kept, drawn) {
			t.Errorf("%s is not what the program draws now: %v; run this test with -update-help", name, err)
		}
	}
}
