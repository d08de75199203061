package weather

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"mime"
	"net"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"
)

// Limits of one exchange: own choice. The largest documented answer is about
// 200 kB.
const (
	maxBody   = 8 << 20
	maxDetail = 300 // of an error's body, for the log
	// repeatAfter is how long to wait before the one repeat after a 5xx: the US
	// service's own advice is about five seconds (seen).
	repeatAfter = 5 * time.Second
)

// wire speaks HTTP to one service, one request at a time, as the services ask.
type wire struct {
	service string
	base    string
	agent   string
	client  *http.Client
	total   time.Duration
	now     func() time.Time
	sleep   func(context.Context, time.Duration) error
	log     *slog.Logger
	turn    chan struct{} // holds one token: whose request it is
	outside int           // the status that says a place is not covered; 0 for none
}

// answer is a 2xx or 304 answer, read to its end.
type answer struct {
	status       int
	body         []byte
	expires      time.Time // zero when not said
	lastModified string
}

// newTransport is a transport with the given bounds. It asks for gzip by
// itself.
func newTransport(t Timeouts) *http.Transport {
	dialer := &net.Dialer{Timeout: t.Connect}
	return &http.Transport{
		Proxy:                 http.ProxyFromEnvironment,
		DialContext:           dialer.DialContext,
		TLSHandshakeTimeout:   t.Connect,
		ResponseHeaderTimeout: t.Header,
		MaxIdleConnsPerHost:   1,
		IdleConnTimeout:       time.Minute,
		ForceAttemptHTTP2:     true,
	}
}

// sameHost follows a redirect only within the host that was asked.
func sameHost(req *http.Request, via []*http.Request) error {
	if len(via) > 3 || req.URL.Host != via[0].URL.Host || req.URL.Scheme != via[0].URL.Scheme {
		return http.ErrUseLastResponse
	}
	return nil
}

// get asks for path with query, repeating once after an error of the service's
// own. Any other outcome than an answer is a *Failure or the context's error.
func (w *wire) get(ctx context.Context, path string, query url.Values, modifiedSince string) (answer, error) {
	select {
	case w.turn <- struct{}{}:
		defer func() { <-w.turn }()
	case <-ctx.Done():
		return answer{}, ctx.Err()
	}
	bounded, cancel := context.WithTimeout(ctx, w.total)
	defer cancel()
	a, err := w.once(bounded, path, query, modifiedSince)
	if f := (*Failure)(nil); errors.As(err, &f) && f.Status >= 500 && f.RetryAfter <= repeatAfter {
		if w.sleep(bounded, repeatAfter) == nil {
			a, err = w.once(bounded, path, query, modifiedSince)
		}
	}
	if err != nil && ctx.Err() != nil {
		return answer{}, ctx.Err()
	}
	return a, err
}

// news asks for what changed since the report before, which may be nil: it sends
// If-Modified-Since with exactly the Last-Modified it was given.
func (w *wire) news(ctx context.Context, path string, query url.Values, at Place, before *Report, decode func(body []byte) (Report, error)) (Report, error) {
	modified := ""
	if before != nil {
		modified = before.LastModified
	}
	a, err := w.get(ctx, path, query, modified)
	if err != nil {
		return Report{}, err
	}
	now := w.now()
	if a.status == http.StatusNotModified {
		if before == nil {
			return Report{}, w.garbled("nothing changed, but nothing was known")
		}
		r := *before
		r.FetchedAt, r.Expires = now, a.expires
		return r, nil
	}
	r, err := decode(a.body)
	if err != nil {
		return Report{}, err
	}
	r.Place, r.FetchedAt, r.Expires, r.LastModified = at, now, a.expires, a.lastModified
	return r, nil
}

func (w *wire) once(ctx context.Context, path string, query url.Values, modifiedSince string) (answer, error) {
	target := w.base + path
	if len(query) > 0 {
		target += "?" + query.Encode()
	}
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, target, nil)
	if err != nil {
		return answer{}, w.failure(Refused, 0, err)
	}
	req.Header.Set("User-Agent", w.agent)
	req.Header.Set("Accept", "application/geo+json, application/json")
	if modifiedSince != "" {
		req.Header.Set("If-Modified-Since", modifiedSince)
	}
	resp, err := w.client.Do(req)
	if err != nil {
		return answer{}, w.failure(unanswered(err), 0, withoutURL(err))
	}
	defer resp.Body.Close()
	return w.read(resp)
}

func (w *wire) read(resp *http.Response) (answer, error) {
	body, err := io.ReadAll(io.LimitReader(resp.Body, maxBody+1))
	status := resp.StatusCode
	if kind, bad := w.refusal(status); bad {
		f := w.failure(kind, status, detail(body))
		f.RetryAfter = retryAfter(resp.Header.Get("Retry-After"), w.now())
		return answer{}, f
	}
	switch {
	case err != nil:
		return answer{}, w.failure(unanswered(err), status, err)
	case len(body) > maxBody:
		return answer{}, w.failure(Garbled, status, fmt.Errorf("more than %d bytes", maxBody))
	case status != http.StatusNotModified && !isJSON(resp.Header.Get("Content-Type")):
		return answer{}, w.failure(Garbled, status, fmt.Errorf("%q instead of JSON", resp.Header.Get("Content-Type")))
	}
	if status == http.StatusNonAuthoritativeInfo {
		w.log.Warn("weather service says this address is deprecated or a trial", "service", w.service)
	}
	return answer{
		status: status, body: body,
		expires:      expiry(resp.Header, w.now()),
		lastModified: resp.Header.Get("Last-Modified"),
	}, nil
}

// refusal is what a status means; false for one that carries an answer.
func (w *wire) refusal(status int) (Kind, bool) {
	switch {
	case status == http.StatusOK, status == http.StatusNonAuthoritativeInfo, status == http.StatusNotModified:
		return "", false
	case status == http.StatusTooManyRequests:
		return Throttled, true
	case status == w.outside:
		return Outside, true
	case status >= 400 && status < 499:
		return Refused, true
	}
	return Down, true // 5xx, MET Norway's 499, and redirects that lead elsewhere
}

func (w *wire) failure(k Kind, status int, err error) *Failure {
	return &Failure{Service: w.service, Kind: k, Status: status, Err: err}
}

func (w *wire) garbled(format string, args ...any) *Failure {
	return w.failure(Garbled, 0, fmt.Errorf(format, args...))
}

func unanswered(err error) Kind {
	var timeout interface{ Timeout() bool }
	if errors.Is(err, context.DeadlineExceeded) || errors.As(err, &timeout) && timeout.Timeout() {
		return Slow
	}
	return Down
}

// withoutURL keeps the garden's coordinates out of the log.
func withoutURL(err error) error {
	var u *url.Error
	if errors.As(err, &u) {
		return u.Err
	}
	return err
}

// detail is the beginning of an error's body, for the log only: its wording is
// not part of any service's promise.
func detail(body []byte) error {
	s := strings.Join(strings.Fields(strings.ToValidUTF8(string(body[:min(len(body), maxDetail)]), "")), " ")
	if s == "" {
		return nil
	}
	return errors.New(s)
}

func isJSON(contentType string) bool {
	kind, _, err := mime.ParseMediaType(contentType)
	return err == nil && (kind == "application/json" || strings.HasSuffix(kind, "+json"))
}

// expiry is until when an answer holds by its headers: Cache-Control max-age,
// else Expires; zero when they do not say.
func expiry(h http.Header, now time.Time) time.Time {
	for _, part := range strings.Split(h.Get("Cache-Control"), ",") {
		if age, ok := strings.CutPrefix(strings.TrimSpace(part), "max-age="); ok {
			if s, err := strconv.Atoi(age); err == nil && s >= 0 {
				return now.Add(time.Duration(min(s, maxHeaderSeconds)) * time.Second)
			}
		}
	}
	if at, err := http.ParseTime(h.Get("Expires")); err == nil {
		return at
	}
	return time.Time{}
}

// maxHeaderSeconds bounds what a header may ask for: a week.
const maxHeaderSeconds = 7 * 24 * 3600

// retryAfter reads the header, in seconds or as a date; 0 when it says neither.
func retryAfter(header string, now time.Time) time.Duration {
	if s, err := strconv.Atoi(strings.TrimSpace(header)); err == nil {
		return time.Duration(max(0, min(s, maxHeaderSeconds))) * time.Second
	}
	if at, err := http.ParseTime(header); err == nil {
		return max(0, min(at.Sub(now), maxHeaderSeconds*time.Second))
	}
	return 0
}
