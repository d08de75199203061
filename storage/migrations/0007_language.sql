-- +goose Up
-- The language a garden chose, as a tag; empty when each hears their own.
ALTER TABLE gardens ADD COLUMN language TEXT NOT NULL DEFAULT '';

-- +goose Down
ALTER TABLE gardens DROP COLUMN language;
