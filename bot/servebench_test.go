package main

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
)

// standIn names, for a child process, where the stand-in of the platform
// listens: the test binary then runs as the program itself.
const standIn = "HEAPSIDE_STAND_IN"

func TestMain(m *testing.M) {
	address := os.Getenv(standIn)
	if address == "" {
		os.Exit(m.Run())
	}
	program := NewMain()
	program.HTTP = detour(address)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	status := program.Main(ctx, os.Args[1:])
	stop()
	os.Exit(status)
}

// detour sends what is meant for the platform to another host.
type detour string

func (d detour) RoundTrip(req *http.Request) (*http.Response, error) {
	if req.URL.Hostname() == "discord.com" {
		req = req.Clone(req.Context())
		req.URL.Scheme, req.URL.Host = "http", string(d)
	}
	return http.DefaultTransport.RoundTrip(req)
}

// BenchmarkServeIdle reports the resident memory of serve once it is connected
// and has answered one question. The test binary holds more code than the
// program, so the program needs no more than this.
func BenchmarkServeIdle(b *testing.B) {
	for b.Loop() {
		p := discordtest.New(b)
		target, err := url.Parse("https://discord.com")
		require.NoError(b, err)
		proxy := httptest.NewServer(&httputil.ReverseProxy{
			Transport: p.Transport(),
			Rewrite:   func(r *httputil.ProxyRequest) { r.SetURL(target) },
		})
		cmd := exec.CommandContext(b.Context(), os.Args[0], "serve", "-db", filepath.Join(b.TempDir(), "garden.db"))
		cmd.Env = append(os.Environ(), standIn+"="+strings.TrimPrefix(proxy.URL, "http://"), "HEAPSIDE_TOKEN="+discordtest.Token)
		var log strings.Builder
		cmd.Stderr = &log
		require.NoError(b, cmd.Start())
		p.Registered()
		p.Command(wren, "mix", map[string]string{"what": "2 buckets of grass clippings"}).Answer()
		b.ReportMetric(residentMB(b, cmd.Process.Pid), "MB-resident")
		require.NoError(b, cmd.Process.Signal(os.Interrupt))
		require.NoError(b, cmd.Wait(), log.String())
		proxy.Close()
	}
}

// residentMB reads a process's resident memory where the system tells it.
func residentMB(b *testing.B, pid int) float64 {
	b.Helper()
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		b.Skip("this system does not tell a process's memory: ", err)
	}
	for line := range strings.Lines(string(data)) {
		var kb float64
		if _, err := fmt.Sscanf(line, "VmRSS: %f kB", &kb); err == nil {
			return kb / 1024
		}
	}
	b.Fatal("no VmRSS")
	return 0
}

// BenchmarkServeInteractions is a command typed on the platform to its answer
// there, through everything but the network.
func BenchmarkServeInteractions(b *testing.B) {
	p, clock := discordtest.New(b), new(moved)
	clock.set("2026-06-10T08:00:00Z")
	servingAt(b, p, filepath.Join(b.TempDir(), "garden.db"), clock.now)
	p.Registered()
	p.Command(wren, "heap start", map[string]string{"name": "North Bay"}).Answer()
	var took []time.Duration
	for b.Loop() {
		for path, options := range map[string]map[string]string{
			"log temp": {"reading": "58"}, "heap list": nil, "next": nil, "mix": {"what": "2 buckets of grass clippings"},
		} {
			later := clock.now().Add(10 * time.Second) // nobody is faster than the limits allow
			clock.at.Store(&later)
			began := time.Now()
			p.Command(odalys, path, options).Answer()
			took = append(took, time.Since(began))
		}
	}
	reportQuantile(b, took, 0.5, "p50-ms")
	reportQuantile(b, took, 0.99, "p99-ms")
}
