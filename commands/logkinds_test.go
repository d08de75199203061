package commands

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestParseShare(t *testing.T) {
	for said, want := range map[string]float64{
		"": 1, "all": 1, "half": 0.5, "half of it": 0.5, "1/2": 0.5, "½": 0.5, "0.5": 0.5, ".25": 0.25,
		"40 %": 0.4, "40": 0.4, "40 percent": 0.4, "two thirds": 2.0 / 3, "100": 1, "1%": 0.01,
	} {
		got, err := parseShare(said)
		if assert.NoError(t, err, said) {
			assert.InDelta(t, want, got, 1e-12, said)
		}
	}
	for _, said := range []string{"0", "-5", "0.5%", "101", "NaN", "Inf", "1e308", "1/0", "half a bucket", "5-2"} {
		got, err := parseShare(said)
		assert.Error(t, err, "%s became %v", said, got)
	}
}

func TestParseNumber(t *testing.T) {
	for said, want := range map[string]float64{"25": 25, "25:1": 25, "1,8 %": 1.8, "1,000": 1000, "1,200 kg/m3": 1200, "0,450": 0.45, "250 kg/m³": 250} {
		var got float64
		if assert.NoError(t, parseNumber("cn", said, &got), said) {
			assert.InDelta(t, want, got, 1e-12, said)
		}
	}
	for _, said := range []string{"NaN", "Inf", "-1", "0", "1e308", "25 or so", "1,2,3"} {
		got := math.NaN()
		assert.Error(t, parseNumber("cn", said, &got), said)
	}
}
