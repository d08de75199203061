// Package discord carries the assistant's commands to Discord: it registers
// the catalogue, turns interactions into calls and replies into messages, posts
// what nobody asked for, and keeps the connection alive. It decides nothing
// about compost.
//
// Facts about the platform and its client library are from discord-api-docs
// (commit c98d64bc) and the source of discordgo v0.29.0, as read.
package discord

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"regexp"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/bwmarrin/discordgo"

	"heapside/commands"
)

// Assistant is what the adapter needs of the commands.
type Assistant interface {
	Commands() []commands.Command
	Do(ctx context.Context, call commands.Call) commands.Reply
	Line(ctx context.Context, call commands.Call, line string) commands.Reply
	Fill(ctx context.Context, call commands.Call, line string, filled map[string]string) commands.Reply
	Complete(ctx context.Context, call commands.Call, option, typed string) []commands.Choice
}

// Config is how an Adapter is set up. Only Token is required; zero values of
// the rest mean what their comments say.
type Config struct {
	Token string            // the bot's token, without "Bot "
	Log   *slog.Logger      // nil: slog.Default(); secrets are taken out before it sees them
	HTTP  http.RoundTripper // nil: the usual transport
	Guild string            // register commands in this guild only, for trials; empty: everywhere
	Now   func() time.Time  // the time calls carry; nil: time.Now

	// Gone is told, in a goroutine of its own, the id of a server that removed
	// us; a server that is only out of order is none. With nil the platform is
	// not asked for such news.
	Gone func(guild string)

	// Heard is told of each interaction once it is done with. It must not block.
	Heard func(Heard)

	DeferAfter time.Duration // how long a command may take before "thinking" is shown; 0: 1.5 s
	AnswerIn   time.Duration // how long a command may take at all; 0: 1 minute
	OpenIn     time.Duration // how long connecting may take before Run gives up; 0: 1 minute
	Patience   time.Duration // how long the gateway may be away or silent before Run gives up; 0: 3 minutes
	AtOnce     int           // interactions worked on at once, more are told to try again; 0: 64
}

// Errors that Run returns besides those of the network. After each of them the
// process should end with a non-zero status.
var (
	ErrToken   = errors.New("discord: the platform refused the bot's token")
	ErrStalled = errors.New("discord: the gateway does not answer any more")
)

// Adapter serves one bot account. Make one with New, run it once.
type Adapter struct {
	cfg          Config
	assistant    Assistant
	log          *slog.Logger
	registration []*discordgo.ApplicationCommand
	paths        map[string]bool    // of the catalogue's commands
	slash        *regexp.Regexp     // finds them in a reply; nil: there are none
	rest         *discordgo.Session // for requests only, never opened
	once         *http.Client       // sends a request once, whatever comes of it
	link         link

	slots, spare chan struct{} // taken while an interaction is worked on, or refused
	running      atomic.Bool
	ready        chan struct{}
	closed       chan struct{}
	closeOnce    sync.Once

	mu       sync.Mutex // guards draining against inFlight.Add
	draining bool
	inFlight sync.WaitGroup
	work     context.Context // ends when interactions in flight must stop
	stopWork context.CancelFunc
}

// New checks the configuration and the catalogue. It opens no connection.
func New(cfg Config, a Assistant) (*Adapter, error) {
	cfg.Token = strings.TrimSpace(cfg.Token)
	if err := checkToken(cfg.Token); err != nil {
		return nil, err
	}
	registration, err := Registration(a.Commands())
	if err != nil {
		return nil, err
	}
	cfg.setDefaults()
	log := slog.New(redactor{cfg.Log.Handler(), cfg.Token})
	listenToLibrary(log)
	ad := &Adapter{
		cfg: cfg, assistant: a, log: log, registration: registration, paths: pathsOf(a.Commands()), slash: slashing(a.Commands()),
		slots: make(chan struct{}, cfg.AtOnce), spare: make(chan struct{}, cfg.AtOnce),
		ready: make(chan struct{}), closed: make(chan struct{}),
	}
	ad.work, ad.stopWork = context.WithCancel(context.Background())
	if ad.rest, err = ad.newSession(); err != nil {
		return nil, err
	}
	ad.once = &http.Client{Timeout: requestIn, Transport: cfg.HTTP}
	return ad, nil
}

func (c *Config) setDefaults() {
	if c.Log == nil {
		c.Log = slog.Default()
	}
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.HTTP == nil {
		c.HTTP = http.DefaultTransport
	}
	for _, d := range []struct {
		value *time.Duration
		usual time.Duration
	}{
		{&c.DeferAfter, 1500 * time.Millisecond},
		{&c.AnswerIn, time.Minute},
		{&c.OpenIn, time.Minute},
		{&c.Patience, 3 * time.Minute},
	} {
		if *d.value <= 0 {
			*d.value = d.usual
		}
	}
	if c.AtOnce <= 0 {
		c.AtOnce = 64
	}
}

// Ready is closed once the gateway is open and the commands are registered.
func (a *Adapter) Ready() <-chan struct{} { return a.ready }

// Close makes Run end as if its context had ended. It does not wait for it.
func (a *Adapter) Close() { a.closeOnce.Do(func() { close(a.closed) }) }

// requestIn bounds one request that has no nearer deadline.
const requestIn = 30 * time.Second

// newSession is a client that keeps no state, runs handlers in order, and
// leaves reconnecting and retrying to us: the library retries a refused resume
// for ever and waits without a bound. It asks for no events besides
// interactions, which come unasked, unless somebody wants to hear of servers
// that are gone; those come with all news of servers and their channels, which
// are dropped as they are read.
func (a *Adapter) newSession() (*discordgo.Session, error) {
	s, err := discordgo.New("Bot " + a.cfg.Token)
	if err != nil {
		return nil, err
	}
	s.Client = &http.Client{Timeout: requestIn, Transport: &retrying{next: a.cfg.HTTP}}
	s.Dialer = newDialer()
	s.Identify.Intents = discordgo.IntentsNone
	if a.cfg.Gone != nil {
		s.Identify.Intents = discordgo.IntentsGuilds
	}
	s.StateEnabled = false
	s.SyncEvents = true
	s.ShouldReconnectOnError = false
	s.ShouldRetryOnRateLimit = false
	s.MaxRestRetries = 0
	s.LogLevel = discordgo.LogWarning
	return s, nil
}
