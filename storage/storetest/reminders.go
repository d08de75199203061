package storetest

import (
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

const (
	all   = 1000 // more than any test stores
	lease = time.Minute
)

// evening is the reminder n days after the second of May.
func evening(n int) duty.Occurrence {
	return duty.Occurrence{Day: duty.On(noon).Add(n), At: noon.Add(time.Duration(6+24*n) * time.Hour)}
}

// planned has a place reminded as usual, with Wren and Tamsy on the rota.
func (b *bench) planned(at heap.Place) {
	b.Helper()
	b.changed(at, func(p *duty.Plan) {
		*p = duty.Usual()
		p.Rota.Members = []duty.Member{{Person: wren, Joined: duty.On(noon)}, {Person: tamsy, Joined: duty.On(noon)}}
	})
}

func (b *bench) changed(at heap.Place, change func(*duty.Plan)) duty.Plan {
	b.Helper()
	p, err := b.store.ChangePlan(b.Context(), at, wren, noon, func(p *duty.Plan) error { change(p); return nil })
	require.NoError(b, err)
	return p
}

func (b *bench) plan(at heap.Place) duty.Plan {
	b.Helper()
	p, err := b.store.Plan(b.Context(), at)
	require.NoError(b, err)
	return p
}

// stale are the places whose plans are stale.
func (b *bench) stale() []heap.Place {
	b.Helper()
	found, err := b.store.Stale(b.Context(), all)
	require.NoError(b, err)
	return places(found)
}

func places(found []storage.Due) []heap.Place {
	var at []heap.Place
	for _, d := range found {
		at = append(at, d.Place)
	}
	return at
}

// arm arms all stale plans for the evening n days on.
func (b *bench) arm(n int) {
	b.Helper()
	found, err := b.store.Stale(b.Context(), all)
	require.NoError(b, err)
	for _, d := range found {
		require.NoError(b, b.store.Arm(b.Context(), d, evening(n)))
	}
}

// due is the one reminder that is due in a place on the evening n days on.
func (b *bench) due(at heap.Place, n int) storage.Due {
	b.Helper()
	found, err := b.store.Due(b.Context(), evening(n).At, all)
	require.NoError(b, err)
	for _, d := range found {
		if d.Place == at {
			return d
		}
	}
	require.Fail(b, "nothing is due", "in %v", at)
	return storage.Due{}
}

// digest is a post that names jobs of a heap.
func digest(h heap.Heap, n int, kinds ...string) duty.Post {
	p := duty.Post{Kind: duty.Digest, To: wren}
	for _, kind := range kinds {
		p.Items = append(p.Items, duty.Item{
			Found: duty.Found{Heap: h.ID, Name: h.Name, Job: advice.Job{
				Kind: kind, Title: "Turn it", Reason: "58 °C", Source: "common practice, no source", Urgency: advice.Today,
				Confidence: "sure", WaterL: 2.5, Done: "log turn",
			}},
			Said: evening(n).At, State: duty.Open,
		})
	}
	return p
}

// prepared arms a planned place and prepares the digest of an evening.
func (b *bench) prepared(h heap.Heap, n int, kinds ...string) {
	b.Helper()
	b.arm(n)
	first, err := b.store.Prepare(b.Context(), b.due(h.Place, n), digest(h, n, kinds...), evening(n+1), b.plan(h.Place).Rota)
	require.NoError(b, err)
	require.True(b, first)
}

func (b *bench) claim(owner string, now time.Time) []duty.Post {
	b.Helper()
	posts, err := b.store.Claim(b.Context(), owner, now, lease, all)
	require.NoError(b, err)
	return posts
}

// claimed is the one post that can be claimed.
func (b *bench) claimed(owner string, now time.Time) duty.Post {
	b.Helper()
	posts := b.claim(owner, now)
	require.Len(b, posts, 1)
	return posts[0]
}

// sent prepares, claims and sends the digest of an evening.
func (b *bench) sent(h heap.Heap, n int, kinds ...string) duty.Post {
	b.Helper()
	b.prepared(h, n, kinds...)
	p := b.claimed("one", evening(n).At)
	require.NoError(b, b.store.Sent(b.Context(), p, "message", evening(n).At))
	return b.post(p)
}

// post reads a post anew.
func (b *bench) post(p duty.Post) duty.Post {
	b.Helper()
	p, err := b.store.Post(b.Context(), p.Place, p.ID)
	require.NoError(b, err)
	return p
}

func (b *bench) missed(at heap.Place) []duty.Date {
	b.Helper()
	days, err := b.store.Missed(b.Context(), at)
	require.NoError(b, err)
	return days
}

func (b *bench) outdated(now time.Time) []duty.Post {
	b.Helper()
	posts, err := b.store.Outdated(b.Context(), now, lease, all)
	require.NoError(b, err)
	return posts
}

// done is what somebody who did a job says of its item.
func done(by heap.Person) duty.Item {
	return duty.Item{State: duty.Done, By: by, At: evening(0).At.Add(time.Hour)}
}

func turned(h heap.Heap) heap.Entry { return entry(h, 7*time.Hour, heap.Turned{}) }
