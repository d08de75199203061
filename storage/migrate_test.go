package storage_test

import (
	"database/sql"
	"encoding/json"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/mattn/go-sqlite3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/advice"
	"heapside/calc/audit"
	"heapside/calc/duty"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/calc/process"
	"heapside/storage"
)

// rows are stored by hand at the version that first has their table, and never
// edited: they stand for the files that groups already have.
var rows = map[int64][]string{
	1: {
		`INSERT INTO heaps (id, guild, channel, name, name_key, container, size_l, cover, aim, started_ms, finished_ms)
			VALUES (4, 'millrace-lane', 'heaps', 'North Bay', 'NORTH BAY', 'pallet bay', 800, 'tarp', 'fast', 1777723200000, NULL)`,
		`INSERT INTO entries (id, guild, channel, heap_id, at_ms, logged_ms, by_id, by_name, kind, payload, voids) VALUES
			(8, 'millrace-lane', 'heaps', 4, 1777723200000, 1777723200000, '7', 'Wren', 'started', '{}', NULL),
			(9, 'millrace-lane', 'heaps', 4, 1777726800000, 1777726860000, '7', 'Wren', 'temperature', '{"c":58,"depth_cm":40,"said":"58"}', NULL),
			(10, 'millrace-lane', 'heaps', 4, 1777730400000, 1777730400000, '7', 'Wren', 'voided', '{"entry":9,"was":"temperature"}', 9)`,
	},
	2: {
		`INSERT INTO gardens (guild, channel, zone, lat, lon, measures, organisers)
			VALUES ('millrace-lane', 'heaps', 'Europe/London', 51.5, -0.1, '{"System":"imperial","Fahrenheit":true,"Sizes":{"bucket":14}}', '[{"ID":"7","Name":"Wren"}]')`,
		`INSERT INTO stock (guild, channel, material, said, volume_l, at_ms) VALUES ('millrace-lane', 'heaps', 'straw', 'a bale', 120, 1777723200000)`,
		`INSERT INTO materials (guild, channel, id, feedstock) VALUES ('millrace-lane', 'heaps', 'grass',
			'{"ID":"grass","Name":"grass","Density":{"Low":180,"Typical":210,"High":260,"Source":"group"},"Aliases":["lawn"]}')`,
	},
	3: {
		`INSERT INTO tracks (guild, channel, heap_id, data) VALUES ('millrace-lane', 'heaps', 4, x'0102')`,
		`INSERT INTO forecasts (guild, channel, heap_id, made_ms, ahead_ms, low_c, mid_c, high_c, last_c)
			VALUES ('millrace-lane', 'heaps', 4, 1777723200000, 86400000, 45, 50, 58, NULL)`,
		`INSERT INTO weather (service, lat, lon, fetched_ms, since_ms, until_ms, report)
			VALUES ('open-meteo', 5150, -10, 1777723200000, 1777680000000, 1777766400000, x'1f8b')`,
	},
	4: {
		`INSERT INTO plans (guild, channel, plan, seq, armed, due_ms, due_day, trouble, trouble_ms) VALUES
			('millrace-lane', 'heaps', '{"on":true,"days":0,"at":1080,"quiet":{"from":1260,"to":480},"paused":"","weekly":1,"rota":{"members":[{"ID":"7","Name":"Wren","joined":"2026-05-01","asked_on":""}]}}',
			5, 5, 1777831200000, '2026-05-03', 'refused', 1777723200000)`,
		`INSERT INTO posts (id, guild, channel, kind, day, due_ms, body, state, next_ms, owner, attempt, why, message, sent_ms, version, shown)
			VALUES (2, 'millrace-lane', 'heaps', 'digest', '2026-05-01', 1777658400000, '{}', 'folded', 1777658400000, '', 0, '', '', NULL, 1, 0),
			(3, 'millrace-lane', 'heaps', 'digest', '2026-05-02', 1777744800000, '{"to":{"ID":"7","Name":"Wren"},"week":["One turn."]}',
			'sent', 0, 'a', 2, '', '900', 1777744801000, 2, 1)`,
		`INSERT INTO items (id, guild, channel, post, heap_id, name, kind, day, job, said_ms, state, by_id, by_name, at_ms, entry, until) VALUES
			(6, 'millrace-lane', 'heaps', 3, 4, 'North Bay', 'turn', '2026-05-02', '{"Kind":"turn","Title":"Turn it","Urgency":2}', 1777744800000, 'done', '7', 'Wren', 1777744860000, 8, ''),
			(7, 'millrace-lane', 'heaps', 3, NULL, '', 'browns', '2026-05-02', '{"Kind":"browns","Title":"Fetch browns"}', 1777744800000, 'later', '7', 'Wren', 1777744860000, NULL, '2026-05-05')`,
	},
	5: {
		`UPDATE entries SET by_id = '', by_name = 'somebody' WHERE id = 10`,
	},
	6: {
		`INSERT INTO gardens (guild, channel, zone, measures, organisers, read_only)
			VALUES ('millrace-lane', 'scraps', '', '{}', '[]', '[{"ID":"7","Name":"Wren"}]')`,
	},
	7: {
		`INSERT INTO gardens (guild, channel, zone, measures, organisers, language) VALUES ('millrace-lane', 'beds', 'Europe/Berlin', '{}', 'null', 'de')`,
	},
	8: {
		`INSERT INTO changes (guild, channel, at_ms, by_id, by_name, topic, what) VALUES
			('millrace-lane', 'heaps', 1777723200000, '7', 'Wren', 'settings', '[{"what":"measure","of":"bucket","from":10,"to":14}]'),
			('millrace-lane', 'heaps', 1777723260000, '7', 'Wren', 'reminders', '[{"what":"order","people":[{"ID":"8","Name":"Odalys"},{"ID":"7","Name":"Wren"}],"was":[{"ID":"7","Name":"Wren"},{"ID":"8","Name":"Odalys"}]}]')`,
	},
}

// checks read back what rows stored, through the record of today.
var checks = map[int64]func(*testing.T, *storage.DB){
	1: func(t *testing.T, db *storage.DB) {
		heaps, err := db.Heaps(t.Context(), here)
		require.NoError(t, err)
		assert.Equal(t, []heap.Heap{{ID: 4, Place: here, Name: "North Bay", Container: heap.PalletBay, SizeL: 800, Cover: "tarp", Aim: heap.Fast, Started: noon}}, heaps)
		entries, err := db.Entries(t.Context(), here, 4)
		require.NoError(t, err)
		require.Len(t, entries, 3)
		assert.Equal(t, heap.Temp{C: 58, DepthCm: 40, Said: "58"}, entries[1].Payload)
		assert.Equal(t, heap.EntryID(10), entries[1].VoidedBy)
		assert.Equal(t, heap.Voided{Entry: 9, Was: heap.KindTemp}, entries[2].Payload)
	},
	2: func(t *testing.T, db *storage.DB) {
		g, err := db.Garden(t.Context(), here)
		require.NoError(t, err)
		assert.Equal(t, heap.Garden{
			Place: here, Zone: "Europe/London", Located: true, Lat: 51.5, Lon: -0.1, Organisers: []heap.Person{wren}, ReadOnly: []heap.Person{},
			Measures: measure.Measures{System: measure.Imperial, Fahrenheit: true, Sizes: map[string]float64{"bucket": 14}},
		}, g)
		stock, err := db.Stock(t.Context(), here)
		require.NoError(t, err)
		assert.Equal(t, []heap.Stock{{Material: "straw", Said: "a bale", VolumeL: 120, At: noon}}, stock)
		materials, err := db.Materials(t.Context(), here)
		require.NoError(t, err)
		require.Len(t, materials, 1)
		assert.Equal(t, feedstock.Property{Range: measure.Range{Low: 180, Typical: 210, High: 260}, Source: "group"}, materials[0].Density)
		assert.Equal(t, []string{"lawn"}, materials[0].Aliases)
	},
	3: func(t *testing.T, db *storage.DB) {
		track, err := db.Track(t.Context(), here, 4)
		require.NoError(t, err)
		assert.Equal(t, []byte{1, 2}, track)
		said, err := db.Forecasts(t.Context(), here, 4, noon)
		require.NoError(t, err)
		require.Len(t, said, 1)
		assert.Equal(t, process.Band{Low: 45, Mid: 50, High: 58}, said[0].Band)
		report, ok, err := db.LatestReport(t.Context(), "open-meteo", 51.5, -0.1)
		require.NoError(t, err)
		assert.True(t, ok)
		assert.Equal(t, []byte{0x1f, 0x8b}, report.Data)
	},
	4: func(t *testing.T, db *storage.DB) {
		plan, err := db.Plan(t.Context(), here)
		require.NoError(t, err)
		want := duty.Usual()
		want.Weekly = duty.Week(time.Sunday)
		want.Rota.Members = []duty.Member{{Person: wren, Joined: duty.Date{Year: 2026, Month: time.May, Day: 1}}}
		assert.Equal(t, want, plan)
		second := duty.On(noon)
		evening := noon.Add(6 * time.Hour)
		standing, err := db.Standing(t.Context(), here)
		require.NoError(t, err)
		next := duty.Occurrence{Day: second.Add(1), At: evening.Add(24 * time.Hour)}
		assert.Equal(t, duty.Standing{Next: next, Trouble: duty.Refused, Since: noon}, standing)
		missed, err := db.Missed(t.Context(), here)
		require.NoError(t, err)
		assert.Equal(t, []duty.Date{second.Add(-1)}, missed)
		turn := duty.Found{Heap: 4, Name: "North Bay", Job: advice.Job{Kind: "turn", Title: "Turn it", Urgency: advice.Today}}
		fetch := duty.Found{Job: advice.Job{Kind: "browns", Title: "Fetch browns"}}
		pressed := evening.Add(time.Minute)
		post, err := db.Post(t.Context(), here, 3)
		require.NoError(t, err)
		assert.Equal(t, duty.Post{
			ID: 3, Place: here, Kind: duty.Digest, Day: second, Due: evening, To: wren, Week: []string{"One turn."},
			Items: []duty.Item{
				{ID: 6, Post: 3, Day: second, Found: turn, Said: evening, State: duty.Done, By: wren, At: pressed, Entry: 8},
				{ID: 7, Post: 3, Day: second, Found: fetch, Said: evening, State: duty.Later, By: wren, At: pressed, Until: second.Add(3)},
			},
			Message: "900", Attempt: 2, Owner: "a", Version: 2,
		}, post)
	},
	5: func(t *testing.T, db *storage.DB) {
		entries, err := db.Entries(t.Context(), here, 4)
		require.NoError(t, err)
		require.Len(t, entries, 3)
		assert.Equal(t, wren, entries[1].By)
		assert.Equal(t, heap.Person{Name: "somebody"}, entries[2].By)
	},
	6: func(t *testing.T, db *storage.DB) {
		scraps := heap.Place{Guild: here.Guild, Channel: "scraps"}
		g, err := db.Garden(t.Context(), scraps)
		require.NoError(t, err)
		assert.Equal(t, heap.Garden{Place: scraps, Organisers: []heap.Person{}, ReadOnly: []heap.Person{wren}}, g)
	},
	7: func(t *testing.T, db *storage.DB) {
		beds := heap.Place{Guild: here.Guild, Channel: "beds"}
		garden, err := db.Garden(t.Context(), beds)
		require.NoError(t, err)
		assert.Equal(t, heap.Garden{Place: beds, Zone: "Europe/Berlin", ReadOnly: []heap.Person{}, Language: "de"}, garden)
	},
	8: func(t *testing.T, db *storage.DB) {
		acts, all, err := db.Acts(t.Context(), here, "", time.Time{}, 10)
		require.NoError(t, err)
		odalys := heap.Person{ID: "8", Name: "Odalys"}
		assert.Equal(t, 2, all)
		assert.Equal(t, []audit.Act{
			{ID: 1, At: noon, By: wren, Topic: audit.Settings, Changes: []audit.Change{{What: audit.Measure, Of: "bucket", From: json.RawMessage("10"), To: json.RawMessage("14")}}},
			{ID: 2, At: noon.Add(time.Minute), By: wren, Topic: audit.Reminders, Changes: []audit.Change{{What: audit.Order, People: []heap.Person{odalys, wren}, Was: []heap.Person{wren, odalys}}}},
		}, acts)
	},
}

// raw opens the file past the record.
func raw(t *testing.T, path string) *sql.DB {
	t.Helper()
	db, err := sql.Open("sqlite3", "file:"+path+"?_foreign_keys=on")
	require.NoError(t, err)
	t.Cleanup(func() { db.Close() })
	return db
}

func TestEveryEarlierVersionIsBroughtUpToDate(t *testing.T) {
	sources, err := storage.Provider(raw(t, filepath.Join(t.TempDir(), "any.db")))
	require.NoError(t, err)
	require.Len(t, sources.ListSources(), len(rows), "a new migration needs rows of its version")
	for _, source := range sources.ListSources() {
		t.Run(filepath.Base(source.Path), func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "garden.db")
			old := raw(t, path)
			fill(t, old, source.Version)
			require.NoError(t, old.Close())

			db := open(t, path)
			for v := int64(1); v <= source.Version; v++ {
				checks[v](t, db)
			}
			h, err := db.StartHeap(t.Context(), heap.Heap{Place: here, Name: "South Bay"}, wren, noon)
			require.NoError(t, err)
			assert.Equal(t, heap.ID(5), h.ID, "numbers go on where they were")
		})
	}
}

// fill brings an empty file to a version and stores that version's rows.
func fill(t *testing.T, db *sql.DB, version int64) {
	t.Helper()
	p, err := storage.Provider(db)
	require.NoError(t, err)
	for v := int64(1); v <= version; v++ {
		_, err = p.UpTo(t.Context(), v)
		require.NoError(t, err)
		for _, insert := range rows[v] {
			_, err = db.Exec(insert)
			require.NoError(t, err)
		}
	}
}

func TestMigrationsGoUpDownAndUp(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	db := raw(t, path)
	newest := int64(len(rows))
	fill(t, db, newest)
	up := schema(t, db)
	p, err := storage.Provider(db)
	require.NoError(t, err)

	_, err = p.DownTo(t.Context(), 0)
	require.NoError(t, err)
	assert.Empty(t, schema(t, db))
	fill(t, db, newest)
	assert.Equal(t, up, schema(t, db))
}

// schema is the text of all tables, indexes and triggers but goose's own.
func schema(t *testing.T, db *sql.DB) []string {
	t.Helper()
	found, err := db.Query("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND tbl_name NOT IN ('goose_db_version', 'sqlite_sequence') ORDER BY name")
	require.NoError(t, err)
	defer found.Close()
	var all []string
	for found.Next() {
		var one string
		require.NoError(t, found.Scan(&one))
		all = append(all, one)
	}
	require.NoError(t, found.Err())
	return all
}

func TestManyCanOpenANewFileAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	var running sync.WaitGroup
	errs := make([]error, 6)
	for i := range errs {
		running.Go(func() {
			db, err := storage.Open(t.Context(), path)
			if errs[i] = err; err == nil {
				errs[i] = db.Close()
			}
		})
	}
	running.Wait()
	for _, err := range errs {
		require.NoError(t, err)
	}
	started(t, open(t, path))
}

func TestEntriesCannotBeChangedOrRemoved(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	started(t, open(t, path))
	db := raw(t, path)
	for _, statement := range []string{
		"UPDATE entries SET by_name = 'Nobody'",
		"UPDATE entries SET by_id = '', by_name = 'somebody', at_ms = at_ms + 1",
		"UPDATE entries SET by_id = '', by_name = 'somebody', payload = '{}', kind = 'note'",
		"UPDATE entries SET by_id = '8', by_name = 'somebody'",
		"UPDATE entries SET by_id = '', by_name = 'Nobody'",
		"DELETE FROM entries",
	} {
		_, err := db.Exec(statement)
		assert.ErrorContains(t, err, "entries", statement)
	}
}

func TestChangesCannotBeChangedOrRemoved(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	require.NoError(t, open(t, path).SaveGarden(t.Context(), heap.Garden{Place: here, Zone: "UTC"}, wren, noon))
	db := raw(t, path)
	for _, statement := range []string{
		"UPDATE changes SET by_name = 'Nobody'",
		"UPDATE changes SET by_id = '', by_name = 'somebody', at_ms = at_ms + 1",
		"UPDATE changes SET topic = 'stock'",
		"UPDATE changes SET what = '[]'",
		"DELETE FROM changes",
	} {
		_, err := db.Exec(statement)
		assert.ErrorContains(t, err, "changes", statement)
	}
}

func TestTheTablesRefuseWhatTheProgramWouldNotWrite(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	h := started(t, open(t, path))
	db := raw(t, path)
	const post = "INSERT INTO posts (guild, channel, kind, due_ms, body, next_ms, attempt, why, message, version, day, state, owner, sent_ms, shown)" +
		" VALUES ('millrace-lane', 'heaps', 'digest', 1, '{}', 1, 0, '', '', 1, "
	const item = "INSERT INTO items (guild, channel, name, kind, day, job, said_ms, by_id, by_name, post, heap_id, state, until)" +
		" VALUES ('millrace-lane', 'heaps', '', 'turn', '2026-05-01', '{}', 1, '', '', "
	for _, statement := range []string{post + "'2026-05-01', 'due', '', NULL, 0)", item + "1, 1, 'open', '')"} {
		_, err := db.Exec(statement)
		require.NoError(t, err)
	}
	const entry = "INSERT INTO entries (guild, channel, heap_id, at_ms, logged_ms, by_id, by_name, kind, payload, voids) VALUES "
	for name, statement := range map[string]string{
		"broken payload":          entry + "('millrace-lane', 'heaps', 1, 1, 1, '7', 'Wren', 'note', '{', NULL)",
		"another place's heap":    entry + "('orchard-end', 'heaps', 1, 1, 1, '7', 'Wren', 'note', '{}', NULL)",
		"text for a time":         entry + "('millrace-lane', 'heaps', 1, 'noon', 1, '7', 'Wren', 'note', '{}', NULL)",
		"a voiding of nothing":    entry + "('millrace-lane', 'heaps', 1, 1, 1, '7', 'Wren', 'voided', '{}', NULL)",
		"a voiding of no entry":   entry + "('millrace-lane', 'heaps', 1, 1, 1, '7', 'Wren', 'voided', '{}', 99)",
		"a heap of negative size": "UPDATE heaps SET size_l = -1",
		"a stock of nothing":      "INSERT INTO stock (guild, channel, material, said, volume_l, at_ms) VALUES ('a', 'b', 'straw', '', 0, 1)",
		"an hour without a day":   "INSERT INTO plans (guild, channel, plan, seq, armed, due_ms, due_day, trouble) VALUES ('a', 'b', '{}', 1, 0, 5, '', '')",
		"a plan armed too far":    "INSERT INTO plans (guild, channel, plan, seq, armed, due_day, trouble) VALUES ('a', 'b', '{}', 1, 2, '', '')",
		"a lease of nobody":       post + "'2026-05-02', 'leased', '', NULL, 0)",
		"a post sent at no time":  post + "'2026-05-02', 'sent', 'a', NULL, 0)",
		"a post shown too new":    post + "'2026-05-02', 'due', '', NULL, 2)",
		"a post of no day":        post + "'', 'due', '', NULL, 0)",
		"an item of no post":      item + "9, 1, 'open', '')",
		"an item of no heap":      item + "1, 9, 'open', '')",
		"put off for ever":        item + "1, 1, 'later', '')",
		"an item named twice":     item + "1, 1, 'open', '')",
		"half a location":         "INSERT INTO gardens (guild, channel, zone, lat, measures, organisers) VALUES ('a', 'b', '', 1, '{}', '[]')",
	} {
		_, err := db.Exec(statement)
		var refused sqlite3.Error
		require.ErrorAs(t, err, &refused, name)
		assert.Equal(t, sqlite3.ErrConstraint, refused.Code, name)
	}
	require.Equal(t, heap.ID(1), h.ID)
}
