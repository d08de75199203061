// Package discordtest is a loopback stand-in for the chat platform: a gateway
// and the few HTTP calls the adapter makes, with people who type commands and
// press buttons, and channels in which messages stand. Everything the adapter sends is checked against the published
// description of the API and the rules that the description leaves out; what
// breaks one fails the test. No request leaves the machine.
//
//	platform := discordtest.New(t)
//	// start the program with Token and platform.Transport()
//	answer := platform.Command(wren, "heap list", nil).Answer()
package discordtest

import (
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"
)

// What the stand-in knows itself by. Token is the only one it accepts.
const (
	Token = "loopback-bot-token"
	App   = "700000000000000001"
	botID = "700000000000000002"
)

// patience is how long anything is waited for before the test fails. It is
// far above what anything takes; nothing waits for it when all is well.
const patience = 60 * time.Second

// Platform is one stand-in. Its methods may be called from several goroutines.
type Platform struct {
	t         testing.TB
	server    *httptest.Server
	transport *http.Transport

	mu         sync.Mutex
	changed    chan struct{} // closed and replaced whenever something below changes
	closed     bool
	serial     int64
	heartbeat  time.Duration
	refusing   bool
	mute       bool
	first      int         // operation of a packet before READY; 0: none
	closeNext  map[int]int // close code to answer the next packet of an op with
	faults     map[Point][]Fault
	session    string // the session that can be resumed
	sequence   int64
	conn       *conn
	counts     Counts
	commands   []Command
	scope      string                       // the guild the commands were registered in
	catalogues map[string][]json.RawMessage // what is registered, by guild; "" everywhere
	guilds     map[string]*guild
	asked      int // about the account
	exchanges  map[string]*Exchange
	channels   map[string]*channel
	messages   map[string]*Message // all that stand, by id
	nonces     map[string]*Message // what was posted with them, within the past few minutes
	over       chan struct{}       // closed when the test ends
}

// Counts is how often things happened at the gateway and at the door.
type Counts struct {
	Connected, Identified, Resumed, Registered, Heartbeats int
	Intents                                                int // of the last identify
}

// New starts a stand-in that ends with the test.
func New(t testing.TB) *Platform {
	t.Helper()
	p := &Platform{
		t: t, transport: &http.Transport{MaxIdleConnsPerHost: 64},
		changed: make(chan struct{}), heartbeat: 40 * time.Second,
		closeNext: map[int]int{}, faults: map[Point][]Fault{}, exchanges: map[string]*Exchange{},
		catalogues: map[string][]json.RawMessage{}, guilds: map[string]*guild{},
		channels: map[string]*channel{}, messages: map[string]*Message{}, nonces: map[string]*Message{},
		over: make(chan struct{}),
	}
	p.server = httptest.NewServer(p.routes())
	t.Cleanup(func() {
		p.update(func() { p.closed = true })
		close(p.over)
		p.Drop()
		p.transport.CloseIdleConnections()
		p.server.Close()
	})
	return p
}

// Transport sends what is meant for the platform to the stand-in. Any other
// host that is not this machine fails the request and the test.
func (p *Platform) Transport() http.RoundTripper { return rewrite{p} }

type rewrite struct{ *Platform }

func (r rewrite) RoundTrip(req *http.Request) (*http.Response, error) {
	base, err := url.Parse(r.server.URL)
	if err != nil {
		return nil, err
	}
	host := req.URL.Hostname()
	switch ip := net.ParseIP(host); {
	case host == "discord.com":
		req = req.Clone(req.Context())
		req.URL.Scheme, req.URL.Host = base.Scheme, base.Host
	case ip == nil || !ip.IsLoopback():
		r.fail("a request for %s would have left the machine", host)
		return nil, fmt.Errorf("discordtest: %s is not this machine", host)
	}
	return r.transport.RoundTrip(req)
}

// Counts is what happened so far.
func (p *Platform) Counts() Counts {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.counts
}

// Await waits until what happened so far is enough, and fails the test when
// that takes too long.
func (p *Platform) Await(what string, enough func(Counts) bool) {
	p.t.Helper()
	p.await(what, func() bool { return enough(p.counts) })
}

// Registered waits for the commands to be registered and returns them, and the
// guild they were registered in (empty: everywhere).
func (p *Platform) Registered() ([]Command, string) {
	p.t.Helper()
	p.await("the commands to be registered", func() bool { return p.counts.Registered > 0 })
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.commands, p.scope
}

// await waits for a condition, which is called with the lock held.
func (p *Platform) await(what string, met func() bool) bool {
	p.t.Helper()
	timeout := time.NewTimer(patience)
	defer timeout.Stop()
	for {
		p.mu.Lock()
		ok, changed := met(), p.changed
		p.mu.Unlock()
		if ok {
			return true
		}
		select {
		case <-changed:
		case <-timeout.C:
			p.fail("waited too long for %s", what)
			return false
		}
	}
}

// update changes the state and wakes everybody who waits.
func (p *Platform) update(change func()) {
	p.mu.Lock()
	defer p.mu.Unlock()
	change()
	close(p.changed)
	p.changed = make(chan struct{})
}

// fail fails the test, unless it is over.
func (p *Platform) fail(format string, args ...any) {
	p.t.Helper()
	p.mu.Lock()
	over := p.closed
	p.mu.Unlock()
	if !over {
		p.t.Errorf("discordtest: "+format, args...)
	}
}

// snowflake makes an id as the platform does: digits, growing.
func (p *Platform) snowflake() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.serial++
	return fmt.Sprint(800000000000000000 + p.serial)
}

// gatewayURL is where the gateway listens.
func (p *Platform) gatewayURL() string {
	return "ws" + strings.TrimPrefix(p.server.URL, "http") + "/gateway"
}
