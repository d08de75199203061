-- +goose Up
PRAGMA application_id = 1212498256; -- "HEAP"

-- Words that may grow (containers, aims, kinds) are checked in Go, where their
-- lists live; the tables hold what stays true of every version.
CREATE TABLE heaps (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    guild       TEXT    NOT NULL,
    channel     TEXT    NOT NULL,
    name        TEXT    NOT NULL CHECK (length(name) BETWEEN 1 AND 100),
    name_key    TEXT    NOT NULL CHECK (length(name_key) > 0),
    container   TEXT    NOT NULL CHECK (length(container) > 0),
    size_l      REAL    NOT NULL CHECK (size_l >= 0),
    cover       TEXT    NOT NULL,
    aim         TEXT    NOT NULL CHECK (length(aim) > 0),
    started_ms  INTEGER NOT NULL,
    finished_ms INTEGER,
    UNIQUE (guild, channel, id)
) STRICT;

CREATE UNIQUE INDEX heaps_name ON heaps (guild, channel, name_key) WHERE finished_ms IS NULL;

-- An entry is never changed or removed: taking one back is an entry whose
-- voids names it. Entries stored in one go name the first of them as leader.
CREATE TABLE entries (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    guild     TEXT    NOT NULL,
    channel   TEXT    NOT NULL,
    heap_id   INTEGER NOT NULL,
    at_ms     INTEGER NOT NULL,
    logged_ms INTEGER NOT NULL,
    by_id     TEXT    NOT NULL,
    by_name   TEXT    NOT NULL,
    kind      TEXT    NOT NULL CHECK (length(kind) > 0),
    payload   TEXT    NOT NULL CHECK (json_valid(payload)),
    voids     INTEGER CHECK ((kind = 'voided') = (voids IS NOT NULL)),
    leader    INTEGER,
    UNIQUE (guild, channel, id),
    UNIQUE (guild, channel, voids),
    FOREIGN KEY (guild, channel, heap_id) REFERENCES heaps (guild, channel, id),
    FOREIGN KEY (guild, channel, voids) REFERENCES entries (guild, channel, id),
    FOREIGN KEY (guild, channel, leader) REFERENCES entries (guild, channel, id)
) STRICT;

CREATE INDEX entries_heap ON entries (guild, channel, heap_id, at_ms, id);

-- +goose StatementBegin
CREATE TRIGGER entries_never_change BEFORE UPDATE ON entries
BEGIN
    SELECT RAISE(ABORT, 'entries never change');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER entries_never_go BEFORE DELETE ON entries
BEGIN
    SELECT RAISE(ABORT, 'entries are never removed');
END;
-- +goose StatementEnd

-- +goose Down
DROP TABLE entries;
DROP TABLE heaps;
