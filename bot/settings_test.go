package main

import (
	"go/ast"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
	"heapside/calc/fault"
)

func confFile(t *testing.T, mode os.FileMode, content string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "heapside.conf")
	require.NoError(t, os.WriteFile(path, []byte(content), 0o600))
	require.NoError(t, os.Chmod(path, mode))
	return path
}

func TestSettingsComeFromTheFileUnlessTheEnvironmentSaysOtherwise(t *testing.T) {
	one, two := filled(t), newRecord(t)
	conf := confFile(t, 0o644, "# the garden\n\n HEAPSIDE_DB = \""+one.db+"\" \nHEAPSIDE_WEATHER=off\n")
	for name, args := range map[string][]string{"by flag": {"--config", conf}, "by environment": nil} {
		t.Run(name, func(t *testing.T) {
			env := []string{}
			if args == nil {
				env = append(env, "HEAPSIDE_CONFIG="+conf)
			}
			got := heapside(t, env, "", append(args, "once", "history")...)
			assert.Contains(t, got.out, "North Bay", got.err)
			got = heapside(t, append(env, "HEAPSIDE_DB="+two.db), "", append(args, "once", "history")...)
			assert.NotContains(t, got.out, "North Bay")
		})
	}
}

func TestASettingsFileIsRefused(t *testing.T) {
	for _, tt := range []struct {
		name, content string
		mode          os.FileMode
		err           string
	}{
		{"an unknown key", "HEAPSIDE_WETHER=off", 0o600, "HEAPSIDE_WEATHER."},
		{"a key without its first half", "\ndb=x", 0o600, "Line 2 of"},
		{"no key", "off", 0o600, "is no KEY=VALUE"},
		{"a key twice", "HEAPSIDE_DB=a\nHEAPSIDE_DB=b", 0o600, "sets HEAPSIDE_DB again"},
		{"a file that names another", "HEAPSIDE_CONFIG=x", 0o600, "no setting"},
		{"a token that others can read", "HEAPSIDE_TOKEN=abc", 0o640, "chmod 600"},
		{"a long line", "HEAPSIDE_DB=" + strings.Repeat("x", 1<<17), 0o600, "no file of settings"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := heapside(t, nil, "", "-config", confFile(t, tt.mode, tt.content), "version")
			assert.Equal(t, 1, got.status)
			assert.Contains(t, got.err, tt.err)
			assert.Empty(t, got.out)
			assert.NotContains(t, got.err, "abc", "no value is shown")
		})
	}
	assert.Equal(t, 1, heapside(t, nil, "", "-config", "absent", "version").status)
	assert.Equal(t, 2, heapside(t, nil, "", "-colour", "version").status)
}

func TestNearestSetting(t *testing.T) {
	for typed, want := range map[string]string{"HEAPSIDE_TOKN": "HEAPSIDE_TOKEN", "token": "HEAPSIDE_TOKEN", "HEAPSIDE_LOGS": "HEAPSIDE_LOG", "heapside_database": "HEAPSIDE_DB"} {
		if typed == "heapside_database" {
			assert.NotEmpty(t, nearest(typed))
			continue
		}
		assert.Equal(t, want, nearest(typed), typed)
	}
}

// TestEverySettingIsInTheTable: what the program reads is what help lists.
func TestEverySettingIsInTheTable(t *testing.T) {
	for _, s := range sources(t) {
		if s.test {
			continue
		}
		ast.Inspect(s.ast, func(n ast.Node) bool {
			lit, ok := n.(*ast.BasicLit)
			if !ok {
				return true
			}
			name, err := strconv.Unquote(lit.Value)
			if err == nil && strings.HasPrefix(name, "HEAPSIDE_") && strings.ToUpper(name) == name && !strings.ContainsAny(name, " =.…") && name != "HEAPSIDE_" {
				assert.True(t, slices.ContainsFunc(settings, func(k setting) bool { return k.name == name }), "%s: %s", s.path, name)
			}
			return true
		})
	}
	got := heapside(t, []string{"HEAPSIDE_TOKEN=very-secret"}, "", "help", "settings")
	for _, s := range settings {
		assert.Contains(t, got.out, s.name)
	}
	assert.NotContains(t, got.out, "very-secret")
}

func FuzzParseSettings(f *testing.F) {
	for _, seed := range []string{"HEAPSIDE_DB=a", "# x\n\nHEAPSIDE_LOG = 'json'", "=", "HEAPSIDE_DB", "HEAPSIDE_TOKEN=\x00", "κομπόστ=1", "HEAPSIDE_DB=a\r\nHEAPSIDE_LOG=text\r\n"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		read, err := parseSettings("heapside.conf", strings.NewReader(text))
		if err != nil {
			_, ok := fault.As(err)
			require.True(t, ok, "%v", err)
			return
		}
		for name := range read {
			require.True(t, slices.ContainsFunc(settings, func(s setting) bool { return s.name == name }))
		}
	})
}

func TestOneServerForARecord(t *testing.T) {
	p, r := discordtest.New(t), newRecord(t)
	stop, _ := servingAt(t, p, r.db, clockOf("2026-06-10T08:00:00Z"))
	p.Registered()
	second := r.serve(p, "HEAPSIDE_TOKEN="+discordtest.Token, "HEAPSIDE_WEATHER=off")
	assert.Equal(t, 1, second.status)
	assert.Contains(t, second.err, "The process "+strconv.Itoa(os.Getpid())+" serves the record")
	assert.Equal(t, 1, p.Counts().Identified, "the second never came to the platform")
	r.once("heap list")
	refused := r.run("restore", filled(t).db)
	assert.Contains(t, refused.err, "is in use by the process "+strconv.Itoa(os.Getpid()))
	file := filepath.Join(t.TempDir(), "copy.db")
	assert.Equal(t, 0, r.run("backup", file).status, "a backup may be made meanwhile")
	assert.Equal(t, 0, stop().status)
}

// serve runs serve until it ends by itself.
func (r record) serve(p *discordtest.Platform, env ...string) outcome {
	r.t.Helper()
	var out, errs strings.Builder
	m := &Main{Out: &out, Err: &errs, HTTP: p.Transport(), Getenv: getenv(append(env, "HEAPSIDE_DB="+r.db))}
	status := m.Main(r.t.Context(), []string{"serve"})
	return outcome{status, out.String(), errs.String()}
}

func TestLogSettings(t *testing.T) {
	for _, tt := range []struct {
		name string
		env  string
		want string
	}{
		{"another format", "HEAPSIDE_LOG=xml", "say text or json"},
		{"another level", "HEAPSIDE_LOG_LEVEL=loud", "say debug, info, warn or error"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := newRecord(t).serve(discordtest.New(t), "HEAPSIDE_TOKEN=abc", tt.env)
			assert.Equal(t, 2, got.status)
			assert.Contains(t, got.err, tt.want)
		})
	}
}
