package storage_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// backlogged is a record in which each of three channels has a post, due an
// hour after the other.
func backlogged(t *testing.T) (*storage.DB, []duty.Post) {
	db := fresh(t)
	for n := range 3 {
		planned(t, db, channel(n))
	}
	stale, err := db.Stale(t.Context(), 9)
	require.NoError(t, err)
	for n, s := range stale {
		due := duty.Occurrence{Day: evening(0).Day, At: evening(0).At.Add(time.Duration(n) * time.Hour)}
		require.NoError(t, db.Arm(t.Context(), s, due))
	}
	due, err := db.Due(t.Context(), evening(1).At, 9)
	require.NoError(t, err)
	for _, d := range due {
		_, err := db.Prepare(t.Context(), d, digest(heap.Heap{}), duty.Occurrence{}, duty.Rota{})
		require.NoError(t, err)
	}
	posts, err := db.Claim(t.Context(), "one", evening(1).At, 0, 9)
	require.NoError(t, err)
	require.Len(t, posts, 3)
	return db, posts
}

func TestBacklog(t *testing.T) {
	six := evening(0).At
	for _, tc := range []struct {
		name   string
		reach  storage.Reach
		change func(db *storage.DB, posts []duty.Post) error
		now    time.Time
		posts  int
		oldest time.Time
	}{
		{"nothing before its hour", storage.Reach{}, nil, six.Add(-time.Second), 0, time.Time{}},
		{"what is due, from the oldest on", storage.Reach{}, nil, six.Add(time.Hour), 2, six},
		{"within the reach", storage.Reach{Only: channel(1)}, nil, evening(1).At, 1, six.Add(time.Hour)},
		{"besides a guild", storage.Reach{Besides: here.Guild}, nil, evening(1).At, 0, time.Time{}},
		{"not what was sent", storage.Reach{}, func(db *storage.DB, posts []duty.Post) error { return db.Sent(t.Context(), posts[0], "9", six) }, evening(1).At, 2, six.Add(time.Hour)},
		{"what is tried again later", storage.Reach{}, func(db *storage.DB, posts []duty.Post) error {
			return db.Retry(t.Context(), posts[0], evening(2).At, "no answer")
		}, evening(1).At, 3, six},
		{"not where nothing can be posted", storage.Reach{}, func(db *storage.DB, posts []duty.Post) error {
			_, err := db.Trouble(t.Context(), posts[0].Place, duty.Refused, six)
			return err
		}, evening(1).At, 2, six.Add(time.Hour)},
	} {
		t.Run(tc.name, func(t *testing.T) {
			db, posts := backlogged(t)
			if tc.change != nil {
				require.NoError(t, tc.change(db, posts))
			}
			n, oldest, err := db.Within(tc.reach).Backlog(t.Context(), tc.now)
			require.NoError(t, err)
			assert.Equal(t, tc.posts, n)
			assert.True(t, tc.oldest.Equal(oldest), oldest)
		})
	}
}

func TestTroubled(t *testing.T) {
	db, posts := backlogged(t)
	_, err := db.Trouble(t.Context(), posts[0].Place, duty.Refused, noon)
	require.NoError(t, err)
	for reach, want := range map[storage.Reach]map[duty.Trouble]int{
		{}:                     {duty.Refused: 1, duty.Gone: 0},
		{Besides: here.Guild}:  {duty.Refused: 0, duty.Gone: 0},
		{Only: posts[1].Place}: {duty.Refused: 0, duty.Gone: 0},
	} {
		got, err := db.Within(reach).Troubled(t.Context())
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	require.NoError(t, db.GuildGone(t.Context(), here.Guild, noon))
	got, err := db.Within(storage.Reach{}).Troubled(t.Context())
	require.NoError(t, err)
	assert.Equal(t, map[duty.Trouble]int{duty.Refused: 0, duty.Gone: 3}, got)
	require.NoError(t, db.Close())
	_, err = db.Within(storage.Reach{}).Troubled(t.Context())
	require.ErrorIs(t, err, storage.ErrClosed)
}

// BenchmarkBacklog is what a look at the metrics asks of a crowd's record.
func BenchmarkBacklog(b *testing.B) {
	db := fresh(b)
	crowd(b, db, crowdPlans, crowdDue)
	all := db.Within(storage.Reach{})
	b.Run("posts", func(b *testing.B) {
		for b.Loop() {
			_, _, err := all.Backlog(b.Context(), evening(0).At)
			require.NoError(b, err)
		}
	})
	b.Run("channels", func(b *testing.B) {
		for b.Loop() {
			_, err := all.Troubled(b.Context())
			require.NoError(b, err)
		}
	})
}
