package published

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"maps"
	"sync"
)

//go:embed process-checks.json
var processJSON []byte

// ProcessCheck is a check value of how heaps heat, of moist air, of water and of
// filtering. Numbers are float64 and lists []any, as encoding/json reads them.
type ProcessCheck struct {
	ID        string         `json:"id"`
	Source    string         `json:"source"`
	Locator   string         `json:"locator"`
	Inputs    map[string]any `json:"inputs"`
	Expect    map[string]any `json:"expect"`
	Tolerance any            `json:"tolerance"` // a number, numbers by name, or words
	Seen      string         `json:"seen"`      // what was read of the source
}

var process = sync.OnceValue(func() map[string]ProcessCheck {
	var checks []ProcessCheck
	if err := json.Unmarshal(processJSON, &checks); err != nil {
		panic(fmt.Sprintf("process-checks.json: %v", err))
	}
	byID := make(map[string]ProcessCheck, len(checks))
	for _, c := range checks {
		byID[c.ID] = c
	}
	return byID
})

// Process returns the checks of process and water by id.
func Process() map[string]ProcessCheck { return maps.Clone(process()) }
