-- +goose Up
-- How a channel is reminded, and when next. seq counts what was stored in the
-- place; armed is the seq for which due_ms was worked out. While armed is
-- behind, due_ms has to be worked out anew.
CREATE TABLE plans (
    guild      TEXT    NOT NULL,
    channel    TEXT    NOT NULL,
    plan       TEXT    NOT NULL CHECK (json_valid(plan) AND length(plan) <= 65536),
    seq        INTEGER NOT NULL,
    armed      INTEGER NOT NULL CHECK (armed <= seq),
    due_ms     INTEGER,
    due_day    TEXT    NOT NULL CHECK ((due_ms IS NULL) = (due_day = '')),
    trouble    TEXT    NOT NULL,
    trouble_ms INTEGER CHECK ((trouble = '') = (trouble_ms IS NULL)),
    PRIMARY KEY (guild, channel)
) STRICT;

CREATE INDEX plans_stale ON plans (guild, channel) WHERE seq > armed AND trouble <> 'gone';
CREATE INDEX plans_due ON plans (due_ms) WHERE due_ms IS NOT NULL AND trouble <> 'gone';

-- A message to a channel. next_ms is when it is somebody's turn to work on it:
-- its hour, the hour of another try, or the end of a lease that was not kept.
-- It is shown as of one version; when its version is ahead, it is edited. A
-- folded one never came; named is the later post that says so.
CREATE TABLE posts (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    guild   TEXT    NOT NULL,
    channel TEXT    NOT NULL,
    kind    TEXT    NOT NULL CHECK (length(kind) > 0),
    day     TEXT    NOT NULL CHECK (length(day) = 10),
    due_ms  INTEGER NOT NULL,
    body    TEXT    NOT NULL CHECK (json_valid(body) AND length(body) <= 8192),
    state   TEXT    NOT NULL CHECK (length(state) > 0),
    next_ms INTEGER NOT NULL,
    owner   TEXT    NOT NULL CHECK (owner <> '' OR state <> 'leased'),
    attempt INTEGER NOT NULL CHECK (attempt >= 0),
    why     TEXT    NOT NULL,
    message TEXT    NOT NULL,
    sent_ms INTEGER CHECK ((state = 'sent') = (sent_ms IS NOT NULL)),
    version INTEGER NOT NULL,
    shown   INTEGER NOT NULL CHECK (shown <= version),
    named   INTEGER CHECK (named IS NULL OR state = 'folded'),
    UNIQUE (guild, channel, id),
    UNIQUE (guild, channel, kind, day),
    FOREIGN KEY (guild, channel, named) REFERENCES posts (guild, channel, id)
) STRICT;

CREATE INDEX posts_waiting ON posts (next_ms, id) WHERE state IN ('due', 'leased');
CREATE INDEX posts_outdated ON posts (next_ms, id) WHERE state = 'sent' AND version > shown;
CREATE INDEX posts_missed ON posts (guild, channel, day) WHERE state = 'folded' AND named IS NULL;

-- A job as the group was reminded of it; without a heap, one of the garden.
CREATE TABLE items (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    guild   TEXT    NOT NULL,
    channel TEXT    NOT NULL,
    post    INTEGER NOT NULL,
    heap_id INTEGER,
    name    TEXT    NOT NULL,
    kind    TEXT    NOT NULL CHECK (length(kind) > 0),
    day     TEXT    NOT NULL CHECK (length(day) = 10),
    job     TEXT    NOT NULL CHECK (json_valid(job) AND length(job) <= 8192),
    said_ms INTEGER NOT NULL,
    state   TEXT    NOT NULL CHECK (length(state) > 0),
    by_id   TEXT    NOT NULL,
    by_name TEXT    NOT NULL,
    at_ms   INTEGER,
    entry   INTEGER,
    until   TEXT    NOT NULL CHECK ((state = 'later') = (until <> '')),
    FOREIGN KEY (guild, channel, post) REFERENCES posts (guild, channel, id),
    FOREIGN KEY (guild, channel, heap_id) REFERENCES heaps (guild, channel, id),
    FOREIGN KEY (guild, channel, entry) REFERENCES entries (guild, channel, id)
) STRICT;

CREATE UNIQUE INDEX items_once ON items (guild, channel, day, coalesce(heap_id, 0), kind);
CREATE INDEX items_post ON items (guild, channel, post);

-- +goose Down
DROP TABLE items;
DROP TABLE posts;
DROP TABLE plans;
