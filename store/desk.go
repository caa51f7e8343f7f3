package store

import (
	"context"
	"database/sql"
)

// source is where rows come from: the writer inside its transaction, or a reader's snapshot.
type source interface {
	query(ctx context.Context, statement string, args ...any) (*sql.Rows, error)
}

// desk is the one connection that writes, with its statements. A statement is prepared when it is
// first used and kept until the book is closed.
type desk struct {
	conn     *sql.Conn
	prepared map[string]*sql.Stmt
}

func newDesk(conn *sql.Conn) *desk { return &desk{conn, map[string]*sql.Stmt{}} }

func (d *desk) prepare(ctx context.Context, statement string) (*sql.Stmt, error) {
	if s, ok := d.prepared[statement]; ok {
		return s, nil
	}
	s, err := d.conn.PrepareContext(ctx, statement)
	if err != nil {
		return nil, err
	}
	d.prepared[statement] = s
	return s, nil
}

func (d *desk) exec(ctx context.Context, statement string, args ...any) error {
	s, err := d.prepare(ctx, statement)
	if err != nil {
		return err
	}
	_, err = s.ExecContext(ctx, args...)
	return err
}

func (d *desk) query(ctx context.Context, statement string, args ...any) (*sql.Rows, error) {
	s, err := d.prepare(ctx, statement)
	if err != nil {
		return nil, err
	}
	return s.QueryContext(ctx, args...)
}

// begin starts a transaction. Whoever else writes is waited for here, not later.
func (d *desk) begin(ctx context.Context) error { return d.exec(ctx, "BEGIN IMMEDIATE") }

func (d *desk) commit(ctx context.Context) error { return d.exec(ctx, "COMMIT") }

// rollback ends a transaction that failed. SQLite may have ended it already, as it does when the
// disk is full; that is the one error it can give, and it means the same.
func (d *desk) rollback(ctx context.Context) { _ = d.exec(ctx, "ROLLBACK") }

func (d *desk) close() {
	for _, s := range d.prepared {
		s.Close()
	}
	d.conn.Close()
}

// snapshot is one moment of the book, seen by a reader.
type snapshot struct {
	tx       *sql.Tx
	prepared map[string]*sql.Stmt
}

func (s *snapshot) query(ctx context.Context, statement string, args ...any) (*sql.Rows, error) {
	st, ok := s.prepared[statement]
	if !ok {
		var err error
		if st, err = s.tx.PrepareContext(ctx, statement); err != nil {
			return nil, err
		}
		s.prepared[statement] = st
	}
	return st.QueryContext(ctx, args...)
}

// one reads at most one row into the places given and reports whether there was one.
func one(ctx context.Context, src source, statement string, args []any, into ...any) (bool, error) {
	rows, err := src.query(ctx, statement, args...)
	if err != nil {
		return false, err
	}
	defer rows.Close()
	if !rows.Next() {
		return false, rows.Err()
	}
	if err := rows.Scan(into...); err != nil {
		return false, err
	}
	return true, rows.Close()
}

// each calls row for every row of a query.
func each(ctx context.Context, src source, statement string, args []any, row func(*sql.Rows) error) error {
	rows, err := src.query(ctx, statement, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		if err := row(rows); err != nil {
			return err
		}
	}
	return rows.Err()
}
