-- +goose Up
CREATE TABLE gardens (
    guild      TEXT NOT NULL,
    channel    TEXT NOT NULL,
    zone       TEXT NOT NULL,
    lat        REAL CHECK (lat BETWEEN -90 AND 90),
    lon        REAL CHECK (lon BETWEEN -180 AND 180),
    measures   TEXT NOT NULL CHECK (json_valid(measures)),
    organisers TEXT NOT NULL CHECK (json_valid(organisers)),
    PRIMARY KEY (guild, channel),
    CHECK ((lat IS NULL) = (lon IS NULL))
) STRICT;

CREATE TABLE stock (
    guild    TEXT    NOT NULL,
    channel  TEXT    NOT NULL,
    material TEXT    NOT NULL CHECK (length(material) > 0),
    said     TEXT    NOT NULL,
    volume_l REAL    NOT NULL CHECK (volume_l > 0),
    at_ms    INTEGER NOT NULL,
    PRIMARY KEY (guild, channel, material)
) STRICT;

CREATE TABLE materials (
    guild     TEXT NOT NULL,
    channel   TEXT NOT NULL,
    id        TEXT NOT NULL CHECK (length(id) > 0),
    feedstock TEXT NOT NULL CHECK (json_valid(feedstock)),
    PRIMARY KEY (guild, channel, id)
) STRICT;

-- +goose Down
DROP TABLE materials;
DROP TABLE stock;
DROP TABLE gardens;
