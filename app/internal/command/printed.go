package command

import (
	"errors"
	"io"
	"io/fs"

	"keeperbook/model/say"
)

// printed keeps the first error of what is written to it, so that commands need not look at each line. After it nothing goes out.
type printed struct {
	to  io.Writer
	err error
}

func (p *printed) Write(data []byte) (n int, err error) {
	if p.err != nil {
		return 0, p.err
	}
	n, p.err = p.to.Write(data)
	return n, p.err
}

// fault returns what went wrong with a command: what it says itself, unless that comes of what could not be printed.
func (p *printed) fault(err error) error {
	if p.err == nil || err != nil && !errors.Is(err, p.err) {
		return err
	}
	why := p.err
	var path *fs.PathError
	if errors.As(why, &path) {
		why = path.Err
	}
	return say.Fail(say.Full, "command.unprinted", why.Error()).From(p.err)
}
