package main

import (
	"fmt"
	"runtime"
	"sync"
	"testing"
	"time"

	"heapside/bot/discord/discordtest"
)

// BenchmarkServeLoad is serve under 200 interactions a second from 100 servers
// of eight people each, who ask, log and press; none is lost, or the benchmark
// fails. Run it with -benchtime 10000x for fifty seconds of that. kB-grown is
// what stays on the heap after it, the stand-in's own left out.
func BenchmarkServeLoad(b *testing.B) {
	const every = time.Second / 200
	p := discordtest.New(b)
	serving(b, p)
	p.Registered()
	for g := range loadGuilds {
		p.Command(loader(g), "heap start", map[string]string{"name": "North Bay"}).Answer()
	}
	ask := func(i int) time.Duration {
		what := loadCommands[i%len(loadCommands)]
		began := time.Now()
		p.Command(loader(i), what.path, what.options).Answer()
		return time.Since(began)
	}
	var mu sync.Mutex
	var took []time.Duration
	var people sync.WaitGroup
	p.Forget()
	before := live()
	b.ResetTimer()
	begun := time.Now()
	for i := range b.N {
		<-time.After(time.Until(begun.Add(time.Duration(i) * every))) // what comes late on a busy machine is caught up with
		people.Go(func() {
			d := ask(i)
			mu.Lock()
			took = append(took, d)
			mu.Unlock()
		})
	}
	people.Wait()
	b.StopTimer()
	if len(took) != b.N || b.Failed() {
		b.Fatalf("%d of %d interactions were answered", len(took), b.N)
	}
	p.Forget()
	b.ReportMetric((live()-before)/1024, "kB-grown")
	reportQuantile(b, took, 0.5, "p50-ms")
	reportQuantile(b, took, 0.99, "p99-ms")
}

const loadGuilds, loadPeople = 100, 8

var loadCommands = []struct {
	path    string
	options map[string]string
}{
	{"log temp", map[string]string{"reading": "58"}}, {"heap list", nil}, {"mix", map[string]string{"what": "2 buckets of grass clippings"}},
	{"stock list", nil}, {"history", nil}, {"garden show", nil},
}

// loader is the i-th person of the load: the servers take turns.
func loader(i int) discordtest.Caller {
	i %= loadGuilds * loadPeople
	return discordtest.Caller{
		ID: fmt.Sprint(510000000000000000 + i), Name: fmt.Sprint("Member ", i),
		Guild: fmt.Sprint(620000000000000000 + i%loadGuilds), Channel: fmt.Sprint(630000000000000000 + i%loadGuilds),
	}
}

// live is what is on the heap after collecting it, in bytes.
func live() float64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc)
}
