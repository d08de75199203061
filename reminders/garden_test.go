package reminders

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/storage"
)

// The invented garden.
var (
	bays   = heap.Place{Guild: "millrace-lane", Channel: "bays"}
	bins   = heap.Place{Guild: "millrace-lane", Channel: "bins"}
	wren   = heap.Person{ID: "7", Name: "Wren"}
	odalys = heap.Person{ID: "8", Name: "Odalys"}
	noon   = time.Date(2026, 5, 4, 12, 0, 0, 0, time.UTC) // a Monday
	six    = noon.Add(6 * time.Hour)
	monday = duty.On(noon)
)

// garden is a record, a clock, a platform and an engine between them.
type garden struct {
	t      *testing.T
	db     *storage.DB
	mu     sync.Mutex
	now    time.Time
	jobs   map[heap.Place][]duty.Found
	voice  *loud
	engine *Engine
	bay    heap.Heap
}

func newGarden(t *testing.T) *garden {
	g := &garden{t: t, db: openRecord(t, filepath.Join(recordDir(t), "garden.db")), now: noon, jobs: map[heap.Place][]duty.Found{}, voice: &loud{}}
	g.engine = g.another("a", slog.New(slog.DiscardHandler))
	g.bay = g.start(bays, "North Bay")
	g.start(bins, "Kitchen Bin")
	return g
}

// channel is one of many.
func (g *garden) channel(n int) heap.Place {
	return heap.Place{Guild: "millrace-lane", Channel: fmt.Sprint("bay ", n)}
}

func (g *garden) start(at heap.Place, name string) heap.Heap {
	h, err := g.db.StartHeap(g.t.Context(), heap.Heap{Place: at, Name: name}, wren, noon.AddDate(0, 0, -10))
	require.NoError(g.t, err)
	return h
}

// recordDir is a directory for records, in memory where the machine has such.
func recordDir(t testing.TB) string {
	const shared = "/dev/shm"
	if info, err := os.Stat(shared); err != nil || !info.IsDir() {
		return t.TempDir()
	}
	dir, err := os.MkdirTemp(shared, "reminders")
	if err != nil {
		return t.TempDir()
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

func openRecord(t testing.TB, path string) *storage.DB {
	db, err := storage.Open(context.Background(), path)
	require.NoError(t, err)
	t.Cleanup(func() { db.Close() })
	return db
}

// another is one more engine over the garden's record.
func (g *garden) another(owner string, log *slog.Logger) *Engine {
	e := New(g.db, g, g.voice, Config{Now: g.clock, Owner: owner, Log: log})
	e.foresee = atOnce
	return e
}

// atOnce foresees work at any time: the jobs of these tests are not those that
// the record calls for.
func atOnce(_ heap.State, _ measure.Measures, from time.Time, _ time.Duration) time.Time {
	return from
}

func (g *garden) clock() time.Time {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.now
}

func (g *garden) set(now time.Time) {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.now = now
}

// Jobs implements Finder.
func (g *garden) Jobs(_ context.Context, at heap.Place, _ time.Time) ([]duty.Found, error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.jobs[at], nil
}

func (g *garden) turn() duty.Found {
	return duty.Found{Heap: g.bay.ID, Name: g.bay.Name, Job: advice.Job{Kind: advice.Turn, Title: "Turn it", Urgency: advice.Today, Done: "log turn"}}
}

// plan sets how a place is reminded, by default at six each day.
func (g *garden) plan(at heap.Place, change ...func(*duty.Plan)) {
	_, err := g.db.ChangePlan(g.t.Context(), at, wren, noon, func(p *duty.Plan) error {
		*p = duty.Usual()
		for _, c := range change {
			c(p)
		}
		return nil
	})
	require.NoError(g.t, err)
}

func rota(people ...heap.Person) func(*duty.Plan) {
	return func(p *duty.Plan) {
		for _, who := range people {
			p.Rota.Members = append(p.Rota.Members, duty.Member{Person: who, Joined: monday.Add(-100)})
		}
	}
}

// at sets the clock and makes a pass.
func (g *garden) at(now time.Time) {
	g.set(now)
	require.NoError(g.t, g.engine.Tick(g.t.Context()))
}

// loud is a platform that takes everything, but for what it is told to answer.
type loud struct {
	mu      sync.Mutex
	answers []error // of the next posts and edits; nil takes them
	nonces  map[string]string
	said    []duty.Post // with Message set
	shown   map[string]duty.Post
	tries   int
	delay   time.Duration
	took    func(duty.Post) // called with each new message
}

var errCut = errors.New("the connection was cut")

func (l *loud) next() (err error) {
	l.tries++
	if len(l.answers) > 0 {
		err, l.answers = l.answers[0], l.answers[1:]
	}
	return err
}

// heard is what was posted so far.
func (l *loud) heard() []duty.Post {
	l.mu.Lock()
	defer l.mu.Unlock()
	return slices.Clone(l.said)
}

// Post implements Voice.
func (l *loud) Post(_ context.Context, p duty.Post, nonce string) (string, error) {
	time.Sleep(l.delay)
	l.mu.Lock()
	defer l.mu.Unlock()
	err := l.next()
	if err != nil && !errors.Is(err, errCut) {
		return "", err
	}
	if id, ok := l.nonces[nonce]; ok {
		return id, err
	}
	p.Message = fmt.Sprint("m", len(l.said)+1)
	if l.nonces == nil {
		l.nonces, l.shown = map[string]string{}, map[string]duty.Post{}
	}
	l.nonces[nonce], l.shown[p.Message] = p.Message, p
	l.said = append(l.said, p)
	if l.took != nil {
		l.took(p)
	}
	return p.Message, err
}

// Edit implements Voice.
func (l *loud) Edit(_ context.Context, p duty.Post) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := l.next(); err != nil {
		return err
	}
	l.shown[p.Message] = p
	return nil
}

// logged is a log that keeps what was written.
func logged(w io.Writer) *slog.Logger { return slog.New(slog.NewTextHandler(w, nil)) }
