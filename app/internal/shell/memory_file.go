package shell

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"sync"
	"time"

	"keeperbook/app/internal/files"
)

// settle is how long the memory waits for more before it writes. Whoever goes over the table with the
// arrows makes one writing of it, and no longer stretch is lost when the power fails.
const settle = 300 * time.Millisecond

// mostMemory is more than a memory ever takes, in bytes; a larger file is another one.
const mostMemory = 1 << 20

// memoryFile writes what changed in a memory, whole or not at all and beside whatever else goes on.
//
// It keeps the changes and not their outcome, and applies them to what is in the file by then: another
// window may have remembered something else meanwhile.
type memoryFile struct {
	path    string
	writing sync.Mutex // held while the file is read, changed and written

	mu      sync.Mutex // guards the rest
	waiting []func(*remembered)
	timer   *time.Timer
}

// OpenMemory returns what is remembered in a file. A file that is not there, or says nothing that can be
// understood, is one that nothing was remembered in yet. With no path nothing is kept beyond the run.
func OpenMemory(path string) *Memory {
	m := &Memory{is: readMemory(path)}
	if path != "" {
		m.file = &memoryFile{path: path}
	}
	return m
}

// Close writes what was not written yet. On an error that is forgotten, which costs nobody a reading.
func (m *Memory) Close() error {
	if m.file == nil {
		return nil
	}
	return m.file.write()
}

// readMemory takes from a file what can be understood of it. What a newer version wrote beside is passed
// over, and what it wrote in another way counts as not written.
func readMemory(path string) (r remembered) {
	defer func() { r.sound() }()
	if path == "" {
		return r
	}
	data, err := files.Read(path, mostMemory)
	if err != nil {
		return r
	}
	if err := json.Unmarshal(data, &r); err != nil {
		if _, otherwise := errors.AsType[*json.UnmarshalTypeError](err); !otherwise {
			return remembered{}
		}
	}
	return r
}

// change notes a change and sees to it that it is written.
func (f *memoryFile) change(what func(*remembered)) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.waiting = append(f.waiting, what)
	if f.timer == nil {
		// What cannot be written now is tried again with the next change, and at the end.
		f.timer = time.AfterFunc(settle, func() { _ = f.write() })
	}
}

// write writes what was noted. Where that fails it stays noted.
func (f *memoryFile) write() error {
	f.writing.Lock()
	defer f.writing.Unlock()
	f.mu.Lock()
	waiting := f.waiting
	f.waiting = nil
	if f.timer != nil {
		f.timer.Stop()
		f.timer = nil
	}
	f.mu.Unlock()
	if len(waiting) == 0 {
		return nil
	}
	r := readMemory(f.path)
	for _, what := range waiting {
		what(&r)
	}
	err := writeMemory(f.path, r)
	if err != nil {
		f.mu.Lock()
		f.waiting = append(waiting, f.waiting...)
		f.mu.Unlock()
	}
	return err
}

func writeMemory(path string, r remembered) error {
	data, err := json.MarshalIndent(r, "", "  ")
	if err != nil {
		return err
	}
	// The folder is the user's own: the file names the books of a shop.
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	return files.Write(path, append(data, '\n'))
}
