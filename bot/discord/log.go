package discord

import (
	"context"
	"fmt"
	"log/slog"
	"regexp"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/bwmarrin/discordgo"
)

// secrets matches what must not reach a log: bot credentials, the tokens of
// interactions in addresses (whoever has one can answer in our name for 15
// minutes) and token fields of packets.
var secrets = []struct {
	pattern *regexp.Regexp
	with    string
}{
	{regexp.MustCompile(`(/interactions/[^/\s"]+/)[^/\s"?]+`), "${1}REDACTED"},
	{regexp.MustCompile(`(/webhooks/[^/\s"]+/)[^/\s"?]+`), "${1}REDACTED"},
	{regexp.MustCompile(`\bBot [\w.-]+`), "Bot REDACTED"},
	{regexp.MustCompile(`(?i)("?token"?\s*[:=]\s*)"[^"]*"`), `${1}"REDACTED"`},
}

// redactor is a slog.Handler that takes secrets out of messages and values
// before another handler writes them.
type redactor struct {
	slog.Handler
	token string
}

// Handle implements slog.Handler.
func (r redactor) Handle(ctx context.Context, rec slog.Record) error {
	clean := slog.NewRecord(rec.Time, rec.Level, r.redact(rec.Message), rec.PC)
	rec.Attrs(func(a slog.Attr) bool {
		clean.AddAttrs(r.attr(a))
		return true
	})
	return r.Handler.Handle(ctx, clean)
}

// WithAttrs implements slog.Handler.
func (r redactor) WithAttrs(attrs []slog.Attr) slog.Handler {
	clean := make([]slog.Attr, len(attrs))
	for i, a := range attrs {
		clean[i] = r.attr(a)
	}
	return redactor{r.Handler.WithAttrs(clean), r.token}
}

// WithGroup implements slog.Handler.
func (r redactor) WithGroup(name string) slog.Handler {
	return redactor{r.Handler.WithGroup(name), r.token}
}

func (r redactor) attr(a slog.Attr) slog.Attr {
	value := a.Value.Resolve()
	switch value.Kind() {
	case slog.KindString, slog.KindAny:
		return slog.String(a.Key, r.redact(value.String()))
	case slog.KindGroup:
		members := make([]any, 0, len(value.Group()))
		for _, member := range value.Group() {
			members = append(members, r.attr(member))
		}
		return slog.Group(a.Key, members...)
	}
	return a
}

func (r redactor) redact(text string) string {
	if r.token != "" {
		text = strings.ReplaceAll(text, r.token, "REDACTED")
	}
	for _, s := range secrets {
		text = s.pattern.ReplaceAllString(text, s.with)
	}
	return text
}

// The client library logs through one variable of its package, without saying
// which session speaks. It is set once, before the first session exists, and
// hands on to the log of the newest adapter.
var (
	libraryLog     atomic.Pointer[slog.Logger]
	installLibrary sync.Once
)

func listenToLibrary(log *slog.Logger) {
	libraryLog.Store(log)
	installLibrary.Do(func() {
		discordgo.Logger = func(level, _ int, format string, args ...any) {
			fromLibrary(libraryLog.Load(), level, format, args)
		}
	})
}

// fromLibrary writes a line of the library's. Everything it says is a warning
// to us: what it calls an error is one it goes on to repair.
func fromLibrary(log *slog.Logger, level int, format string, args []any) {
	if level > discordgo.LogWarning {
		return
	}
	clean := make([]any, len(args))
	for i, arg := range args {
		clean[i] = arg
		if e, ok := arg.(*discordgo.Event); ok { // printed whole it spells its tokens in bytes
			clean[i] = "(nothing)"
			if e != nil {
				clean[i] = fmt.Sprintf("op %d %s", e.Operation, e.Type)
			}
		}
	}
	const longest = 500
	log.Warn("gateway library", "said", cut(strings.TrimSpace(fmt.Sprintf(format, clean...)), longest))
}
