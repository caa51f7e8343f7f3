-- How many there are of what the shop has on its shelf. The kinds of shims are rows of part.

CREATE TABLE stock (
	key     TEXT    NOT NULL PRIMARY KEY,
	count   INTEGER NOT NULL CHECK (count >= 0),
	version INTEGER NOT NULL,
	body    TEXT    NOT NULL
) STRICT, WITHOUT ROWID;
