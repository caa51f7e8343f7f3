-- What was last worked out of heads in service, so that a list of what falls due need not work every head out anew. It is no
-- part of the book: it can be made again from the rest, no event tells of it, and what changes a head takes its row away.
-- by says which program and form it is of, sum is the SHA-256 of the body.

CREATE TABLE reckoned (
	head  TEXT NOT NULL PRIMARY KEY REFERENCES head (id),
	setup TEXT NOT NULL,
	by    TEXT NOT NULL,
	body  TEXT NOT NULL,
	sum   TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- On which valves a single spring is fitted.
CREATE INDEX setup_item_spring ON setup_item (body ->> '$.spring') WHERE kind = 'valve';
