package store

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/user"
	"path/filepath"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// holder says who has a book open. It is what the lock file contains.
type holder struct {
	Host string       `json:"host"`
	User string       `json:"user"`
	PID  int          `json:"pid"`
	At   record.Stamp `json:"since"`
}

func (h holder) busy(path string) error {
	if h.Host == "" {
		return say.Fail(say.Busy, "store.busy", path)
	}
	return say.Fail(say.Busy, "store.open-elsewhere", path, h.User, h.Host, h.PID, string(h.At))
}

// errHeld says that another handle holds the lock.
var errHeld = errors.New("lock is held")

// lock is the lock file beside an open book. The system drops the hold when the process ends, so
// that a file left behind by a crash locks nobody out.
type lock struct {
	path string
	file *os.File
}

func lockPath(book string) string { return book + ".lock" }

// takeLock takes the lock of a book, or says where the book is open.
func takeLock(book string, at record.Stamp) (*lock, error) {
	path := lockPath(book)
	// The one who held it may be taking the file away at this moment. Then what was locked is no
	// longer the file of that name, and it is tried again.
	for range 10 {
		f, err := openLock(path)
		if errors.Is(err, errHeld) {
			return nil, readHolder(path).busy(book)
		}
		if err != nil {
			return nil, fault(err, book)
		}
		l := &lock{path, f}
		if !l.current() {
			f.Close()
			continue
		}
		if err := l.write(at); err != nil {
			l.release()
			return nil, fault(err, book)
		}
		return l, nil
	}
	return nil, holder{}.busy(book)
}

// Free takes the lock of a book that nobody has open, so that its file can be put in another's place, and returns how to give it
// back. It fails (say.Busy) where somebody has it open.
func Free(book string) (release func(), err error) {
	path, err := filepath.Abs(book)
	if err != nil {
		return nil, fault(err, book)
	}
	l, err := takeLock(path, Options{}.now())
	if err != nil {
		return nil, err
	}
	return func() { l.release() }, nil
}

// lockedBy returns who holds the lock of a book, and false where nobody does.
func lockedBy(book string) (holder, bool) {
	f, err := probeLock(lockPath(book))
	if errors.Is(err, errHeld) {
		return readHolder(lockPath(book)), true
	}
	if err == nil {
		f.Close()
	}
	return holder{}, false
}

func (l *lock) current() bool {
	mine, err := l.file.Stat()
	if err != nil {
		return false
	}
	there, err := os.Stat(l.path)
	return err == nil && os.SameFile(mine, there)
}

func (l *lock) write(at record.Stamp) error {
	h := holder{PID: os.Getpid(), At: at}
	h.Host, _ = os.Hostname() // either may be unknown; the process is said all the same
	if h.Host == "" {
		h.Host = "localhost"
	}
	if u, err := user.Current(); err == nil {
		h.User = u.Username
	}
	text, err := json.Marshal(h)
	if err != nil {
		return err
	}
	if err := l.file.Truncate(0); err != nil {
		return err
	}
	_, err = l.file.WriteAt(append(text, '\n'), 0)
	return err
}

// release takes the lock file away while it is still held, so that nobody finds it half gone.
func (l *lock) release() {
	dropLock(l)
}

// readHolder reads a lock file as far as it can be read.
func readHolder(path string) holder {
	f, err := os.Open(path)
	if err != nil {
		return holder{}
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, 4096))
	var h holder
	if err != nil || json.Unmarshal(text, &h) != nil {
		return holder{}
	}
	return h
}
