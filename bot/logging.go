package main

import (
	"fmt"
	"log/slog"
	"strings"
)

const (
	logEnv      = "HEAPSIDE_LOG"
	logLevelEnv = "HEAPSIDE_LOG_LEVEL"
)

// serverLog is the log of serve on standard error, as the settings want it.
// What people write is in none of its lines; the adapter takes secrets out.
func (m *Main) serverLog(verbose bool) (*slog.Logger, error) {
	var level slog.Level
	if said := strings.TrimSpace(m.setting(logLevelEnv)); said != "" {
		if err := level.UnmarshalText([]byte(said)); err != nil {
			return nil, &usageError{fmt.Sprintf("%s is “%s”; say debug, info, warn or error.", logLevelEnv, said)}
		}
	}
	if verbose {
		level = slog.LevelDebug
	}
	options := &slog.HandlerOptions{Level: level}
	switch said := strings.ToLower(strings.TrimSpace(m.setting(logEnv))); said {
	case "", "text":
		return slog.New(slog.NewTextHandler(m.Err, options)), nil
	case "json":
		return slog.New(slog.NewJSONHandler(m.Err, options)), nil
	default:
		return nil, &usageError{fmt.Sprintf("%s is “%s”; say text or json.", logEnv, said)}
	}
}
