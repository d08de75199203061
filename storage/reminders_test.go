package storage_test

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// evening is the reminder n days after noon's day.
func evening(n int) duty.Occurrence {
	return duty.Occurrence{Day: duty.On(noon).Add(n), At: noon.Add(time.Duration(6+24*n) * time.Hour)}
}

func planned(t testing.TB, db *storage.DB, at heap.Place) {
	t.Helper()
	_, err := db.ChangePlan(t.Context(), at, wren, noon, func(p *duty.Plan) error { *p = duty.Usual(); return nil })
	require.NoError(t, err)
}

// digest names one job of a heap.
func digest(h heap.Heap) duty.Post {
	job := advice.Job{Kind: advice.Turn, Title: "Turn it", Done: "log turn"}
	return duty.Post{Kind: duty.Digest, Items: []duty.Item{{Found: duty.Found{Heap: h.ID, Name: h.Name, Job: job}, Said: noon, State: duty.Open}}}
}

// channel is one of many places.
func channel(n int) heap.Place {
	return heap.Place{Guild: here.Guild, Channel: fmt.Sprint("channel ", n)}
}

// Programs that share a file divide the work: each reminder is prepared, and
// each post claimed, by one of them.
func TestTwoProgramsDivideTheReminders(t *testing.T) {
	const channels, workers = 40, 6
	path := filepath.Join(t.TempDir(), "garden.db")
	programs := []*storage.DB{open(t, path), open(t, path)}
	for n := range channels {
		planned(t, programs[0], channel(n))
	}
	did := make([]shift, workers)
	errs := make([]error, workers)
	var running sync.WaitGroup
	for i := range did {
		running.Go(func() {
			for more := true; more && errs[i] == nil; {
				more, errs[i] = did[i].pass(t.Context(), programs[i%len(programs)], fmt.Sprint("worker ", i))
			}
		})
	}
	running.Wait()
	require.NoError(t, errors.Join(errs...))
	prepared, claimed := map[heap.Place]int{}, map[int64]int{}
	for _, s := range did {
		for _, at := range s.prepared {
			prepared[at]++
			assert.Equal(t, 1, prepared[at], "prepared in %v", at)
		}
		for _, id := range s.claimed {
			claimed[id]++
			assert.Equal(t, 1, claimed[id], "post %d", id)
		}
	}
	assert.Len(t, prepared, channels)
	assert.Len(t, claimed, channels)
}

// shift is what one worker did.
type shift struct {
	prepared []heap.Place
	claimed  []int64
}

// pass does a few of each step, and reports whether there was anything to do.
func (s *shift) pass(ctx context.Context, db *storage.DB, owner string) (bool, error) {
	const few = 7
	stale, err := db.Stale(ctx, few)
	if err != nil {
		return false, err
	}
	for _, d := range stale {
		if err := db.Arm(ctx, d, evening(0)); err != nil {
			return false, err
		}
	}
	due, err := db.Due(ctx, evening(0).At, few)
	if err != nil {
		return false, err
	}
	for _, d := range due {
		first, err := db.Prepare(ctx, d, duty.Post{Kind: duty.Digest, Week: []string{"One turn."}}, evening(1), duty.Rota{})
		if err != nil {
			return false, err
		}
		if first {
			s.prepared = append(s.prepared, d.Place)
		}
	}
	posts, err := db.Claim(ctx, owner, evening(0).At, time.Minute, few)
	if err != nil {
		return false, err
	}
	for _, p := range posts {
		s.claimed = append(s.claimed, p.ID)
		if err := db.Sent(ctx, p, "message", evening(0).At); err != nil {
			return false, err
		}
	}
	return len(stale)+len(due)+len(posts) > 0, nil
}

// The sweeps run every few seconds over all places: they may not read all.
func TestTheSweepsAreAnsweredByTheirIndexes(t *testing.T) {
	for name, fill := range map[string]func(*testing.T, *storage.DB){
		"an empty file": func(*testing.T, *storage.DB) {},
		"a full file that was analysed": func(t *testing.T, db *storage.DB) {
			crowd(t, db, 2000, 20)
			_, err := db.Writer().Exec("ANALYZE")
			require.NoError(t, err)
		},
	} {
		t.Run(name, func(t *testing.T) {
			db := fresh(t)
			fill(t, db)
			for index, query := range storage.Sweeps {
				plan := explained(t, db, query)
				assert.Contains(t, plan, "INDEX "+index, query)
				for line := range strings.Lines(plan) {
					if strings.Contains(line, "SCAN") {
						assert.Contains(t, line, index, "a whole table is read by %s", query)
					}
				}
			}
		})
	}
}

// explained is how SQLite goes about a query.
func explained(t *testing.T, db *storage.DB, query string) string {
	t.Helper()
	var args []any
	for n := 1; strings.Contains(query, fmt.Sprint("$", n)); n++ {
		args = append(args, 1)
	}
	steps, err := db.Writer().Query("EXPLAIN QUERY PLAN "+query, args...)
	require.NoError(t, err)
	defer steps.Close()
	var plan strings.Builder
	for steps.Next() {
		var id, parent, unused int
		var detail string
		require.NoError(t, steps.Scan(&id, &parent, &unused, &detail))
		fmt.Fprintln(&plan, detail)
	}
	require.NoError(t, steps.Err())
	return plan.String()
}

// crowding fills a file: @plans channels with five heaps each, of which @due are
// due on the first evening, have a post that waits, and one that is outdated; as
// many others are stale.
var crowding = []string{
	`INSERT INTO plans (guild, channel, plan, seq, armed, due_ms, due_day, trouble)
		SELECT 'guild ' || (n / 3), 'channel ' || n, '{"on":true}', 1 + (n >= @plans - @due), 1, @at + CASE WHEN n < @due THEN 0 ELSE 86400000 END, '2026-05-02', '' FROM counted`,
	`INSERT INTO heaps (guild, channel, name, name_key, container, size_l, cover, aim, started_ms)
		SELECT 'guild ' || (n / 3), 'channel ' || n, 'Bay ' || bay.value, 'BAY ' || bay.value, 'open heap', 800, 'none', 'steady', @at
		FROM counted JOIN json_each('[1,2,3,4,5]') bay`,
	`INSERT INTO posts (guild, channel, kind, day, due_ms, body, state, next_ms, owner, attempt, why, message, sent_ms, version, shown)
		SELECT 'guild ' || (n / 3), 'channel ' || n, 'digest', '2026-05-01', @at, '{}', 'sent', 0, 'one', 1, '', '9', @at, 2, CASE WHEN n < @due THEN 1 ELSE 2 END FROM counted`,
	`INSERT INTO posts (guild, channel, kind, day, due_ms, body, state, next_ms, owner, attempt, why, message, version, shown)
		SELECT 'guild ' || (n / 3), 'channel ' || n, 'digest', '2026-05-02', @at, '{}', 'due', @at, '', 0, '', '', 1, 0 FROM counted WHERE n < @due`,
}

func crowd(t testing.TB, db *storage.DB, plans, due int) {
	t.Helper()
	const counted = "WITH RECURSIVE counted (n) AS (SELECT 0 UNION ALL SELECT n + 1 FROM counted WHERE n + 1 < @plans) "
	for _, insert := range crowding {
		_, err := db.Writer().Exec(strings.Replace(insert, "SELECT", counted+"SELECT", 1),
			sql.Named("plans", plans), sql.Named("due", due), sql.Named("at", evening(0).At.UnixMilli()))
		require.NoError(t, err)
	}
}
