package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"heapside/bot/discord"
	"heapside/calc/fault"
	"heapside/commands"
	"heapside/storage"
)

// maxToken bounds what is read of a token file; a token is far shorter.
const maxToken = 4096

// serve is the assistant on Discord.
type serve struct {
	db      string
	guild   string
	verbose bool
}

func serveFlags(m *Main, fs *flag.FlagSet) func(context.Context, []string) error {
	var s serve
	dbFlag(m, fs, &s.db)
	fs.StringVar(&s.guild, "guild", "", "register the commands only in the server with this `ID`, for a trial; heapside doctor -mend clears them")
	fs.BoolVar(&s.verbose, "v", false, "log every command")
	return func(ctx context.Context, _ []string) error { return s.run(ctx, m) }
}

func (s *serve) run(ctx context.Context, m *Main) error {
	token, err := m.token()
	if err != nil {
		return err
	}
	log, err := m.serverLog(s.verbose)
	if err != nil {
		return err
	}
	alone, err := storage.Serve(s.db)
	if err != nil {
		return err
	}
	m.closers = append(m.closers, alone.Release)
	watch, err := m.monitor(ctx, log)
	if err != nil {
		return err
	}
	o, err := m.office(ctx, s.db, log, nil, commands.Limited())
	if err != nil {
		return err
	}
	gone := func(guild string) {
		if err := o.db.GuildGone(ctx, guild, m.now()); err != nil {
			log.Error("a server that removed the bot was not noted", "guild", guild, "err", err)
		}
	}
	config := discord.Config{Token: token, Guild: s.guild, Log: log, HTTP: m.HTTP, Now: m.now, Gone: gone}
	if watch != nil {
		config.Heard = watch.traffic.Heard
	}
	adapter, err := discord.New(config, o.assistant)
	if err != nil {
		return err
	}
	reach := storage.Reach{Besides: localGuild}
	engine := o.engine(channels{o.db, adapter}, log, reach)
	parts := []func(context.Context) error{adapter.Run, engine.Run}
	if watch != nil {
		parts = append(parts, watch.show(m.sources(o, s.db, reach, adapter, engine)))
	}
	log.Info("serving", "record", s.db)
	if err := together(ctx, parts...); err != nil {
		return err
	}
	log.Info("stopped")
	return nil
}

// together runs all until the first ends, then stops the others and waits for
// them. Reminders go out by requests of their own, so they do not wait for the
// gateway.
func together(ctx context.Context, all ...func(context.Context) error) error {
	ctx, stop := context.WithCancel(ctx)
	ended := make(chan error, len(all))
	for _, run := range all {
		go func() { ended <- run(ctx) }()
	}
	var errs []error
	for range all {
		errs = append(errs, <-ended)
		stop()
	}
	stop()
	return errors.Join(errs...)
}

// token comes from the environment or from a file that only its owner can
// read; a flag would show it in the list of processes.
func (m *Main) token() (string, error) {
	token, path := m.setting("HEAPSIDE_TOKEN"), m.setting(tokenFileEnv)
	switch {
	case token != "" && path != "":
		return "", fault.New(fault.Ambiguous, "HEAPSIDE_TOKEN and HEAPSIDE_TOKEN_FILE are both set; keep one.")
	case token != "":
		return token, nil
	case path != "":
		return tokenFile(path, m.Getenv("CREDENTIALS_DIRECTORY"))
	}
	return "", fault.New(fault.Missing, "Put the bot's token into HEAPSIDE_TOKEN, or name a file that only you can read in HEAPSIDE_TOKEN_FILE.")
}

// tokenFile reads a token. In the folder of credentials, which systemd makes for
// one service, a right that it grants that service alone can look like one of
// the file's group (from memory), so there the mode says nothing.
func tokenFile(path, credentials string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", fmt.Errorf("read the token: %w", err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return "", fmt.Errorf("read the token: %w", err)
	}
	switch mode := info.Mode(); {
	case !mode.IsRegular():
		return "", fault.New(fault.Refused, "“%s” is no plain file; name the file that holds the token.", path)
	case mode.Perm()&0o077 != 0 && (credentials == "" || filepath.Dir(path) != filepath.Clean(credentials)):
		return "", fault.New(fault.Refused, "Others can read “%s” (%v); chmod 600 it, then start again.", path, mode)
	}
	data, err := io.ReadAll(io.LimitReader(f, maxToken))
	if err != nil {
		return "", fmt.Errorf("read the token: %w", err)
	}
	token := strings.TrimSpace(string(data))
	if token == "" {
		return "", fault.New(fault.Missing, "The token file “%s” is empty.", path)
	}
	return token, nil
}
