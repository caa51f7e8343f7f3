-- What heads did in service, and what was found on their springs. day and head repeat the body: the life of a head is read
-- from its index, and so is the newest of each head.

CREATE TABLE life (
	kind    TEXT    NOT NULL,
	id      TEXT    NOT NULL,
	head    TEXT    NOT NULL REFERENCES head (id),
	day     TEXT    NOT NULL,
	version INTEGER NOT NULL,
	body    TEXT    NOT NULL,
	PRIMARY KEY (kind, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX life_head ON life (head, kind, day, id);
