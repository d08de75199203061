package reminders

import (
	"context"
	"flag"
	"fmt"
	"log/slog"
	"path/filepath"
	"runtime"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// heapsFlag keeps the largest record, which takes minutes to fill, for whoever
// asks for it.
var heapsFlag = flag.Int("heaps", 10_000, "the most heaps BenchmarkTick fills a record with")

// perChannel is how many heaps a channel of the benchmarks has.
const perChannel = 5

// crowd is a record of many channels, of which one in a hundred comes due at
// each of a hundred hours of a day.
type crowd struct {
	db    *storage.DB
	hours int
}

func newCrowd(b *testing.B, heaps int) *crowd {
	c := &crowd{db: openRecord(b, filepath.Join(recordDir(b), "garden.db")), hours: 100}
	ctx := b.Context()
	for n := range heaps / perChannel {
		at := heap.Place{Guild: fmt.Sprint("guild ", n/10), Channel: fmt.Sprint(n)}
		for i := range perChannel {
			c.heap(ctx, b, at, i)
		}
		_, err := c.db.ChangePlan(ctx, at, wren, noon, func(p *duty.Plan) error {
			*p = duty.Plan{On: true, At: duty.Clock(10 * (n % c.hours)), Rota: duty.Rota{Members: []duty.Member{{Person: wren, Joined: monday.Add(-50)}}}}
			return nil
		})
		require.NoError(b, err)
	}
	return c
}

// heap starts a heap with something on record: every second one calls for work.
func (c *crowd) heap(ctx context.Context, b *testing.B, at heap.Place, i int) {
	h, err := c.db.StartHeap(ctx, heap.Heap{Place: at, Name: fmt.Sprint("Bay ", i)}, wren, noon.AddDate(0, 0, -20))
	require.NoError(b, err)
	var entries []heap.Entry
	put := func(days int, p heap.Payload) {
		when := noon.AddDate(0, 0, -days)
		entries = append(entries, heap.Entry{Heap: h.ID, At: when, Logged: when, By: odalys, Payload: p})
	}
	put(20, heap.Added{Material: "grass", Name: "grass clippings", Said: "10 buckets", VolumeL: 120, MassKg: 48})
	put(20, heap.Added{Material: "leaves", Name: "dry leaves", Said: "30 buckets", VolumeL: 360, MassKg: 36})
	put(12, heap.Temp{C: 62, Said: "62"})
	put(5, heap.Turned{})
	if i%2 == 0 {
		put(1, heap.Temp{C: 66, Said: "66"})
		put(1, heap.Feel{Squeeze: heap.Crumbles})
	}
	_, err = c.db.Append(ctx, at, entries...)
	require.NoError(b, err)
}

// Jobs implements Finder over the record, as the assistant does without a model.
func (c *crowd) Jobs(ctx context.Context, at heap.Place, now time.Time) ([]duty.Found, error) {
	heaps, err := c.db.Heaps(ctx, at)
	var found []duty.Found
	for _, h := range heaps {
		entries, err := c.db.Entries(ctx, at, h.ID)
		if err != nil {
			return nil, err
		}
		for _, job := range advice.Find(advice.Case{State: heap.Read(h, entries, now)}) {
			found = append(found, duty.Found{Heap: h.ID, Name: h.Name, Job: job})
		}
	}
	return found, err
}

// BenchmarkTick is one pass over many heaps, one channel in a hundred of which
// has come due: every reminder is composed, claimed, posted and written down.
func BenchmarkTick(b *testing.B) {
	for _, heaps := range []int{1_000, 10_000, 100_000} {
		b.Run(fmt.Sprint(heaps), func(b *testing.B) {
			if heaps > *heapsFlag {
				b.Skipf("more than -heaps %d", *heapsFlag)
			}
			c := newCrowd(b, heaps)
			midnight := noon.Add(12 * time.Hour)
			now := midnight.Add(-time.Hour)
			voice := &loud{}
			e := New(c.db, c, voice, Config{Now: func() time.Time { return now }, Log: slog.New(slog.DiscardHandler)})
			began := time.Now()
			require.NoError(b, e.Tick(b.Context()))
			armed := time.Since(began)
			now = midnight
			runtime.GC()
			peak := uint64(0)
			e.hook = sampled(&peak)
			said := len(voice.said)
			for b.Loop() {
				require.NoError(b, e.Tick(b.Context()))
				now = now.Add(10 * time.Minute)
				if now.Hour() == 16 && now.Minute() == 40 {
					now = now.Add(24*time.Hour - 16*time.Hour - 40*time.Minute)
				}
			}
			b.ReportMetric(float64(len(voice.said)-said)/float64(b.N), "posts/op")
			b.ReportMetric(float64(peak)/(1<<20), "peak-MiB")
			b.ReportMetric(armed.Seconds(), "s-to-arm-all")
		})
	}
}

// sampled is a hook that notes the largest heap of the program now and then.
func sampled(peak *uint64) func(string) {
	var mu sync.Mutex
	steps := 0
	return func(string) {
		mu.Lock()
		defer mu.Unlock()
		if steps++; steps%100 == 0 {
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			*peak = max(*peak, m.HeapAlloc)
		}
	}
}
