package gauge

import (
	"context"
	"os"
	"time"

	"heapside/bot/discord"
	"heapside/calc/duty"
	"heapside/commands"
	"heapside/reminders"
	"heapside/reminders/weather"
)

// readIn is how long the record may take to answer (own choice: a look at it
// takes milliseconds).
const readIn = time.Second

// state is how everything stood when somebody looked.
type state struct {
	at time.Time

	link   discord.Link
	counts reminders.Stats
	passed time.Time

	commands, suggestions commands.TurnedAway
	weather               []weather.Stats

	unread      bool      // the record did not answer: nothing is known of what follows
	waiting     int       // posts
	oldest      time.Time // of those; zero when there is none
	unreachable map[duty.Trouble]int

	files   map[string]int64 // sizes of what the record consists of
	changed time.Time        // the last of them
}

// look finds out how everything stands. It waits for the record no longer than
// readIn.
func (s Sources) look(ctx context.Context) state {
	now := state{at: s.Now(), link: s.Gateway.Link(), counts: s.Reminders.Stats(), passed: s.Reminders.Passed(), files: map[string]int64{}}
	now.commands, now.suggestions = s.Limits.TurnedAway()
	if s.Weather != nil {
		now.weather = s.Weather.Stats()
	}
	for name, path := range map[string]string{"record": s.Path, "wal": s.Path + "-wal"} {
		if info, err := os.Stat(path); err == nil { // the second comes and goes
			now.files[name] = info.Size()
			if info.ModTime().After(now.changed) {
				now.changed = info.ModTime()
			}
		}
	}
	now.unread = now.ask(ctx, s.Record) != nil
	return now
}

// ask asks the record.
func (s *state) ask(ctx context.Context, r Record) (err error) {
	ctx, cancel := context.WithTimeout(ctx, readIn)
	defer cancel()
	if s.waiting, s.oldest, err = r.Backlog(ctx, s.at); err != nil {
		return err
	}
	s.unreachable, err = r.Troubled(ctx)
	return err
}
