package reminders_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/reminders"
)

func TestEveryRefusalHasAName(t *testing.T) {
	seen := map[string]bool{}
	for r := reminders.RateLimited; r <= reminders.MessageGone; r++ {
		name := r.String()
		assert.False(t, name == "" || seen[name] || strings.HasPrefix(name, "refusal"), "%d is called %q", int(r), name)
		seen[name] = true
	}
	for _, r := range []reminders.Refusal{-1, 0, reminders.MessageGone + 1} {
		assert.Equal(t, fmt.Sprintf("refusal %d", int(r)), r.String(), "no refusal of ours")
	}
}

func TestARefusalIsFoundInsideOtherErrors(t *testing.T) {
	said := errors.New("HTTP 404")
	err := fmt.Errorf("post: %w", &reminders.Refused{Why: reminders.ChannelGone, Err: said})
	var refused *reminders.Refused
	assert.ErrorAs(t, err, &refused)
	assert.ErrorIs(t, err, said)
	assert.Equal(t, "post: refused, channel gone: HTTP 404", err.Error())
}
