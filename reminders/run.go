package reminders

import (
	"context"
	"errors"
	"fmt"
	"log/slog"

	"github.com/robfig/cron/v3"
)

// Run makes a pass every two seconds until the context ends, which is no error,
// or the platform refuses our token, which is ErrToken. What is due stands in
// the record; the timer only asks.
func (e *Engine) Run(ctx context.Context) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	log := cronLog{e.log}
	// In this order a pass that panicked does not count as still running.
	timer := cron.New(cron.WithLogger(log), cron.WithChain(cron.SkipIfStillRunning(log), cron.Recover(log)))
	timer.Schedule(cron.Every(tick), cron.FuncJob(func() {
		switch err := e.Tick(ctx); {
		case errors.Is(err, ErrToken):
			cancel(ErrToken)
		case err != nil && ctx.Err() == nil:
			e.log.Error("reminders: pass", "err", err)
		}
	}))
	timer.Start()
	<-ctx.Done()
	<-timer.Stop().Done() // what is under way is brought to its end
	if err := context.Cause(ctx); errors.Is(err, ErrToken) {
		return fmt.Errorf("reminders: %w", err)
	}
	return nil
}

// cronLog hears the timer: its errors are ours, the rest is noise.
type cronLog struct{ log *slog.Logger }

// Info implements cron.Logger.
func (l cronLog) Info(msg string, about ...any) { l.log.Debug("reminders: timer: "+msg, about...) }

// Error implements cron.Logger.
func (l cronLog) Error(err error, msg string, about ...any) {
	l.log.Error("reminders: timer: "+msg, append(about, "err", err)...)
}
