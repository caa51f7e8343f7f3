package store

import (
	"context"
	"database/sql"
	"net/url"
	"path/filepath"
	"strings"

	"keeperbook/model/say"
)

// What a connection is for.
type mode string

const (
	creating  mode = "rwc" // only for a file that does not exist yet
	writing   mode = "rw"
	reading   mode = "ro"
	unchanged mode = "immutable" // on a medium where nothing can be written, so that no lock is taken
)

// dsn names a file to the driver. The path goes through url.URL: written into the text as it is, a
// name with ?, #, % or ; would be cut short and another file opened.
func dsn(path string, m mode) string {
	slashed := filepath.ToSlash(path)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed // a drive letter
	}
	u := url.URL{Scheme: "file", Path: slashed}
	q := url.Values{}
	q.Set("mode", string(m))
	q.Set("_busy_timeout", "5000")
	q.Set("_foreign_keys", "on")
	q.Set("_synchronous", "FULL")
	q.Set("_dqs", "0")
	q.Set("_defensive", "1")
	q.Set("_error_rc", "1")
	q.Add("_pragma", "trusted_schema(0)")
	q.Add("_pragma", "cell_size_check(1)")
	switch m {
	case creating, writing:
		q.Set("_journal_mode", "WAL")
		q.Set("_txlock", "immediate")
		// What is deleted is overwritten, so that an erased telephone number is gone from the file.
		q.Add("_pragma", "secure_delete(1)")
	case reading:
		q.Set("_query_only", "on")
	case unchanged:
		q.Set("mode", string(reading))
		q.Set("immutable", "1")
		q.Set("_query_only", "on")
	}
	u.RawQuery = q.Encode()
	return u.String()
}

// readBack compares the pragmas of a connection with what was asked for. SQLite passes over a
// pragma it does not understand, and a book without FULL loses entries when the power goes.
func readBack(ctx context.Context, conn *sql.Conn, path string, m mode) error {
	want := [][2]string{
		{"synchronous", "2"}, {"foreign_keys", "1"}, {"busy_timeout", "5000"},
		{"trusted_schema", "0"}, {"cell_size_check", "1"},
	}
	switch m {
	case creating, writing:
		want = append(want, [][2]string{{"journal_mode", "wal"}, {"secure_delete", "1"}}...)
	default:
		want = append(want, [2]string{"query_only", "1"})
	}
	for _, p := range want {
		var got string
		if err := conn.QueryRowContext(ctx, "PRAGMA "+p[0]).Scan(&got); err != nil {
			return fault(err, path)
		}
		if got != p[1] {
			return say.Fail(say.Internal, "store.pragma", path, p[0], got, p[1])
		}
	}
	return nil
}
