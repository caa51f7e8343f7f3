-- A signed sheet is kept once, in its file: the record that was signed rides in that, and need not lie beside it. Rows of a
-- closed set-up are an index of it.

DROP TRIGGER signed_sheet_stays;
DROP TRIGGER signed_sheet_remains;
ALTER TABLE signed_sheet RENAME TO signed_sheet_before;
CREATE TABLE signed_sheet (
	sum  TEXT NOT NULL PRIMARY KEY CHECK (length(sum) = 64),
	file BLOB NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO signed_sheet (sum, file) SELECT sum, file FROM signed_sheet_before;
DROP TABLE signed_sheet_before;
CREATE TRIGGER signed_sheet_stays BEFORE UPDATE ON signed_sheet
BEGIN SELECT raise(ABORT, 'what was signed is never changed'); END;
CREATE TRIGGER signed_sheet_remains BEFORE DELETE ON signed_sheet
BEGIN SELECT raise(ABORT, 'what was signed is never taken away'); END;
