package storage_test

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// sweeper is a record as an engine sweeps it.
type sweeper interface {
	Stale(ctx context.Context, limit int) ([]storage.Due, error)
	Due(ctx context.Context, now time.Time, limit int) ([]storage.Due, error)
	Claim(ctx context.Context, owner string, now time.Time, lease time.Duration, limit int) ([]duty.Post, error)
	Outdated(ctx context.Context, now time.Time, lease time.Duration, limit int) ([]duty.Post, error)
}

func TestSweepsGoNoFurtherThanTheirReach(t *testing.T) {
	local := heap.Place{Guild: "local", Channel: "millrace-lane"}
	bays, plots := heap.Place{Guild: "60", Channel: "61"}, heap.Place{Guild: "60", Channel: "62"}
	everywhere := []heap.Place{bays, plots, local}
	for name, tc := range map[string]struct {
		reach storage.Reach
		want  []heap.Place
	}{
		"all":             {storage.Reach{}, everywhere},
		"one place":       {storage.Reach{Only: plots}, []heap.Place{plots}},
		"besides a guild": {storage.Reach{Besides: "local"}, []heap.Place{bays, plots}},
	} {
		t.Run(name, func(t *testing.T) {
			db, err := storage.Open(t.Context(), filepath.Join(t.TempDir(), "record.db"))
			require.NoError(t, err)
			defer db.Close()
			due := duty.Occurrence{Day: duty.Date{Year: 2026, Month: 5, Day: 2}, At: time.Date(2026, 5, 2, 18, 0, 0, 0, time.UTC)}
			for _, at := range everywhere {
				_, err := db.ChangePlan(t.Context(), at, wren, noon, func(p *duty.Plan) error { *p = duty.Usual(); return nil })
				require.NoError(t, err)
			}
			var within sweeper = db.Within(tc.reach)
			stale, err := within.Stale(t.Context(), 9)
			require.NoError(t, err)
			assert.ElementsMatch(t, tc.want, placesOf(stale))

			stale, err = db.Stale(t.Context(), 9)
			require.NoError(t, err)
			for _, s := range stale {
				require.NoError(t, db.Arm(t.Context(), s, due))
			}
			come, err := within.Due(t.Context(), due.At, 9)
			require.NoError(t, err)
			assert.ElementsMatch(t, tc.want, placesOf(come))

			come, err = db.Due(t.Context(), due.At, 9)
			require.NoError(t, err)
			for _, d := range come {
				post := duty.Post{Kind: duty.Digest, Items: []duty.Item{{Day: due.Day, Said: due.At, State: duty.Open, Found: duty.Found{Job: advice.Job{Kind: "turn", Title: "Turn it"}}}}}
				first, err := db.Prepare(t.Context(), d, post, duty.Occurrence{}, duty.Rota{})
				require.NoError(t, err)
				require.True(t, first)
			}
			posts, err := within.Claim(t.Context(), "one", due.At, time.Minute, 9)
			require.NoError(t, err)
			var got []heap.Place
			for _, p := range posts {
				got = append(got, p.Place)
				require.NoError(t, db.Sent(t.Context(), p, "9", due.At))
				_, _, err := db.Settle(t.Context(), p.Place, p.Items[0].ID, duty.Item{State: duty.Unneeded, At: due.At})
				require.NoError(t, err)
			}
			assert.ElementsMatch(t, tc.want, got)

			outdated, err := within.Outdated(t.Context(), due.At.Add(time.Hour), time.Minute, 9)
			require.NoError(t, err)
			assert.Len(t, outdated, len(tc.want))
		})
	}
}

func placesOf(found []storage.Due) []heap.Place {
	var at []heap.Place
	for _, d := range found {
		at = append(at, d.Place)
	}
	return at
}
