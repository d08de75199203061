-- +goose Up
-- What people changed of what rules a group: its settings, its reminders, its
-- stock. Changes of a heap are entries.
CREATE TABLE changes (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    guild   TEXT    NOT NULL,
    channel TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    by_id   TEXT    NOT NULL,
    by_name TEXT    NOT NULL,
    topic   TEXT    NOT NULL CHECK (length(topic) > 0),
    what    TEXT    NOT NULL CHECK (json_valid(what))
) STRICT;

CREATE INDEX changes_time ON changes (guild, channel, at_ms, id);

-- People may be taken out of a row; nothing else of it ever changes.
-- +goose StatementBegin
CREATE TRIGGER changes_never_change BEFORE UPDATE ON changes
WHEN NOT ((NEW.by_id = OLD.by_id AND NEW.by_name = OLD.by_name OR NEW.by_id = '' AND NEW.by_name = 'somebody')
    AND NEW.id = OLD.id AND NEW.guild = OLD.guild AND NEW.channel = OLD.channel AND NEW.at_ms = OLD.at_ms AND NEW.topic = OLD.topic
    AND json_array_length(NEW.what) = json_array_length(OLD.what))
BEGIN
    SELECT RAISE(ABORT, 'changes never change');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER changes_never_go BEFORE DELETE ON changes
WHEN NOT EXISTS (SELECT 1 FROM leaving WHERE guild = OLD.guild)
BEGIN
    SELECT RAISE(ABORT, 'changes are never removed');
END;
-- +goose StatementEnd

-- +goose Down
DROP TABLE changes;
