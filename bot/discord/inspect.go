package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"heapside/commands"
	"heapside/reminders"
)

// Bounds of a look at an account. Own choices.
const (
	lookIn       = 10 * time.Second // one question
	maxQuestions = 150              // of one Inspector
	maxSeen      = 4 << 20          // bytes of an answer: commands in all languages, many roles
)

// ErrEnough ends a look that would ask the platform too much.
var ErrEnough = fmt.Errorf("%d questions are enough for one time", maxQuestions)

// Inspector looks at an account from outside: what is registered, and what the
// bot may do where. It opens no gateway and asks one thing at a time, once. When
// the platform asks to wait, refuses the token or does not answer properly, it
// asks nothing more, and everything after that returns the same error. Use it
// from one goroutine.
type Inspector struct {
	client  *http.Client
	session *discordgo.Session // for its headers only, never opened
	now     func() time.Time
	wanted  []*discordgo.ApplicationCommand

	asked    int
	stopped  error
	account  Account
	servers  map[string]string // names by id, once Servers was asked
	guilds   map[string]*membership
	channels map[string]*discordgo.Channel
}

// Account is who a token is of.
type Account struct {
	ID, App, Name string
	Date          string // when the platform answered, as its header has it
}

// NewInspector makes an Inspector. The catalogue is what should be registered.
// HTTP and now may be nil: the usual transport and time.Now.
func NewInspector(token string, catalogue []commands.Command, by http.RoundTripper, now func() time.Time) (*Inspector, error) {
	if err := checkToken(token); err != nil {
		return nil, err
	}
	wanted, err := Registration(catalogue)
	if err != nil {
		return nil, err
	}
	session, err := discordgo.New("Bot " + token)
	if err != nil {
		return nil, err
	}
	if by == nil {
		by = http.DefaultTransport
	}
	if now == nil {
		now = time.Now
	}
	return &Inspector{
		client: &http.Client{Transport: by}, session: session, now: now, wanted: wanted,
		servers: map[string]string{}, guilds: map[string]*membership{}, channels: map[string]*discordgo.Channel{},
	}, nil
}

// checkToken refuses what would break the header that carries it.
func checkToken(token string) error {
	if token == "" || strings.ContainsFunc(token, func(r rune) bool { return r <= ' ' || r > '~' }) {
		return errors.New("discord: the bot's token is empty or holds blanks")
	}
	return nil
}

// Account asks whose the token is. Everything else needs it asked before. Its
// Date is set after every answer, a refusal too.
func (i *Inspector) Account(ctx context.Context) (Account, error) {
	var me discordgo.User
	if err := i.ask(ctx, http.MethodGet, discordgo.EndpointUser("@me"), nil, &me); err != nil {
		return i.account, err
	}
	var app discordgo.Application
	if err := i.ask(ctx, http.MethodGet, discordgo.EndpointApplication("@me"), nil, &app); err != nil {
		return i.account, err
	}
	if !snowflake(me.ID) || !snowflake(app.ID) {
		i.stopped = errors.New("discord: the platform's answer names no account")
		return i.account, i.stopped
	}
	i.account.ID, i.account.App, i.account.Name = me.ID, app.ID, me.Username
	return i.account, nil
}

// Refused reports that the platform does not accept the token.
func Refused(err error) bool { return refusedFor(err, reminders.TokenRefused) }

// Throttled reports that the platform asked to wait.
func Throttled(err error) bool { return refusedFor(err, reminders.RateLimited) }

func refusedFor(err error, why ...reminders.Refusal) bool {
	var refused *reminders.Refused
	return errors.As(err, &refused) && slices.Contains(why, refused.Why)
}

// ask makes one request and reads its answer into a value. Only what concerns
// the one thing that was asked for leaves the way open for the next.
func (i *Inspector) ask(ctx context.Context, method, url string, payload, into any) error {
	if i.stopped == nil && i.asked >= maxQuestions {
		i.stopped = ErrEnough
	}
	if i.stopped != nil {
		return i.stopped
	}
	i.asked++
	err := i.once(ctx, method, url, payload, into)
	if err != nil && !refusedFor(err, reminders.ChannelGone, reminders.GuildGone, reminders.NoAccess) {
		i.stopped = err
	}
	return err
}

func (i *Inspector) once(ctx context.Context, method, url string, payload, into any) error {
	ctx, cancel := context.WithTimeout(ctx, lookIn)
	defer cancel()
	contentType, data, err := encode(payload, nil)
	if err != nil {
		return err
	}
	req, err := http.NewRequestWithContext(ctx, method, url, bytes.NewReader(data))
	if err != nil {
		return err
	}
	req.Header.Set("Authorization", i.session.Token)
	req.Header.Set("User-Agent", i.session.UserAgent)
	if contentType != "" {
		req.Header.Set("Content-Type", contentType)
	}
	resp, err := i.client.Do(req)
	if err != nil {
		return err
	}
	defer resp.Body.Close()
	i.account.Date = resp.Header.Get("Date")
	said, err := io.ReadAll(io.LimitReader(resp.Body, maxSeen))
	switch {
	case resp.StatusCode != http.StatusOK:
		return outcome(resp.StatusCode, resp.Header, said)
	case err != nil:
		return err
	}
	if err := json.Unmarshal(said, into); err != nil {
		return fmt.Errorf("discord: an answer cannot be read: %w", err)
	}
	return nil
}
