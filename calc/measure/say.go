package measure

import (
	"math"
	"strconv"
	"strings"
	"time"
)

var quarters = [...]string{"", "¼", "½", "¾"}

// nearQuarter is how far a number may be from a quarter to be written as one.
const nearQuarter = 0.005

// Say writes a number as people do: "2½", "¾", "3", "2.4", "1,200".
func Say(v float64) string {
	if v < 0 {
		return "-" + Say(-v)
	}
	if q := math.Round(v * 4); math.Abs(v*4-q) < 4*nearQuarter && (q > 0 || v == 0) && v < 100 {
		whole, part := int(q)/4, quarters[int(q)%4]
		if whole == 0 && part != "" {
			return part
		}
		return strconv.Itoa(whole) + part
	}
	switch {
	case v >= 10:
		return groups(strconv.FormatFloat(math.Round(v), 'f', 0, 64))
	case v >= 1:
		return trimZeros(strconv.FormatFloat(v, 'f', 1, 64))
	default:
		return trimZeros(strconv.FormatFloat(v, 'f', 2, 64))
	}
}

func trimZeros(s string) string { return strings.TrimRight(strings.TrimRight(s, "0"), ".") }

// groups puts a comma before each three digits.
func groups(digits string) string {
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits
}

// roundTo rounds v to a whole number of steps.
func roundTo(v, step float64) float64 { return math.Round(v/step) * step }

// SayNumber writes a number as Say does, in the language of the measures.
func (m Measures) SayNumber(v float64) string { return m.Style.say(v) }

// SayPlaces writes a number with some decimals.
func (m Measures) SayPlaces(v float64, places int) string {
	return m.Style.number(strconv.FormatFloat(v, 'f', places, 64))
}

// SayMass writes kilograms in the group's units.
func (m Measures) SayMass(kg float64) string {
	if kg <= 0 {
		return m.Style.word("nothing")
	}
	if m.System == US || m.System == Imperial {
		return m.sayPounds(kg / poundKg)
	}
	switch {
	case kg < 0.1:
		return m.Style.say(math.Max(1, math.Round(kg*1000))) + " g"
	case kg < 0.975:
		return m.Style.say(roundTo(kg*1000, 50)) + " g"
	case kg < 10:
		return m.Style.say(roundTo(kg, 0.5)) + " kg"
	case kg < 1000:
		return m.Style.say(math.Round(kg)) + " kg"
	}
	return m.Style.counted(roundTo(kg/1000, 0.1), "tonne", "tonnes")
}

func (m Measures) sayPounds(lb float64) string {
	ton := 2000.0
	if m.System == Imperial {
		ton = 2240
	}
	switch {
	case lb < 15.5/16:
		return m.Style.say(math.Max(0.25, roundTo(lb*16, 0.25))) + " oz"
	case lb < 10:
		return m.Style.say(roundTo(lb, 0.5)) + " lb"
	case lb < ton:
		return m.Style.say(math.Round(lb)) + " lb"
	}
	return m.Style.counted(roundTo(lb/ton, 0.1), "ton", "tons")
}

// SayTemperature writes degrees Celsius on the group's thermometer.
func (m Measures) SayTemperature(c float64) string {
	v, scale := c, " °C"
	if m.Fahrenheit {
		v, scale = toFahrenheit(c), " °F"
	}
	return strconv.Itoa(int(math.Round(v))) + scale
}

// SayLength writes centimetres: "40 cm", "1.2 m"; US and imperial "16 in", "3 ft 2 in".
func (m Measures) SayLength(cm float64) string {
	if m.System != US && m.System != Imperial {
		if cm = math.Round(cm); cm < 100 {
			return strconv.Itoa(int(cm)) + " cm"
		}
		return m.Style.number(trimZeros(strconv.FormatFloat(cm/100, 'f', 2, 64))) + " m"
	}
	inches := int(math.Round(cm / inchCm))
	switch feet, rest := inches/12, inches%12; {
	case inches < 24:
		return strconv.Itoa(inches) + " in"
	case rest == 0:
		return strconv.Itoa(feet) + " ft"
	default:
		return strconv.Itoa(feet) + " ft " + strconv.Itoa(rest) + " in"
	}
}

// SayRain writes millimetres of rain; a US group reads inches.
func (m Measures) SayRain(mm float64) string {
	if m.System == US {
		return m.Style.number(decimals(mm/10/inchCm, 2)) + " in"
	}
	if mm < 10 {
		return m.Style.number(decimals(mm, 1)) + " mm"
	}
	return decimals(mm, 0) + " mm"
}

func decimals(v float64, places int) string {
	s := strconv.FormatFloat(math.Max(0, v), 'f', places, 64)
	if places > 0 {
		s = trimZeros(s)
	}
	return s
}

// agoSteps are the units of SayAgo, each used below its limit.
var agoSteps = []struct {
	below     time.Duration
	unit      time.Duration
	one, many string
}{
	{time.Hour, time.Minute, "1 minute ago", "%d minutes ago"},
	{24 * time.Hour, time.Hour, "1 hour ago", "%d hours ago"},
	{14 * day, day, "1 day ago", "%d days ago"},
	{60 * day, 7 * day, "1 week ago", "%d weeks ago"},
	{365 * day, 30 * day, "1 month ago", "%d months ago"},
	{math.MaxInt64, 365 * day, "1 year ago", "%d years ago"},
}

const day = 24 * time.Hour

// SayOdds writes a probability as people say it: "7 in 10". None is said to be
// certain either way: "more than 9 in 10", "less than 1 in 10".
func (m Measures) SayOdds(p float64) string {
	switch n := int(math.Round(p * 10)); {
	case n >= 10:
		return m.Word("more than 9 in 10")
	case n <= 0:
		return m.Word("less than 1 in 10")
	default:
		return m.Say("%d in 10", n)
	}
}

// SayDays writes a span in whole days gone by: "1 day", "12 days".
func (m Measures) SayDays(d time.Duration) string {
	if n := int(d / day); n != 1 {
		return m.Say("%d days", n)
	}
	return m.Word("1 day")
}

// SayAgo writes how long ago something was: "just now", "2 hours ago", "3 days ago".
func (m Measures) SayAgo(d time.Duration) string {
	if d < 2*time.Minute {
		return m.Word("just now")
	}
	for _, s := range agoSteps {
		if d < s.below {
			n := max(1, int(d/s.unit))
			if n == 1 {
				return m.Word(s.one)
			}
			return m.Say(s.many, n)
		}
	}
	return m.Word("long ago")
}

// SayOdds is Measures.SayOdds in English.
func SayOdds(p float64) string { return Measures{}.SayOdds(p) }

// SayDays is Measures.SayDays in English.
func SayDays(d time.Duration) string { return Measures{}.SayDays(d) }

// SayAgo is Measures.SayAgo in English.
func SayAgo(d time.Duration) string { return Measures{}.SayAgo(d) }
