package weather

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPlaces(t *testing.T) {
	for _, row := range []struct {
		name     string
		lat, lon float64
		want     string
	}{
		{"two decimals", 51.05432, 3.72139, "51.05,3.72"},
		{"whole", 51, -3, "51,-3"},
		{"no signed zero", -0.001, -0.004, "0,0"},
		{"180 degrees has one name", 10, -180, "10,180"},
		{"rounding crosses to it", 10, -179.999, "10,180"},
		{"just west of it", -17.5, -179.98, "-17.5,-179.98"},
		{"the pole has one longitude", 90, 77, "90,0"},
		{"the other pole too", -89.999, -77, "-90,0"},
	} {
		t.Run(row.name, func(t *testing.T) {
			p, err := At(row.lat, row.lon)
			require.NoError(t, err)
			assert.Equal(t, row.want, p.String())
		})
	}
	for _, bad := range [][2]float64{{91, 0}, {-90.01, 0}, {0, 180.1}, {math.NaN(), 0}, {0, math.NaN()}, {0, math.Inf(1)}} {
		_, err := At(bad[0], bad[1])
		assert.ErrorContains(t, err, "out_of_range", "%v", bad)
	}
}

func TestNWSCoversTheStates(t *testing.T) {
	for _, row := range []struct {
		name     string
		lat, lon float64
		want     bool
	}{
		{"Oregon", 45.5, -122.7, true},
		{"Adak, east of the date line's far side", 51.88, -176.65, true},
		{"Attu, west of it", 52.9, 172.9, true},
		{"Honolulu", 21.3, -157.9, true},
		{"San Juan", 18.4, -66.1, true},
		{"Guam", 13.5, 144.8, true},
		{"Ghent", 51.05, 3.72, false},
		{"the north pole", 90, 0, false},
		{"Fiji", -17.5, 180, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			p, err := At(row.lat, row.lon)
			require.NoError(t, err)
			assert.Equal(t, row.want, (&nws{}).Covers(p))
		})
	}
}
