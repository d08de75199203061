package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"heapside/calc/audit"
	"heapside/calc/duty"
	"heapside/calc/heap"
)

// somebody is who a forgotten person becomes. No platform gives an empty id, so
// nobody can act as somebody.
var somebody = heap.Person{Name: "somebody"}

// Removed is how many rows of a table were removed, or had a person taken out.
type Removed struct {
	Table string
	Rows  int64
}

// ForgetPerson takes the id and name of a person out of the record, of all
// places, in one transaction: who did something becomes somebody, on rotas and
// among organisers the person is no more. What was done stays, so every sum
// does. Text that people typed is not searched for names.
func (db *DB) ForgetPerson(ctx context.Context, id string) ([]Removed, error) {
	if strings.TrimSpace(id) == "" {
		return nil, errors.New("forget a person: no id")
	}
	var done []Removed
	err := db.write(ctx, "forget a person", func(ctx context.Context, tx *sql.Tx) error {
		for _, table := range []string{"entries", "items", "changes"} {
			n, err := affected(tx.ExecContext(ctx, "UPDATE "+table+" SET by_id = $1, by_name = $2 WHERE by_id = $3", somebody.ID, somebody.Name, id))
			if err != nil {
				return err
			}
			done = append(done, Removed{table, n})
		}
		for _, d := range personal {
			n, err := d.forget(ctx, tx, id)
			if err != nil {
				return err
			}
			done = append(done, Removed{d.table, n})
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return done, db.scrub(ctx)
}

// document is a column of JSON in which people are named. without returns it
// without one of them, and false when it did not name that one.
type document struct {
	table, column, key string
	stale              bool // the reminders of the place are to be worked out anew
	without            func(data []byte, id string) ([]byte, bool, error)
}

var personal = []document{
	{table: "gardens", column: "organisers", key: "guild, channel", without: edited(listWithout)},
	{table: "gardens", column: "read_only", key: "guild, channel", without: edited(listWithout)},
	{table: "plans", column: "plan", key: "guild, channel", stale: true, without: edited(planWithout)},
	{table: "posts", column: "body", key: "guild, channel, id", without: edited(func(b *body, id string) bool { return anonymous(&b.To, id) })},
	{table: "changes", column: "what", key: "guild, channel, id", without: edited(changesWithout)},
}

func listWithout(who *[]heap.Person, id string) bool {
	return deleted(who, func(p heap.Person) bool { return p.ID == id })
}

func planWithout(p *duty.Plan, id string) bool {
	changed := deleted(&p.Rota.Members, func(m duty.Member) bool { return m.ID == id })
	changed = deleted(&p.Rota.StandIns, func(s duty.StandIn) bool { return s.For.ID == id || s.By.ID == id }) || changed
	for i := range p.Taught {
		changed = anonymous(&p.Taught[i].By, id) || changed
	}
	return changed
}

// changesWithout keeps that somebody was appointed, or took turns.
func changesWithout(changes *[]audit.Change, id string) bool {
	changed := false
	for _, c := range *changes {
		for _, people := range [][]heap.Person{c.People, c.Was} {
			for i := range people {
				changed = anonymous(&people[i], id) || changed
			}
		}
	}
	return changed
}

func deleted[T any](all *[]T, drop func(T) bool) bool {
	n := len(*all)
	*all = slices.DeleteFunc(*all, drop)
	return len(*all) < n
}

func anonymous(p *heap.Person, id string) bool {
	if p.ID != id {
		return false
	}
	*p = somebody
	return true
}

// edited makes a change of a value one of its JSON.
func edited[T any](without func(*T, string) bool) func([]byte, string) ([]byte, bool, error) {
	return func(data []byte, id string) ([]byte, bool, error) {
		var value T
		if err := json.Unmarshal(data, &value); err != nil {
			return nil, false, err
		}
		if !without(&value, id) {
			return nil, false, nil
		}
		data, err := json.Marshal(value)
		return data, true, err
	}
}

// named is a row that may name a person, by its key.
type named struct {
	at   heap.Place
	id   int64
	data []byte
}

func (d document) forget(ctx context.Context, tx *sql.Tx, id string) (int64, error) {
	number := "0"
	if strings.HasSuffix(d.key, "id") {
		number = "id"
	}
	rows, err := collect(ctx, tx, func(scan func(...any) error) (n named, err error) {
		err = scan(&n.at.Guild, &n.at.Channel, &n.id, &n.data)
		return n, err
	}, "SELECT guild, channel, "+number+", "+d.column+" FROM "+d.table+" ORDER BY "+d.key)
	if err != nil {
		return 0, err
	}
	var n int64
	for _, row := range rows {
		data, changed, err := d.without(row.data, id)
		if err != nil {
			return 0, fmt.Errorf("%s of %s: %w", d.column, d.table, err)
		}
		if !changed {
			continue
		}
		set := "UPDATE " + d.table + " SET " + d.column + " = $1 WHERE guild = $2 AND channel = $3"
		args := []any{string(data), row.at.Guild, row.at.Channel}
		if number == "id" {
			set, args = set+" AND id = $4", append(args, row.id)
		}
		if _, err := tx.ExecContext(ctx, set, args...); err != nil {
			return 0, err
		}
		if d.stale {
			if err := outdate(ctx, tx, row.at); err != nil {
				return 0, err
			}
		}
		n++
	}
	return n, nil
}

// guildTables are all tables that hold rows of a guild, each before those that
// its rows name.
var guildTables = []string{"changes", "items", "posts", "plans", "forecasts", "tracks", "entries", "heaps", "stock", "materials", "gardens"}

// ForgetGuild removes all that the record holds of a guild, in one transaction.
// The weather, which belongs to no group, stays.
func (db *DB) ForgetGuild(ctx context.Context, guild string) ([]Removed, error) {
	var done []Removed
	err := db.write(ctx, "forget a guild", func(ctx context.Context, tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, "INSERT INTO leaving (guild) VALUES ($1)", guild); err != nil {
			return err
		}
		for _, table := range guildTables {
			n, err := affected(tx.ExecContext(ctx, "DELETE FROM "+table+" WHERE guild = $1", guild))
			if err != nil {
				return fmt.Errorf("%s: %w", table, err)
			}
			done = append(done, Removed{table, n})
		}
		_, err := tx.ExecContext(ctx, "DELETE FROM leaving WHERE guild = $1", guild)
		return err
	})
	if err != nil {
		return nil, err
	}
	return done, db.scrub(ctx)
}

func affected(r sql.Result, err error) (int64, error) {
	if err != nil {
		return 0, err
	}
	return r.RowsAffected()
}

// scrub writes the file anew, so that what was removed does not lie on in its
// free pages and its log. Who reads meanwhile can keep the log from being cut
// now; the next start or checkpoint does it.
func (db *DB) scrub(ctx context.Context) error {
	ctx = context.WithoutCancel(ctx)
	for _, statement := range []string{"VACUUM", "PRAGMA wal_checkpoint(TRUNCATE)"} {
		if _, err := db.writer.ExecContext(ctx, statement); err != nil {
			return fmt.Errorf("write the record anew, after all was removed: %w", err)
		}
	}
	return nil
}
