package reminders

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"heapside/calc/duty"
	"heapside/storage"
)

// years are zones and the day a year in them begins: each has something to
// stumble over.
var years = []struct {
	zone  string
	begin duty.Date
}{
	{"America/New_York", duty.Date{Year: 2026, Month: time.January, Day: 1}},
	{"Europe/Berlin", duty.Date{Year: 2026, Month: time.January, Day: 1}},
	{"Asia/Beirut", duty.Date{Year: 2026, Month: time.January, Day: 1}},         // midnight is left out in March
	{"Australia/Lord_Howe", duty.Date{Year: 2026, Month: time.January, Day: 1}}, // by half an hour
	{"America/Sao_Paulo", duty.Date{Year: 2018, Month: time.January, Day: 1}},   // midnight, in November
	{"Pacific/Apia", duty.Date{Year: 2011, Month: time.July, Day: 1}},           // has no 30 December 2011
	{"Asia/Kathmandu", duty.Date{Year: 2026, Month: time.January, Day: 1}},
	{"UTC", duty.Date{Year: 2026, Month: time.January, Day: 1}},
}

// year is one invented year of one garden.
type year struct {
	t        *testing.T
	rng      *rand.Rand
	zone     string
	path     string
	db       *storage.DB // of the people, and of the first engine
	at, end  time.Time   // as it really is
	skew     time.Duration
	channels []*channel
	running  []*process
	platform *platform
	oracle   *oracle
	events   []event
	wakes    []time.Time // by the clock, soonest first: when an engine has something to do
	busy     bool        // more happens than in most
	calm     bool        // nothing goes wrong any more
	depth    int         // engines that stand in the middle of a post
	told     bool

	items   map[int64]*said
	presses int
	passes  int
	crashes map[string]int
	faults  []string
}

type event struct {
	at time.Time
	do func()
}

func newYear(t *testing.T, seed uint64) *year {
	y := years[seed%uint64(len(years))]
	s := &year{t: t, rng: rand.New(rand.NewPCG(seed, 1)), zone: y.zone, crashes: map[string]int{}, items: map[int64]*said{}}
	s.path = filepath.Join(recordDir(t), "garden.db")
	s.db = openRecord(t, s.path)
	s.at = time.Date(y.begin.Year, y.begin.Month, y.begin.Day, 0, 0, 0, 0, time.UTC)
	s.end = s.at.AddDate(1, 0, 0)
	s.busy = seed%40 == 0
	s.platform = newPlatform(s)
	s.oracle = newOracle(s)
	return s
}

func (s *year) clock() time.Time { return s.at.Add(s.skew).UTC() }

func (s *year) fault(format string, args ...any) {
	if len(s.faults) < 5 {
		s.faults = append(s.faults, s.clock().Format("2006-01-02 15:04:05")+": "+fmt.Sprintf(format, args...))
	}
	s.tell("FAULT: "+format, args...)
}

func (s *year) tell(format string, args ...any) {
	if s.told {
		s.t.Logf("%s %s", s.clock().Format("2006-01-02 15:04:05"), fmt.Sprintf(format, args...))
	}
}

// chance is true so many times of a hundred.
func (s *year) chance(percent float64) bool { return s.rng.Float64()*100 < percent }

// span is a time between two, short ones as likely as long ones.
func (s *year) span(low, high time.Duration) time.Duration {
	return low + time.Duration(s.rng.Float64()*s.rng.Float64()*float64(high-low))
}

// later calls do after a while.
func (s *year) later(after time.Duration, do func()) {
	e := event{s.at.Add(after), do}
	n, _ := slices.BinarySearchFunc(s.events, e.at, func(e event, at time.Time) int { return e.at.Compare(at) })
	s.events = slices.Insert(s.events, n, e)
}

// wake lets the engines make a pass when the clock shows a time.
func (s *year) wake(at time.Time) {
	if at.IsZero() {
		return
	}
	if n, ok := slices.BinarySearchFunc(s.wakes, at, time.Time.Compare); !ok {
		s.wakes = slices.Insert(s.wakes, n, at)
	}
}

// play lets the year pass, and then some quiet days in which all comes to rest.
func (s *year) play() {
	s.settleIn()
	s.boot(s.db)
	s.until(s.end)
	s.calm = true
	s.oracle.passes(s.clock(), 0)
	s.platform.heal()
	s.skew = 0
	s.events = nil
	for _, p := range s.running {
		p.fuse = -1
	}
	if len(s.running) == 0 {
		s.boot(s.db)
	}
	s.until(s.end.AddDate(0, 0, 2))
	s.oracle.close()
	for _, p := range s.running {
		s.must(p.DB.Close())
	}
	s.must(s.db.Close())
	s.must(os.RemoveAll(filepath.Dir(s.path)))
}

// until plays on.
func (s *year) until(end time.Time) {
	for s.at.Before(end) {
		next := end
		if len(s.events) > 0 && s.events[0].at.Before(next) {
			next = s.events[0].at
		}
		if at, ok := s.oracle.next(); ok && at.Before(next) {
			next = at
		}
		pass := false
		if len(s.wakes) > 0 && len(s.running) > 0 {
			if at := s.wakes[0].Add(-s.skew); at.Before(next) || at.Equal(next) {
				next, pass = at, true
			}
		}
		s.advance(next)
		for len(s.events) > 0 && !s.events[0].at.After(s.at) {
			s.idle()
			e := s.events[0]
			s.events = s.events[1:]
			e.do()
			s.wake(s.clock())
		}
		if pass {
			s.advance(s.at.Add(time.Duration(s.rng.IntN(int(tick))))) // the engines look every two seconds
			s.pass()
		}
	}
}

// idle stands for the passes, every two seconds, in which the engines found
// nothing: they know that nothing changed until now.
func (s *year) idle() {
	for _, p := range s.running {
		if !p.engine.armed.IsZero() {
			p.engine.armed = s.clock()
		}
	}
}

// advance lets time pass until it is at, in which nothing happens.
func (s *year) advance(at time.Time) {
	if !at.After(s.at) {
		return
	}
	from := s.clock()
	s.oracle.passes(from, at.Sub(s.at))
	s.at = at
	s.oracle.reach(from, s.clock())
}

// pass lets every engine look.
func (s *year) pass() {
	n := 0
	for n < len(s.wakes) && !s.wakes[n].After(s.clock()) {
		n++
	}
	s.wakes = s.wakes[n:]
	for _, p := range slices.Clone(s.running) {
		if s.depth == 0 || !p.busy {
			p.tick()
		}
	}
	s.running = slices.DeleteFunc(s.running, func(p *process) bool { return p.dead })
}

// step sets the clock wrong, or by that much right again.
func (s *year) step(by time.Duration) {
	from := s.clock()
	s.skew += by
	s.oracle.setClock()
	s.oracle.reach(from, s.clock())
	s.tell("the clock was set by %v", by)
	s.wake(s.clock())
}

// settleIn starts the garden's channels and what will happen in the year.
func (s *year) settleIn() {
	s.channels = append(s.channels, newChannel(s, "bays"))
	if s.busy || s.chance(12) {
		s.channels = append(s.channels, newChannel(s, "bins"))
	}
	for _, c := range s.channels {
		c.saveZone(s.zone)
		c.changePlan(func(p *duty.Plan) { *p = c.anyPlan() })
		c.live()
	}
	s.later(s.span(0, 100*24*time.Hour), s.setClockWrong)
	s.later(s.span(0, 60*24*time.Hour), s.second)
}

func (s *year) setClockWrong() {
	by := []time.Duration{time.Hour, -time.Hour, 24 * time.Hour, -24 * time.Hour}[s.rng.IntN(4)]
	s.step(by)
	s.later(s.span(time.Minute, 30*time.Hour), func() { s.step(-by) })
	s.later(s.span(48*time.Hour, 300*24*time.Hour), s.setClockWrong)
}

// second lets another engine work over the same record for a while.
func (s *year) second() {
	db, err := storage.Open(context.Background(), s.path)
	s.must(err)
	p := s.boot(db)
	p.lives = 1
	s.later(s.span(time.Hour, 8*24*time.Hour), func() {
		p.dead = true
		s.running = slices.DeleteFunc(s.running, func(p *process) bool { return p.dead })
		s.must(db.Close())
		s.later(s.span(24*time.Hour, 100*24*time.Hour), s.second)
	})
}
