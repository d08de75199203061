package fault_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/calc/fault"
)

func TestAFaultIsFoundInsideOtherErrors(t *testing.T) {
	bare := fault.New(fault.Unknown, "“%s” is no heap here.", "Long Bay")
	for _, row := range []struct {
		name  string
		err   error
		found bool
	}{
		{"bare", bare, true},
		{"wrapped", fmt.Errorf("show heap: %w", bare), true},
		{"joined", errors.Join(errors.New("close"), bare), true},
		{"another error", errors.New("disk full"), false},
		{"none", nil, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, ok := fault.As(row.err)
			assert.Equal(t, row.found, ok)
			if row.found {
				assert.Equal(t, fault.Unknown, got.Code)
				assert.Equal(t, "“Long Bay” is no heap here.", got.Message)
			}
		})
	}
	assert.EqualError(t, bare, "unknown: “Long Bay” is no heap here.")
}
