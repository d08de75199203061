package discordtest

import (
	"encoding/json"
	"net/http"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// Operations of the gateway. Source: discord-api-docs c98d64bc,
// topics/opcodes-and-status-codes.mdx.
const (
	opDispatch  = 0
	opHeartbeat = 1
	OpIdentify  = 2
	OpResume    = 6
	opReconnect = 7
	opInvalid   = 9
	opHello     = 10
	opAck       = 11

	closeRefused = 4004
)

// intentGuilds asks for news of servers and their channels. Source:
// discord-api-docs c98d64bc, events/gateway.mdx.
const intentGuilds = 1 << 0

// conn is one connection; its writes are in order, as sockets demand.
type conn struct {
	ws    *websocket.Conn
	mu    sync.Mutex
	ready bool // guarded by Platform.mu
}

func (c *conn) send(op int, kind string, seq int64, data any) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	packet := map[string]any{"op": op, "d": data}
	if op == opDispatch {
		packet["t"], packet["s"] = kind, seq
	}
	return c.ws.WriteJSON(packet)
}

func (c *conn) close(code int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	_ = c.ws.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(code, ""), time.Now().Add(time.Second))
	_ = c.ws.Close()
}

var upgrader = websocket.Upgrader{}

// gateway serves one connection until it ends.
func (p *Platform) gateway(w http.ResponseWriter, r *http.Request) {
	ws, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		p.fail("the gateway was called by something else: %v", err)
		return
	}
	defer ws.Close()
	c := &conn{ws: ws}
	var beat time.Duration
	var mute bool
	p.update(func() {
		p.conn, beat, mute = c, p.heartbeat, p.mute
		p.counts.Connected++
	})
	if !mute && c.send(opHello, "", 0, map[string]any{"heartbeat_interval": beat.Milliseconds()}) != nil {
		return
	}
	for {
		var packet struct {
			Op   int             `json:"op"`
			Data json.RawMessage `json:"d"`
		}
		if ws.ReadJSON(&packet) != nil || !p.packet(c, packet.Op, packet.Data) {
			p.update(func() { c.ready = false })
			return
		}
	}
}

// packet handles what the client sent; false ends the connection.
func (p *Platform) packet(c *conn, op int, data json.RawMessage) bool {
	p.mu.Lock()
	code := p.closeNext[op]
	delete(p.closeNext, op)
	mute := p.mute
	p.mu.Unlock()
	switch {
	case mute:
		return true
	case code != 0:
		c.close(code)
		return false
	}
	switch op {
	case opHeartbeat:
		p.update(func() { p.counts.Heartbeats++ })
		return c.send(opAck, "", 0, nil) == nil
	case OpIdentify:
		return p.identify(c, data)
	case OpResume:
		return p.resume(c, data)
	}
	return true
}

// identify begins a session. READY is the next packet of the connection,
// unless AckFirst or ReconnectFirst was called.
func (p *Platform) identify(c *conn, data json.RawMessage) bool {
	var d struct {
		Token   string `json:"token"`
		Intents int    `json:"intents"`
	}
	if err := json.Unmarshal(data, &d); err != nil {
		p.fail("identify cannot be read: %v", err)
		return false
	}
	if !p.accepts(d.Token) {
		c.close(closeRefused)
		return false
	}
	if d.Intents&^intentGuilds != 0 {
		p.fail("the intents %d ask for more than news of servers", d.Intents)
	}
	session := "session-" + p.snowflake()
	ready := map[string]any{
		"v": 9, "session_id": session, "resume_gateway_url": p.gatewayURL(), "guilds": []any{},
		"user":        map[string]any{"id": botID, "username": "heapside", "bot": true},
		"application": map[string]any{"id": App, "flags": 0},
	}
	p.mu.Lock()
	first := p.first
	p.mu.Unlock()
	if first != 0 && c.send(first, "", 0, nil) != nil {
		return false
	}
	if c.send(opDispatch, "READY", 1, ready) != nil {
		return false
	}
	p.update(func() {
		p.session, p.sequence, c.ready = session, 1, true
		p.counts.Identified++
		p.counts.Intents = d.Intents
	})
	return true
}

func (p *Platform) resume(c *conn, data json.RawMessage) bool {
	var d struct {
		Token   string `json:"token"`
		Session string `json:"session_id"`
	}
	if err := json.Unmarshal(data, &d); err != nil {
		p.fail("resume cannot be read: %v", err)
		return false
	}
	if !p.accepts(d.Token) {
		c.close(closeRefused)
		return false
	}
	p.mu.Lock()
	known := p.session != "" && d.Session == p.session
	p.sequence++
	seq := p.sequence
	p.mu.Unlock()
	if !known {
		return c.send(opInvalid, "", 0, false) == nil
	}
	if c.send(opDispatch, "RESUMED", seq, map[string]any{}) != nil {
		return false
	}
	p.update(func() {
		c.ready = true
		p.counts.Resumed++
	})
	return true
}

func (p *Platform) accepts(token string) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return !p.refusing && token == "Bot "+Token
}

// Dispatch sends an event once the gateway is open.
func (p *Platform) Dispatch(kind string, data any) {
	p.t.Helper()
	if !p.opened() {
		return
	}
	p.mu.Lock()
	p.sequence++
	c, seq := p.conn, p.sequence
	p.mu.Unlock()
	if err := c.send(opDispatch, kind, seq, data); err != nil {
		p.fail("an event could not be sent: %v", err)
	}
}

// opened waits until the gateway is open.
func (p *Platform) opened() bool {
	p.t.Helper()
	return p.await("the gateway to be open", func() bool { return p.conn != nil && p.conn.ready })
}

// Drop cuts the connection without a word.
func (p *Platform) Drop() {
	if c := p.current(); c != nil {
		_ = c.ws.NetConn().Close()
	}
}

// CloseWith closes the connection with a code.
func (p *Platform) CloseWith(code int) {
	if c := p.current(); c != nil {
		c.close(code)
	}
}

// Reconnect asks the client to connect again (op 7).
func (p *Platform) Reconnect() {
	if c := p.current(); c != nil {
		_ = c.send(opReconnect, "", 0, nil)
	}
}

// Invalidate forgets the session and says so (op 9).
func (p *Platform) Invalidate() {
	p.update(func() { p.session = "" })
	if c := p.current(); c != nil {
		_ = c.send(opInvalid, "", 0, false)
	}
}

// ForgetSession makes the next resume fail (op 9).
func (p *Platform) ForgetSession() { p.update(func() { p.session = "" }) }

// Silence makes the gateway take connections and packets and say nothing more.
func (p *Platform) Silence() { p.update(func() { p.mute = true }) }

// Speak ends a silence. What came meanwhile stays without an answer.
func (p *Platform) Speak() { p.update(func() { p.mute = false }) }

// AckFirst sends a heartbeat's acknowledgement before READY, which the client
// library does not survive: it waits for itself.
func (p *Platform) AckFirst() { p.update(func() { p.first = opAck }) }

// ReconnectFirst asks to connect again before READY, which the client library
// does not survive either.
func (p *Platform) ReconnectFirst() { p.update(func() { p.first = opReconnect }) }

// CloseNext answers the next packet of an operation by closing with a code.
func (p *Platform) CloseNext(op, code int) { p.update(func() { p.closeNext[op] = code }) }

// Heartbeat sets the interval that new connections are told.
func (p *Platform) Heartbeat(every time.Duration) { p.update(func() { p.heartbeat = every }) }

// current is the open connection, which is not open from now on.
func (p *Platform) current() *conn {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.conn
}
