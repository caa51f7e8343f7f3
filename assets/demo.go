package assets

import (
	"embed"
	"io/fs"
)

//go:embed demo
var demo embed.FS

// Demo returns the files of the demonstration book: for each set-up a described record (.json) and a
// table of its readings (.csv), and the studies of the shop's gauges (studies.json), the running and the checks of one head in
// service (runs.csv, checks.csv), and the key and the hand of its signer (signer.p12,
// hand.json), which everybody knows. Shop, owners, tags and figures in it are invented.
func Demo() fs.FS {
	sub, err := fs.Sub(demo, "demo")
	if err != nil {
		panic(err) // the name is a constant and valid
	}
	return sub
}
