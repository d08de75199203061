package gauge

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOnlyLooking(t *testing.T) {
	g := newGarden(t)
	for _, tc := range []struct {
		method, path string
		status       int
	}{
		{"GET", "/metrics", 200}, {"HEAD", "/metrics", 200}, {"POST", "/metrics", 405}, {"DELETE", "/metrics", 405},
		{"GET", "/healthz", 200}, {"HEAD", "/healthz", 200}, {"PUT", "/healthz", 405}, {"OPTIONS", "/healthz", 405},
		{"GET", "/", 404}, {"GET", "/metrics/", 404}, {"GET", "/metrics/x", 404}, {"GET", "/debug/pprof/", 404}, {"POST", "/", 404},
	} {
		status, _ := g.get(tc.method, tc.path)
		assert.Equal(t, tc.status, status, "%s %s", tc.method, tc.path)
	}
}

// held answers when the test lets it.
type held struct{ begun, release chan struct{} }

func (h held) ServeHTTP(w http.ResponseWriter, _ *http.Request) {
	close(h.begun)
	<-h.release
	_, _ = io.WriteString(w, "late")
}

func TestServeLetsAnAnswerFinish(t *testing.T) {
	l, err := Listen(t.Context(), "127.0.0.1:0")
	require.NoError(t, err)
	ctx, stop := context.WithCancel(t.Context())
	h, served := held{make(chan struct{}), make(chan struct{})}, make(chan struct{})
	go func() { defer close(served); Serve(ctx, l, h, slog.New(slog.DiscardHandler)) }()
	said := make(chan string)
	go func() {
		resp, err := http.Get("http://" + l.Addr().String())
		if err != nil {
			said <- err.Error()
			return
		}
		defer resp.Body.Close()
		body, _ := io.ReadAll(resp.Body)
		said <- string(body)
	}()
	<-h.begun
	stop()
	close(h.release)
	assert.Equal(t, "late", <-said)
	<-served
	_, err = http.Get("http://" + l.Addr().String())
	assert.Error(t, err)
}
