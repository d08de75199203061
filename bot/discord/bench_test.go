package discord_test

import (
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"
)

// BenchmarkPost measures a message that nobody asked for, from the call to the
// id that comes back, checks of the stand-in included, one after the other as
// the engine sends them.
func BenchmarkPost(b *testing.B) {
	s := poster(b)
	took := make([]time.Duration, 0, b.N)
	for i := 0; b.Loop(); i++ {
		begun := time.Now()
		if _, err := s.adapter.Post(b.Context(), wren.Channel, duty(), fmt.Sprint(i)); err != nil {
			b.Fatal(err)
		}
		took = append(took, time.Since(begun))
	}
	reportQuantiles(b, took)
}

// BenchmarkInteractions measures from the event at the gateway to the answer
// at the platform's door, checks of the stand-in included. b.N commands come
// from eight people at once; run it with -benchtime 1000x for a thousand.
func BenchmarkInteractions(b *testing.B) {
	s := play(b, nil)
	s.ready(b)
	var mu sync.Mutex
	took := make([]time.Duration, 0, b.N)
	work := make(chan struct{})
	var people sync.WaitGroup
	b.ResetTimer()
	for range 8 {
		people.Go(func() {
			for range work {
				begun := time.Now()
				s.Command(wren, "mix", map[string]string{"what": "2 buckets of grass"}).Answer()
				d := time.Since(begun)
				mu.Lock()
				took = append(took, d)
				mu.Unlock()
			}
		})
	}
	for range b.N {
		work <- struct{}{}
	}
	close(work)
	people.Wait()
	b.StopTimer()
	reportQuantiles(b, took)
}

func reportQuantiles(b *testing.B, took []time.Duration) {
	b.Helper()
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds())/1000, "p99-ms")
	b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "p50-ms")
}
