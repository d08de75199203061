package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"strings"
	"time"
)

// Column is a column of an exported table.
type Column struct {
	Name    string
	Meaning string
	from    string // what it is in the record
	as      func(any) any
}

// Table is one exported table. A value is nil, a string, an int64, a float64 or
// a json.RawMessage; times are RFC 3339 in UTC.
type Table struct {
	Name    string
	Columns []Column
	Rows    [][]any
	from    string
	order   string
}

func plain(v any) any { return v }

func moment(v any) any {
	if ms, ok := v.(int64); ok {
		return time.UnixMilli(ms).UTC().Format(time.RFC3339Nano)
	}
	return v
}

func asJSON(v any) any {
	if s, ok := v.(string); ok {
		return json.RawMessage(s)
	}
	return v
}

// exported are the tables that belong to a group, without what only this
// program can use: caches, and the state of sending.
func exported() []Table {
	number := Column{"number", "the number of the row; no other row of this table has it", "id", plain}
	channel := Column{"channel", "the channel it belongs to", "channel", plain}
	heapID := Column{"heap", "the number of the heap", "heap_id", plain}
	return []Table{
		{Name: "heaps", from: "heaps", order: "id", Columns: []Column{number, channel,
			{"name", "what the group calls it", "name", plain},
			{"container", "open heap, pallet bay, plastic bin or tumbler", "container", plain},
			{"size_l", "what it holds, in litres; 0: not said", "size_l", plain},
			{"cover", "what lies on it", "cover", plain},
			{"aim", "fast, steady or hygienic", "aim", plain},
			{"started", "when it was started", "started_ms", moment},
			{"finished", "when it was finished; empty: it is kept", "finished_ms", moment}}},
		{Name: "entries", from: "entries", order: "id", Columns: []Column{number, channel, heapID,
			{"happened", "when it happened", "at_ms", moment},
			{"logged", "when it was put on the record", "logged_ms", moment},
			{"person_id", "who did it, by the platform's number; empty: somebody who was forgotten", "by_id", plain},
			{"person", "the name they went by", "by_name", plain},
			{"kind", "what kind of entry it is", "kind", plain},
			{"data", "what was observed or done, as JSON of its kind", "payload", asJSON},
			{"takes_back", "the number of the entry that this one takes back", "voids", plain},
			{"with", "the number of the first entry that was stored in one go with this", "leader", plain}}},
		{Name: "settings", from: "gardens", order: "channel", Columns: []Column{channel,
			{"time_zone", "name of the time zone", "zone", plain},
			{"latitude", "degrees north; empty: not said", "lat", plain},
			{"longitude", "degrees east; empty: not said", "lon", plain},
			{"measures", "units and the sizes of containers in litres, as JSON", "measures", asJSON},
			{"organisers", "who was appointed, as JSON", "organisers", asJSON},
			{"read_only", "who may ask but not log, as JSON", "read_only", asJSON},
			{"language", "what is spoken there; empty: each their own", "language", plain}}},
		{Name: "materials", from: "materials", order: "channel, id", Columns: []Column{channel,
			{"material", "the name it is found by", "id", plain},
			{"properties", "the group's own values for it, as JSON", "feedstock", asJSON}}},
		{Name: "stock", from: "stock", order: "channel, material", Columns: []Column{channel,
			{"material", "what is on hand", "material", plain},
			{"said", "how much, as it was said", "said", plain},
			{"volume_l", "how much, in litres", "volume_l", plain},
			{"since", "when it was said", "at_ms", moment}}},
		{Name: "plans", from: "plans", order: "channel", Columns: []Column{channel,
			{"plan", "when and of what the channel is reminded, its rota and what it taught, as JSON", "plan", asJSON},
			{"next", "when it is reminded next; empty: not", "due_ms", moment},
			{"trouble", "why it cannot be posted to; empty: it can", "trouble", plain}}},
		{Name: "posts", from: "posts", order: "id", Columns: []Column{number, channel,
			{"kind", "digest or notice", "kind", plain},
			{"day", "the day it is for", "day", plain},
			{"due", "when it was due", "due_ms", moment},
			{"body", "who was addressed and what was said besides the items, as JSON", "body", asJSON},
			{"state", "due, leased, sent, dropped or folded", "state", plain},
			{"sent", "when it was sent; empty: not", "sent_ms", moment}}},
		{Name: "items", from: "items", order: "id", Columns: []Column{number, channel,
			{"post", "the number of the post that named it", "post", plain}, heapID,
			{"heap_name", "what the heap was called; empty: a job of the whole garden", "name", plain},
			{"kind", "what kind of job it is", "kind", plain},
			{"day", "the day it was named", "day", plain},
			{"job", "the job as it was found, as JSON", "job", asJSON},
			{"named", "when it was named", "said_ms", moment},
			{"state", "open, done, later, unneeded or lapsed", "state", plain},
			{"person_id", "who closed it, by the platform's number", "by_id", plain},
			{"person", "the name they went by", "by_name", plain},
			{"closed", "when it was closed", "at_ms", moment},
			{"entry", "the number of the entry that did it", "entry", plain}}},
		{Name: "changes", from: "changes", order: "id", Columns: []Column{number, channel,
			{"when", "when it was changed", "at_ms", moment},
			{"person_id", "who did it, by the platform's number; empty: somebody who was forgotten", "by_id", plain},
			{"person", "the name they went by", "by_name", plain},
			{"topic", "settings, reminders or stock", "topic", plain},
			{"changes", "what was changed, from what to what, as JSON", "what", asJSON}}},
	}
}

// Export reads all that is kept for a guild, or for one channel of it, as of one
// moment. Tables without rows are there too.
func (db *DB) Export(ctx context.Context, guild, channel string) ([]Table, error) {
	if db.closed.Load() {
		return nil, fmt.Errorf("export: %w", ErrClosed)
	}
	tx, err := db.reader.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return nil, fmt.Errorf("export: %w", err)
	}
	defer tx.Rollback()
	tables := exported()
	for i := range tables {
		t := &tables[i]
		if t.Rows, err = collect(ctx, tx, t.scan, t.query(), guild, channel); err != nil {
			return nil, fmt.Errorf("export %s: %w", t.Name, err)
		}
	}
	return tables, nil
}

func (t Table) query() string {
	from := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		from[i] = c.from
	}
	return "SELECT " + strings.Join(from, ", ") + " FROM " + t.from +
		" WHERE guild = $1 AND ($2 = '' OR channel = $2) ORDER BY " + t.order
}

func (t Table) scan(scan func(...any) error) ([]any, error) {
	values, into := make([]any, len(t.Columns)), make([]any, len(t.Columns))
	for i := range values {
		into[i] = &values[i]
	}
	if err := scan(into...); err != nil {
		return nil, err
	}
	for i, c := range t.Columns {
		if text, ok := values[i].([]byte); ok {
			values[i] = string(text)
		}
		values[i] = c.as(values[i])
	}
	return values, nil
}
