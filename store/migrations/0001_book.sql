-- The book as it was first made. Tables hold the state; event holds how it came about.
--
-- body is the compact JSON of a noun and version the form it was written in; where a table has a
-- body, the other columns only repeat what SQL has to look for. A reading is kept in columns
-- instead, and rest holds what few readings have.

CREATE TABLE shop (
	key     TEXT    NOT NULL PRIMARY KEY CHECK (key = 'shop'),
	version INTEGER NOT NULL,
	body    TEXT    NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE owner (
	id      TEXT    NOT NULL PRIMARY KEY,
	name    TEXT    NOT NULL,
	version INTEGER NOT NULL,
	body    TEXT    NOT NULL
) STRICT, WITHOUT ROWID;

-- How to reach an owner. No event ever holds any of it, so that it can be erased.
CREATE TABLE contact (
	owner TEXT NOT NULL PRIMARY KEY REFERENCES owner (id) ON DELETE CASCADE,
	phone TEXT NOT NULL,
	mail  TEXT NOT NULL,
	place TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE engine (
	id      TEXT    NOT NULL PRIMARY KEY,
	owner   TEXT    REFERENCES owner (id),
	name    TEXT    NOT NULL,
	version INTEGER NOT NULL,
	body    TEXT    NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX engine_owner ON engine (owner);

-- newest is when the newest set-up was begun, so that a list of heads reads an index from its end.
CREATE TABLE head (
	n          INTEGER PRIMARY KEY,
	id         TEXT    NOT NULL UNIQUE,
	engine     TEXT    NOT NULL REFERENCES engine (id),
	tag        TEXT    NOT NULL,
	casting    TEXT    NOT NULL,
	work_order TEXT    NOT NULL,
	newest     TEXT    NOT NULL,
	version    INTEGER NOT NULL,
	body       TEXT    NOT NULL
) STRICT;
CREATE INDEX head_engine ON head (engine);
CREATE INDEX head_tag    ON head (tag);
CREATE INDEX head_newest ON head (newest, n);

CREATE TABLE setup (
	n       INTEGER PRIMARY KEY,
	id      TEXT    NOT NULL UNIQUE,
	head    TEXT    NOT NULL REFERENCES head (id),
	kind    TEXT    NOT NULL,
	state   TEXT    NOT NULL,
	begun   TEXT    NOT NULL,
	version INTEGER NOT NULL,
	body    TEXT    NOT NULL
) STRICT;
CREATE INDEX setup_head ON setup (head, begun, n);

-- Packages, valves, values shared by a role, seat work, deviations and checks.
CREATE TABLE setup_item (
	setup   TEXT    NOT NULL REFERENCES setup (id),
	kind    TEXT    NOT NULL,
	key     TEXT    NOT NULL,
	version INTEGER NOT NULL,
	body    TEXT    NOT NULL,
	PRIMARY KEY (setup, kind, key)
) STRICT, WITHOUT ROWID;

-- value counts tenths of a nanometre, millinewtons, millinewtons a metre or millipascals, as unit says.
CREATE TABLE reading (
	setup    TEXT    NOT NULL REFERENCES setup (id),
	position TEXT    NOT NULL,
	coil     INTEGER NOT NULL,
	kind     TEXT    NOT NULL,
	n        INTEGER NOT NULL,
	typed    TEXT    NOT NULL,
	read     TEXT    NOT NULL,
	unit     TEXT    NOT NULL,
	value    INTEGER NOT NULL,
	gauge    TEXT    NOT NULL,
	method   TEXT    NOT NULL,
	by       TEXT    NOT NULL,
	at       TEXT    NOT NULL,
	version  INTEGER NOT NULL,
	rest     TEXT,
	PRIMARY KEY (setup, position, coil, kind, n)
) STRICT, WITHOUT ROWID;

-- Springs, pieces, retainers, locks, locators, seals, valves and gauges of the shop.
CREATE TABLE part (
	kind    TEXT    NOT NULL,
	id      TEXT    NOT NULL,
	version INTEGER NOT NULL,
	body    TEXT    NOT NULL,
	PRIMARY KEY (kind, id)
) STRICT, WITHOUT ROWID;

-- The history: one row for each item that an action changed. setup is the set-up whose undo the
-- action belongs to; item_kind, item_setup and item_key name what changed.
CREATE TABLE event (
	seq        INTEGER PRIMARY KEY,
	action     INTEGER NOT NULL,
	token      TEXT    NOT NULL,
	setup      TEXT    NOT NULL,
	by         TEXT    NOT NULL,
	at         TEXT    NOT NULL,
	what       TEXT    NOT NULL CHECK (what IN ('keep', 'undo', 'redo', 'take-in', 'checkpoint')),
	undoes     INTEGER,
	item_kind  TEXT    NOT NULL,
	item_setup TEXT    NOT NULL,
	item_key   TEXT    NOT NULL,
	fields     TEXT    NOT NULL,
	before     TEXT,
	after      TEXT,
	version    INTEGER NOT NULL,
	prev       BLOB    NOT NULL CHECK (length(prev) = 32),
	hash       BLOB    NOT NULL CHECK (length(hash) = 32)
) STRICT;
CREATE INDEX event_token ON event (token);
CREATE INDEX event_setup ON event (setup, action) WHERE setup <> '';

CREATE TRIGGER event_stays BEFORE UPDATE ON event
BEGIN SELECT raise(ABORT, 'history is never rewritten'); END;
CREATE TRIGGER event_remains BEFORE DELETE ON event
BEGIN SELECT raise(ABORT, 'history is never shortened'); END;

-- One row for each head, under its n. Three prefix lengths answer while somebody types.
CREATE VIRTUAL TABLE search USING fts5 (
	owner, engine, tag, casting, work_order, note,
	content = '', contentless_delete = 1, prefix = '1 2 3', tokenize = 'unicode61 remove_diacritics 2'
);
