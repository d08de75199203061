package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func deployed(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("deploy", name))
	require.NoError(t, err)
	return string(data)
}

var settingName = regexp.MustCompile(`HEAPSIDE_[A-Z_]+`)

// TestDeploymentsSetWhatThereIs: a setting that is renamed is renamed there too.
func TestDeploymentsSetWhatThereIs(t *testing.T) {
	for _, name := range []string{"heapside.service", "Dockerfile"} {
		found := settingName.FindAllString(deployed(t, name), -1)
		require.NotEmpty(t, found)
		for _, said := range found {
			assert.True(t, slices.ContainsFunc(settings, func(s setting) bool { return s.name == said }), "%s: %s", name, said)
		}
	}
}

func TestTheServiceStartsWhatThereIs(t *testing.T) {
	unit := deployed(t, "heapside.service")
	start := regexp.MustCompile(`(?m)^ExecStart=/usr/local/bin/heapside (.+)$`).FindStringSubmatch(unit)
	require.NotNil(t, start)
	require.NoError(t, (&Main{Getenv: getenv(nil)}).ParseFlags(strings.Fields(start[1])))

	verify, err := exec.LookPath("systemd-analyze")
	if err != nil {
		t.Skip("no systemd-analyze here to verify the rest")
	}
	// The program need not be installed where the tests run.
	self, err := os.Executable()
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "heapside.service")
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(unit, "/usr/local/bin/heapside", self, 1)), 0o600))
	said, err := exec.Command(verify, "verify", path).CombinedOutput()
	require.NoError(t, err, "%s", said)
}

func TestTheImageIsMadeOfWhatThereIs(t *testing.T) {
	var user, cmd string
	for _, line := range strings.Split(deployed(t, "Dockerfile"), "\n") {
		words := strings.Fields(line)
		if len(words) == 0 {
			continue
		}
		switch words[0] {
		case "COPY":
			if strings.HasPrefix(words[1], "--from=") {
				continue
			}
			for _, from := range words[1 : len(words)-1] {
				_, err := os.Stat(filepath.Join(root, from))
				assert.NoError(t, err, line)
			}
		case "USER":
			user = words[1]
		case "CMD":
			cmd = strings.Trim(strings.Join(words[1:], " "), `[]"`)
		}
	}
	assert.NotContains(t, []string{"", "0", "root"}, user)
	require.NoError(t, (&Main{Getenv: getenv(nil)}).ParseFlags([]string{cmd}))
	version := regexp.MustCompile(`(?m)^go (\d+\.\d+)`)
	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	require.NoError(t, err)
	assert.Contains(t, deployed(t, "Dockerfile"), "FROM golang:"+version.FindStringSubmatch(string(mod))[1]+"-")
}
