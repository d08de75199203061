package main

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// TestDoctorLooksAtReminders finds by the record alone what stands still.
func TestDoctorLooksAtReminders(t *testing.T) {
	bay := heap.Place{Guild: "600000000000000001", Channel: bayChannel}
	due := time.Date(2026, 6, 10, 18, 0, 0, 0, time.UTC)
	at := func(after time.Duration) func() time.Time { return func() time.Time { return due.Add(after) } }
	armed := func(t *testing.T, db *storage.DB) duty.Post {
		stale, err := db.Stale(t.Context(), 10)
		require.NoError(t, err)
		for _, s := range stale {
			require.NoError(t, db.Arm(t.Context(), s, duty.Occurrence{Day: duty.On(due), At: due}))
		}
		return duty.Post{Week: []string{"Nothing happened."}}
	}
	prepared := func(t *testing.T, db *storage.DB) {
		post := armed(t, db)
		found, err := db.Due(t.Context(), due, 10)
		require.NoError(t, err)
		require.Len(t, found, 1)
		_, err = db.Prepare(t.Context(), found[0], post, duty.Occurrence{}, duty.Rota{})
		require.NoError(t, err)
	}
	for _, tt := range []struct {
		name   string
		scene  func(t *testing.T, db *storage.DB)
		now    func() time.Time
		served bool
		status int
		out    string
	}{
		{"none are on", func(t *testing.T, db *storage.DB) {
			_, err := db.ChangePlan(t.Context(), bay, heap.Person{}, due, func(p *duty.Plan) error { p.On = false; return nil })
			require.NoError(t, err)
		}, at(0), false, 0, "ok    reminders  None are on."},
		{"all is well", func(t *testing.T, db *storage.DB) { armed(t, db) }, at(-time.Hour), true, 0,
			"; the next is due Wed 10 Jun 18:00 UTC."},
		{"due a moment ago", func(t *testing.T, db *storage.DB) { armed(t, db) }, at(time.Minute), true, 0, "ok    reminders"},
		{"due long ago", func(t *testing.T, db *storage.DB) { armed(t, db) }, at(time.Hour), true, 1,
			"bad   reminders  They wait since Wed 10 Jun 18:00 UTC (channel " + bayChannel + "), although process "},
		{"written down long ago", prepared, at(time.Hour), true, 1, "bad   reminders  They wait since Wed 10 Jun 18:00 UTC"},
		{"due long ago, and nothing serves", func(t *testing.T, db *storage.DB) { armed(t, db) }, at(time.Hour), false, 0,
			"warn  reminders  They wait since Wed 10 Jun 18:00 UTC (channel " + bayChannel + "), for nothing serves this record. Start it: heapside serve."},
		{"refused", func(t *testing.T, db *storage.DB) {
			armed(t, db)
			_, err := db.Trouble(t.Context(), bay, duty.Refused, due.Add(-24*time.Hour))
			require.NoError(t, err)
		}, at(-time.Hour), true, 0,
			"warn  reminders  A channel takes no messages of the bot: " + bayChannel + " since Tue 9 Jun 18:00 UTC. Give the bot View Channel, Send Messages and Embed Links there (Channel settings > Permissions)"},
		{"gone", func(t *testing.T, db *storage.DB) {
			armed(t, db)
			require.NoError(t, db.GuildGone(t.Context(), bay.Guild, due))
		}, at(time.Hour), true, 0, "warn  reminders  They rest where the channel was not to be found: " + bayChannel + " since Wed 10 Jun 18:00 UTC."},
		{"only in the local chat", func(t *testing.T, db *storage.DB) {
			_, err := db.ForgetGuild(t.Context(), bay.Guild)
			require.NoError(t, err)
			_, err = db.ChangePlan(t.Context(), heap.Place{Guild: localGuild, Channel: localChannel}, heap.Person{}, due, func(p *duty.Plan) error { *p = duty.Usual(); return nil })
			require.NoError(t, err)
		}, at(time.Hour), false, 0, "ok    reminders  None are on."},
	} {
		t.Run(tt.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "garden.db")
			db, err := storage.Open(t.Context(), path)
			require.NoError(t, err)
			_, err = db.ChangePlan(t.Context(), bay, heap.Person{}, due, func(p *duty.Plan) error { *p = duty.Usual(); return nil })
			require.NoError(t, err)
			tt.scene(t, db)
			require.NoError(t, db.Close())
			if tt.served {
				hold, err := storage.Serve(path)
				require.NoError(t, err)
				defer func() { require.NoError(t, hold.Release()) }()
			}
			m, out := quiet(tt.now, "HEAPSIDE_TOKEN=secret")
			assert.Equal(t, tt.status, m.Main(t.Context(), []string{"doctor", "-offline", "-db", path}), out.String())
			assert.Contains(t, out.String(), tt.out)
		})
	}
}
