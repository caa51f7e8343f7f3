-- Set-ups that were signed, and the sheets that were, kept for ever as they were. What is in document and file no table
-- says again: rows of a closed set-up are an index of them.

CREATE TABLE signed (
	setup   TEXT    NOT NULL REFERENCES setup (id),
	n       INTEGER NOT NULL,
	version INTEGER NOT NULL,
	body    TEXT    NOT NULL,
	PRIMARY KEY (setup, n)
) STRICT, WITHOUT ROWID;

CREATE TABLE signed_sheet (
	sum      TEXT NOT NULL PRIMARY KEY CHECK (length(sum) = 64),
	file     BLOB NOT NULL,
	document TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TRIGGER signed_stays BEFORE UPDATE ON signed
BEGIN SELECT raise(ABORT, 'what was signed is never changed'); END;
CREATE TRIGGER signed_remains BEFORE DELETE ON signed
BEGIN SELECT raise(ABORT, 'what was signed is never taken away'); END;
CREATE TRIGGER signed_sheet_stays BEFORE UPDATE ON signed_sheet
BEGIN SELECT raise(ABORT, 'what was signed is never changed'); END;
CREATE TRIGGER signed_sheet_remains BEFORE DELETE ON signed_sheet
BEGIN SELECT raise(ABORT, 'what was signed is never taken away'); END;
