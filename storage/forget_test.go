package storage_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/storage"
)

// peopled makes a record of every table's rows in two guilds, with a person
// whose name stands nowhere else.
func peopled(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "garden.db")
	db := raw(t, path)
	fill(t, db, int64(len(rows)))
	for v := range int64(len(rows)) {
		for _, insert := range rows[v+1] {
			if !strings.HasPrefix(insert, "INSERT") || strings.Contains(insert, "INTO weather") {
				continue
			}
			other := strings.NewReplacer("millrace-lane", "orchard-end", "(4, ", "(14, ", "(8, ", "(18, ", "(9, ", "(19, ", "(10, ", "(20, ", "'heaps', 4,", "'heaps', 14,",
				"'{\"entry\":9,", "'{\"entry\":19,", "'voided', '{\"entry\":9,\"was\":\"temperature\"}', 9)", "'voided', '{\"entry\":19,\"was\":\"temperature\"}', 19)",
				"(2, ", "(12, ", "(3, ", "(13, ", "(6, ", "(16, ", "(7, ", "(17, ", "'heaps', 3, 4,", "'heaps', 13, 14,", "'heaps', 3, NULL", "'heaps', 13, NULL", "777744860000, 8, ''", "777744860000, 18, ''").Replace(insert)
			_, err := db.Exec(other)
			require.NoError(t, err, other)
		}
	}
	require.NoError(t, db.Close())
	opened := open(t, path)
	_, err := opened.Append(t.Context(), here, heap.Entry{Heap: 4, At: noon, Logged: noon, By: heap.Person{ID: "11", Name: "Tamsy"}, Payload: heap.Turned{}})
	require.NoError(t, err)
	require.NoError(t, opened.Close())
	return path
}

// holds reports whether a text lies anywhere in the files of a record.
func holds(t *testing.T, path, text string) bool {
	t.Helper()
	for _, suffix := range []string{"", "-wal"} {
		data, err := os.ReadFile(path + suffix)
		if err == nil && bytes.Contains(data, []byte(text)) {
			return true
		}
	}
	return false
}

// without sums all of the log but who.
func without(t *testing.T, path string) (all []string) {
	t.Helper()
	db := raw(t, path)
	rows, err := db.Query("SELECT id, heap_id, at_ms, logged_ms, kind, payload, coalesce(voids, 0), coalesce(leader, 0) FROM entries ORDER BY id")
	require.NoError(t, err)
	defer rows.Close()
	for rows.Next() {
		var id, of, at, logged, voids, leader int64
		var kind, payload string
		require.NoError(t, rows.Scan(&id, &of, &at, &logged, &kind, &payload, &voids, &leader))
		all = append(all, fmt.Sprint(id, of, at, logged, kind, payload, voids, leader))
	}
	return all
}

func TestAForgottenPersonIsNowhereAndWhatTheyDidStays(t *testing.T) {
	path := peopled(t)
	require.True(t, holds(t, path, "Wren"))
	before := without(t, path)
	db, err := storage.Open(t.Context(), path)
	require.NoError(t, err)
	done, err := db.ForgetPerson(t.Context(), wren.ID)
	require.NoError(t, err)
	assert.Equal(t, []storage.Removed{{Table: "entries", Rows: 5}, {Table: "items", Rows: 4}, {Table: "changes", Rows: 4}, {Table: "gardens", Rows: 2}, {Table: "gardens", Rows: 2}, {Table: "plans", Rows: 2}, {Table: "posts", Rows: 2}, {Table: "changes", Rows: 2}}, done)

	entries, err := db.Entries(t.Context(), here, 4)
	require.NoError(t, err)
	for _, e := range entries {
		assert.Contains(t, []heap.Person{{Name: "somebody"}, {ID: "11", Name: "Tamsy"}}, e.By)
	}
	plan, err := db.Plan(t.Context(), here)
	require.NoError(t, err)
	assert.Empty(t, plan.Rota.Members)
	assert.True(t, plan.On, "the rest of the plan stays")
	garden, err := db.Garden(t.Context(), here)
	require.NoError(t, err)
	assert.Empty(t, garden.Organisers)
	assert.Equal(t, "Europe/London", garden.Zone)
	garden, err = db.Garden(t.Context(), heap.Place{Guild: here.Guild, Channel: "scraps"})
	require.NoError(t, err)
	assert.Empty(t, garden.ReadOnly)
	acts, _, err := db.Acts(t.Context(), here, "", time.Time{}, 10)
	require.NoError(t, err)
	require.Len(t, acts, 2)
	for _, a := range acts {
		assert.Equal(t, heap.Person{Name: "somebody"}, a.By)
	}
	assert.Equal(t, json.RawMessage("14"), acts[0].Changes[0].To, "what was changed stays")
	assert.Equal(t, []heap.Person{{ID: "8", Name: "Odalys"}, {Name: "somebody"}}, acts[1].Changes[0].People)
	again, err := db.ForgetPerson(t.Context(), wren.ID)
	require.NoError(t, err)
	for _, r := range again {
		assert.Zero(t, r.Rows, r.Table)
	}
	_, err = db.ForgetPerson(t.Context(), " ")
	assert.Error(t, err, "somebody cannot be forgotten")
	require.NoError(t, db.Close())

	assert.Equal(t, before, without(t, path))
	assert.False(t, holds(t, path, "Wren"), "not in a free page, nor in the log")
	assert.True(t, holds(t, path, "Tamsy"))
	found, err := storage.Inspect(t.Context(), path)
	require.NoError(t, err)
	assert.Empty(t, found.Damage)
}

func TestAForgottenGuildLeavesNothing(t *testing.T) {
	path := peopled(t)
	db, err := storage.Open(t.Context(), path)
	require.NoError(t, err)
	inspected := raw(t, path)
	var scoped []string
	for _, table := range tables(t, inspected) {
		var n int
		require.NoError(t, inspected.QueryRow("SELECT count(*) FROM pragma_table_info($1) WHERE name = 'guild'", table).Scan(&n))
		if n > 0 && table != "leaving" {
			scoped = append(scoped, table)
		}
	}
	missing := slices.DeleteFunc(slices.Clone(scoped), func(t string) bool { return slices.Contains(storage.GuildTables, t) })
	require.Empty(t, missing, "a table with a guild is one that is cleared")
	count := func(guild, table string) (n int) {
		require.NoError(t, inspected.QueryRow("SELECT count(*) FROM "+table+" WHERE guild = $1", guild).Scan(&n))
		return n
	}
	stay := map[string]int{}
	for _, table := range scoped {
		require.NotZero(t, count(here.Guild, table), table)
		stay[table] = count("orchard-end", table)
	}

	done, err := db.ForgetGuild(t.Context(), here.Guild)
	require.NoError(t, err)
	for _, r := range done {
		assert.NotZero(t, r.Rows, r.Table)
	}
	for _, table := range scoped {
		assert.Zero(t, count(here.Guild, table), table)
		assert.Equal(t, stay[table], count("orchard-end", table), table)
	}
	var leaving int
	require.NoError(t, inspected.QueryRow("SELECT count(*) FROM leaving").Scan(&leaving))
	assert.Zero(t, leaving)
	_, err = inspected.Exec("DELETE FROM entries")
	assert.ErrorContains(t, err, "never removed", "the log of the others is as firm as before")
	require.NoError(t, inspected.Close())
	require.NoError(t, db.Close())
	assert.False(t, holds(t, path, here.Guild))
	found, err := storage.Inspect(t.Context(), path)
	require.NoError(t, err)
	assert.Empty(t, found.Damage)
}
