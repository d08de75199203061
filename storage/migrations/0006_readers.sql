-- +goose Up
-- Those who may ask but not log, as a list of people.
ALTER TABLE gardens ADD COLUMN read_only TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(read_only));

-- +goose Down
ALTER TABLE gardens DROP COLUMN read_only;
