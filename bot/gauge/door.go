package gauge

import (
	"context"
	"errors"
	"log/slog"
	"net"
	"net/http"
	"runtime"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"
)

// How long a caller may take, and how many may look at once. Own choice:
// everything is small and near.
const (
	headerIn = 5 * time.Second
	askIn    = 10 * time.Second
	answerIn = 30 * time.Second
	idleFor  = 2 * time.Minute // longer than monitors usually wait between two looks
	closeIn  = 2 * time.Second // what is being answered may finish
	atOnce   = 4
	header   = 8 << 10 // bytes
)

// Handler answers /metrics, in the text format of Prometheus, and /healthz: “ok”,
// or status 503 and a line for each thing that is wrong.
func Handler(t *Traffic, s Sources, log *slog.Logger) http.Handler {
	version := prometheus.NewGaugeVec(prometheus.GaugeOpts{
		Name: "heapside_build_info", Help: "1, by the version of the program and what it was built with.",
	}, []string{"version", "goversion"})
	version.WithLabelValues(s.Version, runtime.Version()).Set(1)
	registry := prometheus.NewRegistry()
	registry.MustRegister(append(t.all(), version, newCollector(s),
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))...)

	mux := http.NewServeMux()
	mux.Handle("GET /metrics", promhttp.HandlerFor(registry, promhttp.HandlerOpts{
		ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn), ErrorHandling: promhttp.ContinueOnError, MaxRequestsInFlight: atOnce,
	}))
	mux.HandleFunc("GET /healthz", s.health)
	return mux
}

// Serve answers at a listener until the context ends, and then lets what is
// being answered finish. It fails only to the log: nobody who asks the assistant
// something depends on it.
func Serve(ctx context.Context, l net.Listener, h http.Handler, log *slog.Logger) {
	server := &http.Server{
		Handler: h, ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn), MaxHeaderBytes: header,
		ReadHeaderTimeout: headerIn, ReadTimeout: askIn, WriteTimeout: answerIn, IdleTimeout: idleFor,
	}
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		if err := server.Serve(l); !errors.Is(err, http.ErrServerClosed) {
			log.Error("the metrics are not shown any more", "err", err)
		}
	}()
	<-ctx.Done()
	closing, cancel := context.WithTimeout(context.WithoutCancel(ctx), closeIn)
	defer cancel()
	if err := server.Shutdown(closing); err != nil {
		_ = server.Close() // whoever is still there has had their time
	}
	<-ended
}
