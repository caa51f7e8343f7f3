package store

import (
	"context"

	"keeperbook/model/record"
)

// Summary says what a book holds, without opening it for work.
type Summary struct {
	Heads, Setups, Readings int
	Seq                     int64        // events of its history
	Last                    record.Stamp // when the last was kept; "" where none was
}

// Summarize looks into a book that nobody need have open, such as a copy, of an earlier form too. Its errors are those of [OpenCopy], and
// say.Damaged where its pages do not hang together.
func Summarize(ctx context.Context, path string) (Summary, error) {
	b, err := OpenCopy(ctx, path)
	if err != nil {
		return Summary{}, err
	}
	defer b.Close()
	var s Summary
	err = b.read(ctx, func(src source) error {
		if err := quickCheck(ctx, src, path); err != nil {
			return err
		}
		_, err := one(ctx, src, `SELECT (SELECT count(*) FROM head), (SELECT count(*) FROM setup), (SELECT count(*) FROM reading),
			coalesce((SELECT max(seq) FROM event), 0), coalesce((SELECT at FROM event ORDER BY seq DESC LIMIT 1), '')`, nil,
			&s.Heads, &s.Setups, &s.Readings, &s.Seq, &s.Last)
		return err
	})
	return s, err
}

// Seq returns how many events the history has.
func (b *Book) Seq(ctx context.Context) (seq int64, err error) {
	err = b.read(ctx, func(src source) error {
		end, err := endOfChain(ctx, src)
		seq = end.seq
		return err
	})
	return seq, err
}
