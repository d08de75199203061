package discord

import (
	"context"
	"errors"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// script answers requests with one status after the other; 0 is a network
// error. It keeps the bodies it was sent.
type script struct {
	statuses   []int
	retryAfter string
	bodies     []string
}

func (s *script) RoundTrip(req *http.Request) (*http.Response, error) {
	body, err := io.ReadAll(req.Body)
	if err != nil {
		return nil, err
	}
	status := s.statuses[min(len(s.bodies), len(s.statuses)-1)]
	s.bodies = append(s.bodies, string(body))
	if status == 0 {
		return nil, errors.New("connection reset")
	}
	header := http.Header{}
	if s.retryAfter != "" {
		header.Set("Retry-After", s.retryAfter)
	}
	return &http.Response{StatusCode: status, Header: header, Body: io.NopCloser(strings.NewReader("{}"))}, nil
}

func TestRetrying(t *testing.T) {
	const callback, message, edit = "/api/v9/interactions/1/t/callback", "/api/v9/webhooks/1/t", "/api/v9/webhooks/1/t/messages/@original"
	for _, tc := range []struct {
		name, method, path string
		statuses           []int
		retryAfter         string
		tries, status      int
	}{
		{"fine at once", "POST", callback, []int{204}, "", 1, 204},
		{"limited, then fine", "POST", callback, []int{429, 204}, "0.01", 2, 204},
		{"limited without end", "POST", callback, []int{429}, "0.001", maxTries, 429},
		{"limited for longer than there is time", "POST", callback, []int{429}, "60", 1, 429},
		{"limited for an absurd time", "POST", callback, []int{429}, "1e300", 1, 429},
		{"edit failed, then fine", "PATCH", edit, []int{500, 503, 200}, "", 3, 200},
		{"callback lost, then fine", "POST", callback, []int{0, 204}, "", 2, 204},
		{"callback failing without end", "POST", callback, []int{502}, "", maxTries, 502},
		{"a message may be there already", "POST", message, []int{502}, "", 1, 502},
		{"a message limited was not sent", "POST", message, []int{429, 200}, "0.01", 2, 200},
		{"a refusal is final", "PATCH", edit, []int{403}, "", 1, 403},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			s := &script{statuses: tc.statuses, retryAfter: tc.retryAfter}
			ctx, cancel := context.WithTimeout(t.Context(), 10*time.Second)
			defer cancel()
			req, err := http.NewRequestWithContext(ctx, tc.method, "https://discord.com"+tc.path, strings.NewReader("body"))
			require.NoError(t, err)
			resp, err := (&retrying{next: s}).RoundTrip(req)
			require.NoError(t, err)
			assert.Equal(t, tc.status, resp.StatusCode)
			require.Len(t, s.bodies, tc.tries)
			for _, body := range s.bodies {
				assert.Equal(t, "body", body, "each try carries the whole body")
			}
		})
	}
}

func TestRetryAfter(t *testing.T) {
	for header, want := range map[string]time.Duration{
		"1": time.Second, "0.25": 250 * time.Millisecond, "": time.Second, "soon": time.Second,
		"-5": time.Second, "NaN": time.Second, "Inf": time.Hour, "1e300": time.Hour,
	} {
		assert.Equal(t, want, retryAfter(http.Header{"Retry-After": {header}}), header)
	}
}
