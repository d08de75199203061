-- +goose Up
-- The guilds that are being removed. Rows stand here only within the
-- transaction that removes one.
CREATE TABLE leaving (
    guild TEXT PRIMARY KEY NOT NULL
) STRICT, WITHOUT ROWID;

DROP TRIGGER entries_never_change;
DROP TRIGGER entries_never_go;

-- A person who wants to be forgotten becomes somebody; nothing else of an entry
-- ever changes.
-- +goose StatementBegin
CREATE TRIGGER entries_never_change BEFORE UPDATE ON entries
WHEN NOT (NEW.by_id = '' AND NEW.by_name = 'somebody'
    AND NEW.id = OLD.id AND NEW.guild = OLD.guild AND NEW.channel = OLD.channel AND NEW.heap_id = OLD.heap_id
    AND NEW.at_ms = OLD.at_ms AND NEW.logged_ms = OLD.logged_ms AND NEW.kind = OLD.kind AND NEW.payload = OLD.payload
    AND coalesce(NEW.voids, 0) = coalesce(OLD.voids, 0) AND coalesce(NEW.leader, 0) = coalesce(OLD.leader, 0))
BEGIN
    SELECT RAISE(ABORT, 'entries never change');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER entries_never_go BEFORE DELETE ON entries
WHEN NOT EXISTS (SELECT 1 FROM leaving WHERE guild = OLD.guild)
BEGIN
    SELECT RAISE(ABORT, 'entries are never removed');
END;
-- +goose StatementEnd

-- +goose Down
DROP TRIGGER entries_never_change;
DROP TRIGGER entries_never_go;
DROP TABLE leaving;

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
