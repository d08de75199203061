package fault_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/calc/fault"
)

func TestWhatIsSaidWithinAFaultIsEnglishUntilItIsTranslated(t *testing.T) {
	wren := fault.Say("whoever manages %s", "this channel")
	e := fault.New(fault.NotAllowed, "%s cannot be done here: ask %s.", fault.Quoted("undo 3"), wren)
	assert.Equal(t, "“undo 3” cannot be done here: ask whoever manages this channel.", e.Message)
	assert.Equal(t, []any{fault.Quoted("undo 3"), wren}, e.Args)
}
