package main

import (
	"context"
	"errors"
	"log/slog"
	"net"
	"strings"

	"heapside/bot/discord"
	"heapside/bot/gauge"
	"heapside/reminders"
	"heapside/storage"
)

// metricsEnv is the address at which serve shows how it fares; none when it is empty or off.
const metricsEnv = "HEAPSIDE_METRICS"

// monitor shows how serve fares.
type monitor struct {
	at      net.Listener
	traffic *gauge.Traffic
	log     *slog.Logger
}

// monitor opens the port that the settings name; nil when they name none.
func (m *Main) monitor(ctx context.Context, log *slog.Logger) (*monitor, error) {
	address := m.metricsAddress()
	if address == "" {
		return nil, nil
	}
	l, err := gauge.Listen(ctx, address)
	if err != nil {
		return nil, refusedAddress(err)
	}
	m.closers = append(m.closers, func() error {
		if err := l.Close(); !errors.Is(err, net.ErrClosed) { // which it is once it was served
			return err
		}
		return nil
	})
	log.Info("showing metrics and health", "metrics", "http://"+l.Addr().String()+"/metrics", "health", "http://"+l.Addr().String()+"/healthz")
	return &monitor{l, gauge.NewTraffic(), log}, nil
}

// metricsAddress is the address that the settings name; empty when they name
// none.
func (m *Main) metricsAddress() string {
	address := strings.TrimSpace(m.setting(metricsEnv))
	if strings.EqualFold(address, "off") {
		return ""
	}
	return address
}

// checkMetrics looks at the setting without opening anything.
func (m *Main) checkMetrics(ctx context.Context) error {
	address := m.metricsAddress()
	if address == "" {
		return nil
	}
	if err := gauge.Check(ctx, address); err != nil {
		return refusedAddress(err)
	}
	return nil
}

func refusedAddress(err error) error { return &usageError{metricsEnv + ": " + sentence(err)} }

// sources are what the monitor of a serve asks.
func (m *Main) sources(o office, path string, reach storage.Reach, adapter *discord.Adapter, engine *reminders.Engine) gauge.Sources {
	s := gauge.Sources{
		Version: programVersion(), Path: path, Now: m.now,
		Record: o.db.Within(reach), Gateway: adapter, Reminders: engine, Limits: o.assistant,
	}
	if sky, ok := o.sky.(sky); ok {
		s.Weather = sky.station
	}
	return s
}

// show answers until the context ends.
func (w *monitor) show(s gauge.Sources) func(context.Context) error {
	return func(ctx context.Context) error {
		gauge.Serve(ctx, w.at, gauge.Handler(w.traffic, s, w.log), w.log)
		return nil
	}
}
