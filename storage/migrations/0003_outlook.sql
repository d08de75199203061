-- +goose Up
-- What the model learned about a heap: a cache that can be dropped and learned
-- again from the log at any time.
CREATE TABLE tracks (
    guild   TEXT    NOT NULL,
    channel TEXT    NOT NULL,
    heap_id INTEGER NOT NULL,
    data    BLOB    NOT NULL CHECK (length(data) BETWEEN 1 AND 65536),
    PRIMARY KEY (guild, channel, heap_id),
    FOREIGN KEY (guild, channel, heap_id) REFERENCES heaps (guild, channel, id)
) STRICT;

-- What outlooks said, to be held against the readings that came.
CREATE TABLE forecasts (
    guild    TEXT    NOT NULL,
    channel  TEXT    NOT NULL,
    heap_id  INTEGER NOT NULL,
    made_ms  INTEGER NOT NULL,
    ahead_ms INTEGER NOT NULL CHECK (ahead_ms > 0),
    low_c    REAL    NOT NULL,
    mid_c    REAL    NOT NULL CHECK (mid_c BETWEEN low_c AND high_c),
    high_c   REAL    NOT NULL,
    last_c   REAL,
    PRIMARY KEY (guild, channel, heap_id, made_ms, ahead_ms),
    FOREIGN KEY (guild, channel, heap_id) REFERENCES heaps (guild, channel, id)
) STRICT;

-- What weather services said, and when. A report never changes. Places are in
-- hundredths of a degree and belong to no group: the weather is everybody's.
CREATE TABLE weather (
    service    TEXT    NOT NULL CHECK (length(service) > 0),
    lat        INTEGER NOT NULL CHECK (lat BETWEEN -9000 AND 9000),
    lon        INTEGER NOT NULL CHECK (lon BETWEEN -18000 AND 18000),
    fetched_ms INTEGER NOT NULL,
    since_ms   INTEGER NOT NULL,
    until_ms   INTEGER NOT NULL CHECK (until_ms >= since_ms),
    report     BLOB    NOT NULL CHECK (length(report) > 0),
    PRIMARY KEY (service, lat, lon, fetched_ms)
) STRICT;

CREATE INDEX weather_place ON weather (lat, lon, fetched_ms);

-- +goose Down
DROP TABLE weather;
DROP TABLE forecasts;
DROP TABLE tracks;
