package discord

import (
	"bytes"
	"errors"
	"log/slog"
	"testing"

	"github.com/bwmarrin/discordgo"
	"github.com/stretchr/testify/assert"
)

const botToken = "MTIz.abc-def.ghi_jkl"

func newLog(out *bytes.Buffer) *slog.Logger {
	return slog.New(redactor{slog.NewTextHandler(out, nil), botToken})
}

// TestSecretsStayOutOfTheLog: every way a secret can reach a log line.
func TestSecretsStayOutOfTheLog(t *testing.T) {
	const interaction = "aW50ZXJhY3Rpb246MTIz"
	for name, write := range map[string]func(*slog.Logger){
		"in the message":      func(l *slog.Logger) { l.Warn("token " + botToken) },
		"in a value":          func(l *slog.Logger) { l.Warn("m", "k", "x"+botToken+"y") },
		"in an error":         func(l *slog.Logger) { l.Warn("m", "err", errors.New("Bot "+botToken)) },
		"in a group":          func(l *slog.Logger) { l.Warn("m", slog.Group("g", "k", botToken)) },
		"in attributes":       func(l *slog.Logger) { l.With("k", botToken).WithGroup("g").Warn("m") },
		"in a callback":       func(l *slog.Logger) { l.Warn("m", "url", "https://h/api/v9/interactions/1/"+interaction+"/callback") },
		"in a webhook":        func(l *slog.Logger) { l.Warn("m", "url", "https://h/webhooks/1/"+interaction+"/messages/@original") },
		"in a webhook alone":  func(l *slog.Logger) { l.Warn("m", "url", `Post "https://h/webhooks/1/`+interaction+`?wait=true": EOF`) },
		"in a packet":         func(l *slog.Logger) { l.Warn("m", "data", `{"token":"`+interaction+`"}`) },
		"in a printed struct": func(l *slog.Logger) { l.Warn("m", "data", `Identify{Token:"`+interaction+`"}`) },
		"from the library": func(l *slog.Logger) {
			fromLibrary(l, discordgo.LogWarning, "first packet:\n%#v\n", []any{&discordgo.Event{Type: "INTERACTION_CREATE", RawData: []byte(interaction)}})
		},
	} {
		t.Run(name, func(t *testing.T) {
			var out bytes.Buffer
			write(newLog(&out))
			assert.Contains(t, out.String(), "level=WARN")
			for _, secret := range []string{botToken, interaction, "0x61, 0x57"} { // the last: bytes spelt out
				assert.NotContains(t, out.String(), secret)
			}
		})
	}
}

func TestLibraryChatterIsDropped(t *testing.T) {
	var out bytes.Buffer
	fromLibrary(newLog(&out), discordgo.LogDebug, "Identify %s", []any{botToken})
	fromLibrary(newLog(&out), discordgo.LogInformational, "called", nil)
	assert.Empty(t, out.String())
}

func TestNumbersStayNumbers(t *testing.T) {
	var out bytes.Buffer
	newLog(&out).Info("registered", "count", 12)
	assert.Contains(t, out.String(), "count=12")
}
