package published

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"maps"
	"sync"
)

//go:embed standards-checks.json
var standardsJSON []byte

// StandardCheck is a check value of a rule that others published: for heat, for
// ripeness, for running a heap. Numbers are float64 and lists []any, as
// encoding/json reads them.
type StandardCheck struct {
	ID        string         `json:"id"`
	Source    string         `json:"source"`
	Locator   string         `json:"locator"`
	Inputs    map[string]any `json:"inputs"`
	Expect    map[string]any `json:"expect"`
	Tolerance float64        `json:"tolerance"`
	Seen      string         `json:"seen"` // what was read of the source
}

var standards = sync.OnceValue(func() map[string]StandardCheck {
	var checks []StandardCheck
	if err := json.Unmarshal(standardsJSON, &checks); err != nil {
		panic(fmt.Sprintf("standards-checks.json: %v", err))
	}
	byID := make(map[string]StandardCheck, len(checks))
	for _, c := range checks {
		byID[c.ID] = c
	}
	return byID
})

// Standards returns the checks of heat, ripeness and running a heap by id.
func Standards() map[string]StandardCheck { return maps.Clone(standards()) }
