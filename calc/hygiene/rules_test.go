package hygiene

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestRulesAreWhole: each rule names its source, asks something, and a stricter
// reading asks more than the rule it reads.
func TestRulesAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules() {
		assert.False(t, seen[r.Code], "%s twice", r.Code)
		seen[r.Code] = true
		for what, text := range map[string]string{"code": r.Code, "name": r.Name, "source": r.Source, "locator": r.Locator, "scope": r.Scope, "seen": string(r.Seen)} {
			assert.NotEmpty(t, text, "%s of %s", what, r.Code)
		}
		assert.NotZero(t, r.Systems, r.Code)
		assert.Positive(t, r.Hold.For, r.Code)
		assert.True(t, r.Hold.C >= 40 && r.Hold.C <= 70, r.Code)
		assert.Equal(t, r.Seen == FromMemory, strings.Contains(r.Locator, "from memory"), r.Code)
		assert.Equal(t, r.NotGardens, strings.Contains(strings.ToLower(r.Scope), "leaves"), "%s: what is left out is said", r.Code)
		if r.StrictOf != "" {
			plain, ok := RuleByCode(r.StrictOf)
			assert.True(t, ok, r.Code)
			assert.True(t, r.Unbroken && !plain.Unbroken, r.Code)
			assert.Equal(t, plain.Systems, r.Systems, r.Code)
		}
	}
	_, ok := RuleByCode("none")
	assert.False(t, ok)
}

func TestRulesAreGivenAsACopy(t *testing.T) {
	Rules()[0].Code = "changed"
	_, ok := RuleByCode("changed")
	assert.False(t, ok)
}

func TestBand(t *testing.T) {
	nop, _ := RuleByCode("nop-windrow")
	psrp, _ := RuleByCode("psrp")
	rows := []struct {
		name string
		hold Hold
		c    float64
		want bool
	}{
		{"at the threshold", Hold{C: 55}, 55, true},
		{"below", Hold{C: 55}, 54.99, false},
		{"at a threshold to be passed", psrp.Peak, 55, false},
		{"above it", psrp.Peak, 55.01, true},
		{"at 131 F", nop.Hold, celsius(131), true},
		{"at 170 F", nop.Hold, celsius(170), true},
		{"above 170 F", nop.Hold, celsius(170.1), false},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) { assert.Equal(t, r.want, r.hold.band().holds(r.c)) })
	}
}
