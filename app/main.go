// Keeperbook keeps the setup records of cylinder heads: valve springs, heights, shims and the margin to
// bind of each valve.
package main

import (
	"context"
	"os"
	"os/signal"
	"os/user"
	"time"

	"keeperbook/app/internal/tongue"
	"keeperbook/app/internal/wire"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	context.AfterFunc(ctx, stop) // whoever asks twice does not wait
	status := wire.Main{
		Args: os.Args[1:], Out: os.Stdout, Err: os.Stderr, Clock: time.Now, Who: who(), Folder: wire.DataFolder,
		Memory: wire.MemoryFile, Secret: wire.AskSecret, Signers: wire.SignersFolder, Window: window(), Language: tongue.Asked(os.Getenv),
	}.Run(ctx)
	stop()
	os.Exit(status)
}

// who is the name of the system's user, for the history of what commands do.
func who() string {
	u, err := user.Current()
	if err != nil {
		return "command line"
	}
	if u.Name != "" {
		return u.Name
	}
	return u.Username
}
