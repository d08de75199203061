// Package published holds check values that others published, with their
// sources, for tests to compute again. A row says whether its source was seen.
package published

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"slices"
	"sync"
)

//go:embed mix-checks.json
var mixJSON []byte

// Check is one worked example or table value. Numbers in the maps are float64,
// lists []any and objects map[string]any, as encoding/json reads them.
type Check struct {
	ID        string         `json:"id"`
	Topic     int            `json:"topic"`
	Kind      string         `json:"kind"` // published, published-slip, derived, exercise-derived, formula-derived, naive-average, memory
	Source    string         `json:"source"`
	Locator   string         `json:"locator"`
	Formula   string         `json:"formula"`
	Seen      bool           `json:"seen"` // the source itself was read
	Inputs    map[string]any `json:"inputs"`
	Expect    map[string]any `json:"expect"`    // as published
	Tolerance map[string]any `json:"tolerance"` // per value of Expect
	Correct   map[string]any `json:"correct"`   // where Expect is a counter-example
	Note      string         `json:"note"`
}

var mix = sync.OnceValue(func() []Check {
	var checks []Check
	if err := json.Unmarshal(mixJSON, &checks); err != nil {
		panic(fmt.Sprintf("mix-checks.json: %v", err))
	}
	return checks
})

// Mix returns the checks of mixing, moisture, density and volume, in file order.
func Mix() []Check { return slices.Clone(mix()) }

// ByID returns the check with that id; false when there is none.
func ByID(id string) (Check, bool) {
	i := slices.IndexFunc(mix(), func(c Check) bool { return c.ID == id })
	if i < 0 {
		return Check{}, false
	}
	return mix()[i], true
}
