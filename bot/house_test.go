package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// root is the top of the repository, seen from this package.
const root = ".."

// rooms are the top-level rooms by height: a package imports its own room or a
// lower one, never one beside or above.
var rooms = map[string]int{"calc": 0, "storage": 1, "commands": 2, "reminders": 2, "bot": 3}

// calcRooms are the packages of calc by height, by the same rule.
var calcRooms = map[string]int{
	"fault": 0, "measure": 1, "feedstock": 2, "mix": 3, "heap": 4,
	"water": 5, "hygiene": 5, "process": 6, "maturity": 6, "advice": 7, "trouble": 7, "spread": 7, "duty": 8, "audit": 9,
}

// keepers are the modules that only some packages may import.
var keepers = map[string][]string{
	"github.com/bwmarrin/discordgo":            {"bot/discord", "bot/discord/discordtest"},
	"github.com/gorilla/websocket":             {"bot/discord", "bot/discord/discordtest"},
	"github.com/mattn/go-sqlite3":              {"storage"},
	"github.com/pressly/goose/v3":              {"storage"},
	"github.com/robfig/cron/v3":                {"reminders"},
	"github.com/prometheus/client_golang":      {"bot/gauge"},
	"github.com/prometheus/client_model":       {}, // tests only
	"github.com/prometheus/common":             {}, // tests only
	"gonum.org/v1/plot":                        {"commands/chart"},
	"codeberg.org/go-fonts/liberation":         {"commands/chart"},
	"golang.org/x/image":                       {"commands/chart"},
	"golang.org/x/text":                        {"commands/speech"},
	"github.com/peterh/liner":                  {"bot/terminal"},
	"github.com/mattn/go-runewidth":            {"bot/terminal"},
	"github.com/stretchr/testify":              {}, // tests only
	"github.com/santhosh-tekuri/jsonschema/v6": {"bot/discord/discordtest"},
}

// impure are the packages that pure computation does without.
var impure = []string{"os", "net", "database/sql", "log", "log/slog", "syscall"}

// source is one Go file: the package's directory from the top, and its tree.
type source struct {
	path, dir string
	test      bool
	ast       *ast.File
}

func sources(t *testing.T) []source {
	t.Helper()
	var out []source
	eachFile(t, func(name string) {
		if path.Ext(name) != ".go" {
			return
		}
		tree, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, name), nil, parser.SkipObjectResolution)
		require.NoError(t, err)
		out = append(out, source{name, path.Dir(name), strings.HasSuffix(name, "_test.go"), tree})
	})
	require.NotEmpty(t, out)
	return out
}

// eachFile visits every file of the repository that is not ignored, by its
// slashed path from the top.
func eachFile(t *testing.T, visit func(name string)) {
	t.Helper()
	ignored := ignoredNames(t)
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, p)
		if err != nil {
			return err
		}
		switch rel = filepath.ToSlash(rel); {
		case rel == ".git" && !d.IsDir(): // of a linked working tree
			return nil
		case rel == ".git":
			return fs.SkipDir
		case ignored(rel) && d.IsDir():
			return fs.SkipDir
		case !ignored(rel) && !d.IsDir():
			visit(rel)
		}
		return nil
	})
	require.NoError(t, err)
}

// ignoredNames reads the repository's list of what does not belong to it.
func ignoredNames(t *testing.T) func(rel string) bool {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(root, ".gitignore"))
	require.NoError(t, err)
	patterns := strings.Fields(string(data))
	return func(rel string) bool {
		return slices.ContainsFunc(patterns, func(p string) bool {
			name := path.Base(rel)
			if strings.HasPrefix(p, "/") {
				p, name = p[1:], rel
			}
			ok, _ := path.Match(strings.TrimSuffix(p, "/"), name)
			return ok
		})
	}
}

func (s source) imports(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, i := range s.ast.Imports {
		p, err := strconv.Unquote(i.Path.Value)
		require.NoError(t, err)
		out = append(out, p)
	}
	return out
}

// within reports whether an import path is pkg or lies under it.
func within(imported, pkg string) bool {
	return imported == pkg || strings.HasPrefix(imported, pkg+"/")
}

// calcRoom is the package of calc that a directory is or lies in.
func calcRoom(dir string) string {
	room, _, _ := strings.Cut(strings.TrimPrefix(dir, "calc/"), "/")
	return room
}

func TestImportsOnlyRunDown(t *testing.T) {
	for _, s := range sources(t) {
		for _, imported := range s.imports(t) {
			target, ok := strings.CutPrefix(imported, "heapside/")
			if !ok || within(s.dir, "testdata") {
				continue
			}
			from, _, _ := strings.Cut(s.dir, "/")
			to, _, _ := strings.Cut(target, "/")
			if to == "testdata" {
				assert.True(t, s.test || from == "bot", "%s: only tests and the wiring read testdata, not %s", s.path, imported)
				continue
			}
			if from != to {
				assert.Contains(t, rooms, from, "%s lies in no known room", s.path)
				assert.Less(t, rooms[to], rooms[from], "%s imports %s", s.path, imported)
			}
			below, above := calcRoom(target), calcRoom(s.dir)
			if from == "calc" && to == "calc" && below != above {
				assert.Contains(t, calcRooms, below, "%s has no height yet", target)
				assert.Contains(t, calcRooms, above, "%s has no height yet", s.dir)
				assert.Less(t, calcRooms[below], calcRooms[above], "%s imports %s", s.path, imported)
			}
		}
	}
}

func TestOneKeeperPerTechnology(t *testing.T) {
	for _, s := range sources(t) {
		for _, imported := range s.imports(t) {
			for module, dirs := range keepers {
				if within(imported, module) && !s.test {
					testSupport := module == "github.com/stretchr/testify" && strings.HasSuffix(s.dir, "test")
					assert.True(t, testSupport || slices.Contains(dirs, s.dir), "%s imports %s", s.path, imported)
				}
			}
		}
	}
}

func TestCalcIsPure(t *testing.T) {
	for _, s := range sources(t) {
		if s.test || !within(s.dir, "calc") {
			continue
		}
		for _, imported := range s.imports(t) {
			for _, pkg := range impure {
				assert.False(t, within(imported, pkg), "%s imports %s", s.path, imported)
			}
		}
		ast.Inspect(s.ast, func(n ast.Node) bool {
			sel, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			pkg, ok := sel.X.(*ast.Ident)
			if ok && pkg.Name == "time" {
				assert.NotContains(t, []string{"Now", "Since", "Until", "Sleep", "After", "Tick"}, sel.Sel.Name,
					"%s reads the clock; now comes in as a value", s.path)
			}
			return true
		})
	}
}

func TestTopLevelHoldsTheRoomsAndNothingElse(t *testing.T) {
	allowed := []string{"bot", "commands", "calc", "reminders", "storage", "testdata",
		"go.mod", "go.sum", "README.md", "DEVELOPERS.md", "LICENSE"}
	ignored := ignoredNames(t)
	entries, err := os.ReadDir(root)
	require.NoError(t, err)
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && !ignored(e.Name()) {
			assert.Contains(t, allowed, e.Name())
		}
	}
}

func TestNoFileNamesOneMachine(t *testing.T) {
	// Written in two halves, so that this file passes its own test.
	marks := []string{"/wo" + "rk/", "/tm" + "p/", "/ro" + "ot/", "/ho" + "me/", "/Use" + "rs/"}
	eachFile(t, func(name string) {
		data, err := os.ReadFile(filepath.Join(root, name))
		require.NoError(t, err)
		for _, mark := range marks {
			assert.False(t, bytes.Contains(data, []byte(mark)), "%s holds the path %s", name, mark)
		}
	})
}
