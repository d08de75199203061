package storetest

import (
	"fmt"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// walk is one program on its way from a changed plan to an edited message. What
// it read it holds in memory only; said is what the channel saw.
type walk struct {
	*bench
	heap  heap.Heap
	owner string
	now   time.Time
	due   []storage.Due
	posts []duty.Post
	edits []duty.Post
	said  *[]duty.Date
}

// steps are the calls in their order, and the message between two of them.
var steps = []struct {
	name string
	do   func(*walk)
}{
	{"stale", func(w *walk) {
		var err error
		w.due, err = w.store.Stale(w.Context(), all)
		require.NoError(w, err)
	}},
	{"arm", func(w *walk) {
		for _, d := range w.due {
			next := evening(0)
			if !d.IsZero() {
				next = d.Occurrence
			}
			require.NoError(w, w.store.Arm(w.Context(), d, next))
		}
	}},
	{"due", func(w *walk) {
		var err error
		w.due, err = w.store.Due(w.Context(), w.now, all)
		require.NoError(w, err)
	}},
	{"prepare", func(w *walk) {
		for _, d := range w.due {
			_, err := w.store.Prepare(w.Context(), d, digest(w.heap, 0, "turn"), evening(1), w.plan(d.Place).Rota)
			require.NoError(w, err)
		}
	}},
	{"claim", func(w *walk) { w.posts = w.claim(w.owner, w.now) }},
	{"message", func(w *walk) {
		for _, p := range w.posts {
			*w.said = append(*w.said, p.Day)
		}
	}},
	{"sent", func(w *walk) {
		for _, p := range w.posts {
			require.NoError(w, w.store.Sent(w.Context(), p, "message", w.now))
		}
	}},
	{"press", func(w *walk) {
		for _, p := range w.posts {
			_, _, err := w.store.Settle(w.Context(), bays, p.Items[0].ID, done(wren), turned(w.heap))
			require.NoError(w, err)
		}
	}},
	{"outdated", func(w *walk) { w.edits = w.outdated(w.now) }},
	{"shown", func(w *walk) {
		for _, p := range w.edits {
			require.NoError(w, w.store.Shown(w.Context(), p))
		}
	}},
}

// stepTests let one program stop after each step, and another one begin anew
// from what is stored.
var stepTests = func() map[string]func(*bench) {
	tests := map[string]func(*bench){}
	for n, step := range steps {
		tests[fmt.Sprintf("a program that stops before %s leaves no reminder unsaid", step.name)] = func(b *bench) { goOn(b, n) }
	}
	return tests
}()

func goOn(b *bench, stops int) {
	h := b.start(bays, "North Bay")
	b.planned(bays)
	var said []duty.Date
	first := &walk{bench: b, heap: h, owner: "one", now: evening(0).At, said: &said}
	for _, step := range steps[:stops] {
		step.do(first)
	}
	second := &walk{bench: b, heap: h, owner: "two", now: evening(0).At.Add(lease), said: &said}
	for _, step := range steps {
		step.do(second)
	}

	want := []duty.Date{evening(0).Day}
	if stops > 0 && steps[stops-1].name == "message" {
		// Only the platform, by the nonce, can tell that it was said before.
		want = append(want, evening(0).Day)
	}
	assert.Equal(b, want, said)
	items, err := b.store.Items(b.Context(), bays, duty.Date{})
	require.NoError(b, err)
	require.Len(b, items, 1)
	if steps[stops].name == "press" {
		assert.Equal(b, duty.Open, items[0].State, "nobody pressed")
	} else {
		assert.Equal(b, duty.Done, items[0].State)
		assert.Len(b, b.entries(h), 2)
	}
	assert.Empty(b, b.claim("three", evening(0).At.Add(2*lease)))
	assert.Empty(b, b.outdated(evening(0).At.Add(2*lease)))
	assert.Equal(b, evening(1), b.standing(bays).Next)
}
