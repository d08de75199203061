package discord

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMessagesHaveOneDoor walks the source: a message on the wire is made in
// newBody only, its mentions are touched nowhere else, and requests leave by
// the few functions below, none of which is a shortcut of the client library's.
func TestMessagesHaveOneDoor(t *testing.T) {
	doors := map[string]string{ // what leads out or is dangerous: the function it belongs to
		"body{":                            "newBody",
		"mentions{":                        "newBody",
		".AllowedMentions":                 "newBody",
		".RequestWithLockedBucket":         "send",
		".once.Do":                         "request",
		".ApplicationCommandBulkOverwrite": "publish",
	}
	// Methods of a session that send a message with mentions as the platform likes.
	shortcuts := []string{
		"ChannelMessageSend", "ChannelMessageEdit", "InteractionRespond", "InteractionResponseEdit", "FollowupMessage", "Webhook",
		"RequestWithBucketID", "Request", "RequestRaw",
	}
	met := map[string]bool{}
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".go") || strings.HasSuffix(e.Name(), "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), e.Name(), nil, 0)
		require.NoError(t, err)
		for _, d := range file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok {
				continue
			}
			ast.Inspect(f, func(n ast.Node) bool {
				what := leads(n)
				if owner, ok := doors[what]; ok {
					assert.Equal(t, owner, f.Name.Name, "%s: %s", e.Name(), what)
					met[what] = true
				}
				for _, s := range shortcuts {
					assert.False(t, strings.HasPrefix(what, "."+s) && doors[what] == "", "%s: %s calls %s", e.Name(), f.Name.Name, what)
				}
				return true
			})
		}
	}
	for what := range doors {
		assert.True(t, met[what], "%s is looked for and nowhere to be found", what)
	}
}

// leads is what a node makes or selects: "body{" or ".Send".
func leads(n ast.Node) string {
	switch n := n.(type) {
	case *ast.CompositeLit:
		if name, ok := n.Type.(*ast.Ident); ok {
			return name.Name + "{"
		}
	case *ast.SelectorExpr:
		if pkg, ok := n.X.(*ast.Ident); ok && (pkg.Name == "http" || pkg.Name == "discordgo") {
			return "" // a package's name, no method
		}
		if from, ok := n.X.(*ast.SelectorExpr); ok && n.Sel.Name == "Do" {
			return "." + from.Sel.Name + ".Do"
		}
		return "." + n.Sel.Name
	}
	return ""
}
