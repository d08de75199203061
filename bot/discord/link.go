package discord

import (
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"
)

// Link is how the connection to the gateway stands.
type Link struct {
	Open              bool
	Acked             time.Time     // when the platform last answered a heartbeat; zero before the first connection
	Silent            time.Duration // since then
	Patience          time.Duration // how long it may be silent, or away, before Run gives up
	Connects, Resumes int           // since the adapter was made; each resume is a connect too
}

// Link tells how the connection to the gateway stands now.
func (a *Adapter) Link() Link {
	l := a.link.look()
	l.Patience = a.cfg.Patience
	if !l.Acked.IsZero() {
		l.Silent = time.Since(l.Acked)
	}
	return l
}

// link is what Run lets others know of its connection.
type link struct {
	mu      sync.Mutex
	session *discordgo.Session // nil while none is open
	last    Link
}

// look is how it stands, as of the last moment at which the session could be
// looked at: one that is locked up must not lock us up too.
func (l *link) look() Link {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.session != nil && l.session.TryRLock() {
		l.last.Acked = l.session.LastHeartbeatAck
		l.session.RUnlock()
	}
	return l.last
}

func (l *link) opened(s *discordgo.Session) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.session, l.last.Open = s, true
	l.last.Connects++
}

func (l *link) lost() {
	l.look()
	l.mu.Lock()
	defer l.mu.Unlock()
	l.session, l.last.Open = nil, false
}

func (l *link) resumed() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.last.Resumes++
}
