package commands

import (
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/audit"
	"heapside/commands/speech"
)

// TestEveryChangeIsSaid: what can be changed has words, in every language.
func TestEveryChangeIsSaid(t *testing.T) {
	whats := 0
	file, err := parser.ParseFile(token.NewFileSet(), "../calc/audit/audit.go", nil, parser.SkipObjectResolution)
	require.NoError(t, err)
	ast.Inspect(file, func(n ast.Node) bool {
		v, ok := n.(*ast.ValueSpec)
		if !ok {
			return true
		}
		if kind, ok := v.Type.(*ast.Ident); ok && kind.Name == "What" {
			whats++
			name, err := strconv.Unquote(v.Values[0].(*ast.BasicLit).Value)
			require.NoError(t, err)
			_, person := sentences[audit.What(name)]
			_, value := sayings[audit.What(name)]
			assert.True(t, person != value, "%s is said in one way", name)
		}
		return true
	})
	assert.Len(t, sayings, whats-len(sentences))

	same := []string{"", "UTC", "C:N"} // said alike everywhere
	said := 0
	file, err = parser.ParseFile(token.NewFileSet(), "historychange.go", nil, parser.SkipObjectResolution)
	require.NoError(t, err)
	ast.Inspect(file, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok || len(call.Args) != 1 {
			return true
		}
		by, isName := call.Fun.(*ast.Ident)
		lit, isText := call.Args[0].(*ast.BasicLit)
		if !isName || !isText || !slices.Contains([]string{"word", "unsetWord", "material"}, by.Name) {
			return true
		}
		text, err := strconv.Unquote(lit.Value)
		require.NoError(t, err)
		said++
		for _, code := range []string{"de", "fr", "es", "nl"} {
			assert.True(t, slices.Contains(same, text) || speech.Of(code).Knows(text), "%s has no words for: %s", code, text)
		}
		return true
	})
	assert.NotZero(t, said)
	for _, topic := range []audit.Topic{audit.Settings, audit.Reminders, audit.Stock} {
		assert.True(t, speech.Of("de").Knows(string(topic)), topic)
	}
}
