package water

import "math"

// Hour is one hour of a day that was spread.
type Hour struct{ AirC, ET0Mm float64 }

// coldestAt is the solar hour of the lowest temperature; the highest is twelve
// hours later (own choice: a plain sinusoid).
const coldestAt = 3.0

// Hours spreads a day over its 24 solar hours: temperature as a sinusoid
// between the lowest and the highest, evapotranspiration as the sun's half wave
// over the daylight hours, or evenly where there is no daylight. The hours' ET0
// sums to the day's. The shapes are our own choice.
func Hours(minC, maxC, et0Mm, daylightH float64) [24]Hour {
	var hours [24]Hour
	sum := 0.0
	for h := range hours {
		middle := float64(h) + 0.5
		swing := -math.Cos(2 * math.Pi * (middle - coldestAt) / 24)
		hours[h] = Hour{AirC: (minC+maxC)/2 + (maxC-minC)/2*swing, ET0Mm: sunAt(middle, daylightH)}
		sum += hours[h].ET0Mm
	}
	for h := range hours {
		if sum > 0 {
			hours[h].ET0Mm *= et0Mm / sum
		} else {
			hours[h].ET0Mm = et0Mm / 24
		}
	}
	return hours
}

// sunAt is the half wave of the sun at a solar hour, 0 to 1.
func sunAt(hour, daylightH float64) float64 {
	since := hour - (12 - daylightH/2)
	if !(since > 0 && since < daylightH) {
		return 0
	}
	return math.Sin(math.Pi * since / daylightH)
}
