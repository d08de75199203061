package discord

import (
	"context"
	"io"
	"math"
	"net/http"
	"strconv"
	"strings"
	"time"

	"github.com/gorilla/websocket"
)

// Own choices: enough to ride out a hiccup, never enough to be a nuisance.
// 10,000 refused requests in ten minutes would get the address banned
// (discord-api-docs c98d64bc, topics/rate-limits.mdx).
const (
	maxTries    = 4
	firstPause  = 100 * time.Millisecond
	longestWait = 30 * time.Second
)

// retrying repeats requests that the platform put off (429) or failed to
// handle (500, 502, 503, 504), a few times and only while the request's
// deadline allows it. The client library repeats 429 without end and 502 only.
type retrying struct{ next http.RoundTripper }

// RoundTrip implements http.RoundTripper.
func (t *retrying) RoundTrip(req *http.Request) (*http.Response, error) {
	for try := 1; ; try++ {
		attempt, err := again(req, try)
		if err != nil {
			return nil, err
		}
		resp, err := t.next.RoundTrip(attempt)
		wait, retry := pause(req, resp, err, try)
		if !retry || try == maxTries || !fits(req.Context(), wait) {
			return resp, err
		}
		if resp != nil {
			_, _ = io.Copy(io.Discard, io.LimitReader(resp.Body, 1<<16)) // lets the connection be used again
			resp.Body.Close()
		}
		if err := sleep(req.Context(), wait); err != nil {
			return nil, err
		}
	}
}

// again is the request for a try, with a fresh body after the first.
func again(req *http.Request, try int) (*http.Request, error) {
	if try == 1 || req.GetBody == nil {
		return req, nil
	}
	body, err := req.GetBody()
	if err != nil {
		return nil, err
	}
	fresh := req.Clone(req.Context())
	fresh.Body = body
	return fresh, nil
}

// pause says whether and after how long a request is tried again. After a
// failure it is unknown whether the platform did what was asked, so only
// requests that may come twice are repeated: all but posted messages. A second
// callback is refused with code 40060, which means the first arrived.
func pause(req *http.Request, resp *http.Response, err error, try int) (time.Duration, bool) {
	repeatable := req.Method != http.MethodPost || strings.HasSuffix(req.URL.Path, "/callback")
	backoff := firstPause << (try - 1)
	if err != nil {
		return backoff, repeatable && req.Context().Err() == nil
	}
	switch resp.StatusCode {
	case http.StatusTooManyRequests:
		wait := retryAfter(resp.Header)
		return wait, wait <= longestWait
	case http.StatusInternalServerError, http.StatusBadGateway, http.StatusServiceUnavailable, http.StatusGatewayTimeout:
		return backoff, repeatable
	}
	return 0, false
}

// retryAfter reads the header in seconds, with or without decimals; 1 s when
// it is missing or no number.
func retryAfter(h http.Header) time.Duration {
	seconds, err := strconv.ParseFloat(h.Get("Retry-After"), 64)
	if err != nil || math.IsNaN(seconds) || seconds < 0 {
		return time.Second
	}
	return time.Duration(min(seconds, 3600) * float64(time.Second))
}

// fits reports whether a wait leaves time for another try.
func fits(ctx context.Context, wait time.Duration) bool {
	deadline, ok := ctx.Deadline()
	return !ok || time.Until(deadline) > wait
}

func sleep(ctx context.Context, d time.Duration) error {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

func newDialer() *websocket.Dialer {
	return &websocket.Dialer{Proxy: http.ProxyFromEnvironment, HandshakeTimeout: 20 * time.Second}
}
