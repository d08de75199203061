package water

import (
	"math"
	"strings"

	"heapside/calc/fault"
)

// Penman is what the Penman-Monteith equation takes.
type Penman struct {
	MeanC        float64 // mean air temperature
	NetMJ        float64 // Rn, MJ/m2 day
	SoilMJ       float64 // G, MJ/m2 day, about 0 for one day (eq. 42)
	WindMS       float64 // at 2 m
	SaturatedKPa float64 // es
	ActualKPa    float64 // ea
	ElevationM   float64
}

// ET0Mm is the reference evapotranspiration of the day in mm, 0 or more (eq. 6).
func (p Penman) ET0Mm() float64 {
	slope, gamma := Slope(p.MeanC), Psychrometric(Pressure(p.ElevationM))
	deficit := max(0, p.SaturatedKPa-p.ActualKPa)
	top := mmPerMJ*slope*(p.NetMJ-p.SoilMJ) + gamma*900/(p.MeanC+273)*p.WindMS*deficit
	return max(0, top/(slope+gamma*(1+0.34*p.WindMS)))
}

// Hargreaves is the reference evapotranspiration of a day in mm from its
// temperatures and Ra in MJ/m2 day, 0 or more (eq. 52; the equation takes Ra as
// millimetres of water, hence the 0.408).
func Hargreaves(minC, maxC, topMJ float64) float64 {
	mean := (minC + maxC) / 2
	return max(0, 0.0023*(mean+17.8)*math.Sqrt(max(0, maxC-minC))*mmPerMJ*topMJ)
}

// Day is what is known of a day's weather. A nil pointer is not known.
type Day struct {
	OfYear     int // 1 to 366
	MinC, MaxC float64
	RHMin      *float64 // percent; used when RHMax is known too
	RHMax      *float64
	RHMean     *float64
	DewC       *float64
	WindMS     *float64 // at 2 m: see WindAt2m
	SunMJ      *float64 // measured Rs, MJ/m2
	SunshineH  *float64 // used when SunMJ is not known
	Coast      bool     // on a coast, for sun guessed from temperatures
}

// ET0 is the reference evapotranspiration of a day in mm by the best method the
// data allow, and which that was. With temperatures alone it is Hargreaves;
// otherwise Penman-Monteith, filling gaps as FAO-56 chapter 3 advises: dew point
// as the lowest temperature (eq. 48), wind 2 m/s, sun from temperatures. A value
// that no place on earth has is a *fault.Error.
func ET0(d Day, latitude, elevationM float64) (mm float64, how string, err error) {
	if err := d.check(latitude, elevationM); err != nil {
		return 0, "", err
	}
	sun := SunOn(latitude, d.OfYear)
	var gaps []string
	actual, gap := d.actual()
	gaps = appendKnown(gaps, gap)
	wind, gap := d.wind()
	gaps = appendKnown(gaps, gap)
	sunMJ, gap := d.sun(sun)
	gaps = appendKnown(gaps, gap)
	if len(gaps) == 3 {
		return Hargreaves(d.MinC, d.MaxC, sun.TopMJ), "Hargreaves, from temperatures alone", nil
	}
	how = "Penman-Monteith"
	if len(gaps) > 0 {
		how += " with " + strings.Join(gaps, " and ")
	}
	return d.penman(actual, wind, sunMJ, sun.ClearMJ(elevationM), elevationM).ET0Mm(), how, nil
}

func (d Day) penman(actual, wind, sunMJ, clearMJ, elevationM float64) Penman {
	return Penman{
		MeanC:        (d.MinC + d.MaxC) / 2,
		NetMJ:        Net(NetShort(sunMJ), NetLong(d.MinC, d.MaxC, actual, sunMJ, clearMJ)),
		WindMS:       wind,
		SaturatedKPa: MeanVapourPressure(d.MinC, d.MaxC),
		ActualKPa:    actual,
		ElevationM:   elevationM,
	}
}

func appendKnown(list []string, s string) []string {
	if s == "" {
		return list
	}
	return append(list, s)
}

// actual is ea in kPa in the order of preference of FAO-56 chapter 3, and the
// gap that was filled.
func (d Day) actual() (kPa float64, gap string) {
	switch {
	case d.DewC != nil:
		return VapourPressure(*d.DewC), ""
	case d.RHMin != nil && d.RHMax != nil:
		return ActualFromRange(d.MinC, d.MaxC, *d.RHMin, *d.RHMax), ""
	case d.RHMean != nil:
		return ActualFromMean(d.MinC, d.MaxC, *d.RHMean), ""
	}
	return VapourPressure(d.MinC), "the lowest temperature as dew point"
}

func (d Day) wind() (ms float64, gap string) {
	if d.WindMS != nil {
		return *d.WindMS, ""
	}
	return 2, "wind taken as 2 m/s"
}

func (d Day) sun(s Sun) (mj float64, gap string) {
	switch {
	case d.SunMJ != nil:
		return *d.SunMJ, ""
	case d.SunshineH != nil:
		return s.FromSunshine(*d.SunshineH), ""
	}
	return s.FromTemperatures(d.MinC, d.MaxC, d.Coast), "sun from temperatures"
}

// check refuses what no weather station on earth reads; the bounds are our own
// choice, outside the known records.
func (d Day) check(latitude, elevationM float64) error {
	rows := []struct {
		name, unit string
		v          *float64
		low, high  float64
	}{
		{"latitude", "degrees", &latitude, -90, 90},
		{"height above the sea", "m", &elevationM, -500, 9000},
		{"lowest temperature", "°C", &d.MinC, -95, 60},
		{"highest temperature", "°C", &d.MaxC, -95, 60},
		{"lowest humidity", "%", d.RHMin, 0, 100},
		{"highest humidity", "%", d.RHMax, 0, 100},
		{"mean humidity", "%", d.RHMean, 0, 100},
		{"dew point", "°C", d.DewC, -110, 40},
		{"wind", "m/s", d.WindMS, 0, 120},
		{"solar radiation", "MJ/m²", d.SunMJ, 0, 60},
		{"sunshine", "hours", d.SunshineH, 0, 24},
	}
	for _, r := range rows {
		if r.v != nil && !(*r.v >= r.low && *r.v <= r.high) {
			return fault.New(fault.OutOfRange, "A %s of %g %s cannot be: it lies between %g and %g.", r.name, *r.v, r.unit, r.low, r.high)
		}
	}
	if d.MinC > d.MaxC {
		return fault.New(fault.OutOfRange, "The lowest temperature, %g °C, is above the highest, %g °C.", d.MinC, d.MaxC)
	}
	if d.OfYear < 1 || d.OfYear > 366 {
		return fault.New(fault.OutOfRange, "Day %d of a year cannot be: a year has days 1 to 366.", d.OfYear)
	}
	return nil
}
