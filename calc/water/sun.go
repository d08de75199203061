package water

import "math"

// Constants of the radiation equations.
const (
	solarMJ   = 0.0820   // solar constant, MJ/m2 per minute (eq. 21)
	stefanMJ  = 4.903e-9 // Stefan-Boltzmann, MJ/K4 m2 day (eq. 39)
	albedo    = 0.23     // of the reference grass (eq. 38)
	kelvin    = 273.16   // as FAO-56 adds it in eq. 39
	mmPerMJ   = 0.408    // mm of water that 1 MJ/m2 evaporates (eq. 20)
	darkCloud = 0.5      // share of clear-sky sun assumed where the sun does not rise (own choice)
)

// Sun is where the sun stands on one day at one latitude. Angles in radians.
type Sun struct {
	Distance    float64 // inverse relative distance earth-sun (eq. 23)
	Declination float64 // (eq. 24)
	Sunset      float64 // sunset hour angle (eq. 25): 0 in the polar night, pi in the polar day
	TopMJ       float64 // radiation at the top of the atmosphere, Ra, MJ/m2 day (eq. 21)
}

// SunOn is the sun at a latitude of -90 to 90 degrees on a day of the year,
// 1 to 366.
func SunOn(latitude float64, dayOfYear int) Sun {
	phi, turn := latitude*math.Pi/180, 2*math.Pi*float64(dayOfYear)/365
	s := Sun{
		Distance:    1 + 0.033*math.Cos(turn),
		Declination: 0.409 * math.Sin(turn-1.39),
	}
	s.Sunset = math.Acos(max(-1, min(1, -math.Tan(phi)*math.Tan(s.Declination))))
	height := s.Sunset*math.Sin(phi)*math.Sin(s.Declination) +
		math.Cos(phi)*math.Cos(s.Declination)*math.Sin(s.Sunset)
	s.TopMJ = max(0, 24*60/math.Pi*solarMJ*s.Distance*height)
	return s
}

// DaylightH is the hours from sunrise to sunset, 0 to 24 (eq. 34).
func (s Sun) DaylightH() float64 { return 24 / math.Pi * s.Sunset }

// FromSunshine is the sun that reaches the ground, Rs in MJ/m2 day, when it
// shone for so many hours (eq. 35 with a 0.25, b 0.50). More hours than the day
// has count as all of them.
func (s Sun) FromSunshine(hours float64) float64 {
	share := 0.0
	if day := s.DaylightH(); day > 0 {
		share = min(1, hours/day)
	}
	return (0.25 + 0.50*share) * s.TopMJ
}

// FromTemperatures is Rs in MJ/m2 day from a day's lowest and highest
// temperature (eq. 50), never more than a clear sky lets through.
func (s Sun) FromTemperatures(minC, maxC float64, coast bool) float64 {
	k := 0.16
	if coast {
		k = 0.19
	}
	return min(k*math.Sqrt(max(0, maxC-minC)), 0.75) * s.TopMJ
}

// ClearMJ is Rs under a clear sky at a height in metres (eq. 37).
func (s Sun) ClearMJ(elevationM float64) float64 { return (0.75 + 2e-5*elevationM) * s.TopMJ }

// NetShort is the net solar radiation Rns in MJ/m2 day (eq. 38).
func NetShort(sunMJ float64) float64 { return (1 - albedo) * sunMJ }

// NetLong is the net outgoing heat radiation Rnl in MJ/m2 day (eq. 39), from the
// day's temperatures, its actual vapour pressure in kPa, and the sun that came
// and that a clear sky would have let through. Their ratio is held to 0.3-1
// (upper bound: eq. 39; lower bound: ASCE 2005, from memory).
func NetLong(minC, maxC, actualKPa, sunMJ, clearMJ float64) float64 {
	share := darkCloud
	if clearMJ > 0 {
		share = max(0.3, min(1, sunMJ/clearMJ))
	}
	fourth := (math.Pow(maxC+kelvin, 4) + math.Pow(minC+kelvin, 4)) / 2
	return stefanMJ * fourth * (0.34 - 0.14*math.Sqrt(max(0, actualKPa))) * (1.35*share - 0.35)
}

// Net is the net radiation Rn in MJ/m2 day (eq. 40).
func Net(shortMJ, longMJ float64) float64 { return shortMJ - longMJ }
