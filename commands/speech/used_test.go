package speech_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/feedstock"
	"heapside/commands/speech"
)

// literals are the texts in the code that may be said, whole and before what
// titles of jobs go on with.
func literals(t *testing.T) (all, said map[string]bool) {
	all, said = map[string]bool{}, map[string]bool{}
	for _, root := range []string{"..", filepath.Join("..", "..", "calc"), filepath.Join("..", "..", "storage")} {
		require.NoError(t, filepath.WalkDir(root, func(path string, _ fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
					text, _ := strconv.Unquote(lit.Value)
					all[text], all[strings.ReplaceAll(text, "%", "%%")] = true, true
					if end := strings.IndexAny(text, ":,"); end > 0 {
						all[text[:end]] = true
					}
				}
				key, ok := saidBy(n)
				if !ok && refusing[filepath.Base(path)] {
					key, ok = refusedBy(n)
				}
				if ok {
					said[key] = true
				}
				return true
			})
			return nil
		}))
	}
	return all, said
}

// refusing are the files whose refusals all have words.
var refusing = map[string]bool{"ahead.go": true, "clock.go": true, "weekday.go": true,
	"dutyitem.go": true, "dutylesson.go": true, "dutyrota.go": true, "dutyset.go": true, "trouble.go": true, "seeds_read.go": true, "flask.go": true, "mix.go": true, "mixaim.go": true, "heapcmd.go": true, "stock.go": true, "visit.go": true, "logkinds.go": true, "logmove.go": true}

// saidBy is the key of a call of Say or Word with a literal.
func saidBy(n ast.Node) (string, bool) { return literalOf(n, 0, "Say", "Word") }

// refusedBy is the format of a call of fault.New.
func refusedBy(n ast.Node) (string, bool) { return literalOf(n, 1, "New") }

// literalOf is the literal that a call of one of some methods has as an argument.
func literalOf(n ast.Node, arg int, methods ...string) (string, bool) {
	call, ok := n.(*ast.CallExpr)
	if !ok || len(call.Args) <= arg {
		return "", false
	}
	name, ok := call.Fun.(*ast.SelectorExpr)
	lit, isText := call.Args[arg].(*ast.BasicLit)
	if !ok || !isText || !slices.Contains(methods, name.Sel.Name) {
		return "", false
	}
	key, err := strconv.Unquote(lit.Value)
	return key, err == nil
}

// warnings are what a table of materials says of them: why one stays out, and
// what to mind with the others.
func warnings() []string {
	var all []string
	for _, f := range feedstock.Default().All() {
		all = append(all, f.Cautions()...)
	}
	for _, r := range feedstock.Default().Refusals() {
		all = append(all, r.Reason)
	}
	return all
}

// TestWhatIsSaidHasWordsEverywhere: a person would hear English in the middle
// of their own language.
func TestWhatIsSaidHasWordsEverywhere(t *testing.T) {
	_, said := literals(t)
	require.NotEmpty(t, said)
	for _, w := range warnings() {
		said[w] = true
	}
	for _, code := range translated {
		for key := range said {
			assert.True(t, speech.Of(code).Knows(key), "%s has no words for: %s", code, key)
		}
	}
}

// TestNoWordsAreDead: words for what is not said any more mislead who translates.
func TestNoWordsAreDead(t *testing.T) {
	all, _ := literals(t)
	for _, w := range warnings() {
		all[w] = true
	}
	for _, prefix := range []string{"smells "} {
		for _, smell := range []string{"earthy", "ammonia", "rotten", "sour"} {
			all[prefix+smell] = true
		}
	}
	for day := range 7 {
		all[time.Weekday(day).String()] = true
	}
	for _, test := range []string{"look", "bag", "jar", "radish", "self-heating", "germination", "lab"} {
		all[test+" test"] = true
	}
	for _, key := range speech.Keys("de") {
		value, meaning, isChoice := strings.Cut(key, ": ")
		assert.True(t, all[key] || isChoice && all[value] && all[meaning], "nothing says: %s", key)
	}
}
