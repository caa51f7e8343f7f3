-- Set-ups that were signed, and the sheets that were, kept for ever as they were. The record that was signed rides in the
-- file: rows of a closed set-up are an index of it.

CREATE TABLE signed (
	setup   TEXT    NOT NULL REFERENCES setup (id),
	n       INTEGER NOT NULL,
	version INTEGER NOT NULL,
	body    TEXT    NOT NULL,
	PRIMARY KEY (setup, n)
) STRICT, WITHOUT ROWID;

CREATE TABLE signed_sheet (
	sum  TEXT NOT NULL PRIMARY KEY CHECK (length(sum) = 64),
	file BLOB NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TRIGGER signed_stays BEFORE UPDATE ON signed
BEGIN SELECT raise(ABORT, 'what was signed is never changed'); END;
CREATE TRIGGER signed_remains BEFORE DELETE ON signed
BEGIN SELECT raise(ABORT, 'what was signed is never taken away'); END;
CREATE TRIGGER signed_sheet_stays BEFORE UPDATE ON signed_sheet
BEGIN SELECT raise(ABORT, 'what was signed is never changed'); END;
CREATE TRIGGER signed_sheet_remains BEFORE DELETE ON signed_sheet
BEGIN SELECT raise(ABORT, 'what was signed is never taken away'); END;
