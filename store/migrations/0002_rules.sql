-- What the shop set for itself in the place of common practice, once for each unit of length. A
-- set-up has its own copy, from the day it was begun.

CREATE TABLE shop_rules (
	key     TEXT    NOT NULL PRIMARY KEY CHECK (key IN ('in', 'mm')),
	version INTEGER NOT NULL,
	body    TEXT    NOT NULL
) STRICT, WITHOUT ROWID;
