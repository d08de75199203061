package measure

import (
	"math"

	"heapside/calc/fault"
)

// A heap's thermometer can show lowestC to highestC: own choice, from a hard
// frost to boiling water.
const (
	lowestC  = -40
	highestC = 100
)

func toFahrenheit(c float64) float64 { return c*9/5 + 32 }
func toCelsius(f float64) float64    { return (f - 32) * 5 / 9 }

var (
	celsiusWords    = wordSet("c celsius centigrade celcius")
	fahrenheitWords = wordSet("f fahrenheit farenheit fahrenheits")
	degreeWords     = wordSet("° deg degs degree degrees")
)

// ParseTemperature reads a heap temperature and returns degrees Celsius, -40
// to 100: "58", "58,5 °C", "140F". A bare number is on the group's own scale.
func (m Measures) ParseTemperature(text string) (float64, error) {
	line, err := oneLine(text)
	if err != nil {
		return 0, err
	}
	v, fahrenheit, bare, ok := m.readTemperature(lex(trimEnds(line)))
	if !ok {
		return 0, fault.New(fault.NotUnderstood, "%s is not a temperature. Write one reading such as “58”, “58 °C” or “136F”.", quote(line))
	}
	c := v
	if fahrenheit {
		c = toCelsius(v)
	}
	if c >= lowestC && c <= highestC {
		return c, nil
	}
	return 0, m.absurd(line, v, fahrenheit, bare)
}

func (m Measures) absurd(line string, v float64, fahrenheit, bare bool) error {
	low, high, scale := float64(lowestC), float64(highestC), "°C"
	if fahrenheit {
		low, high, scale = toFahrenheit(low), toFahrenheit(high), "°F"
	}
	between := fault.Say("a heap is between %s and %s %s", plain(low), plain(high), scale)
	if asF := toCelsius(v); bare && !fahrenheit && v > highestC && asF <= highestC {
		return fault.New(fault.OutOfRange, "%s is too much in °C; %s. If it was Fahrenheit, write “%sF” (%s °C).", quote(line), between, plain(v), plain(math.Round(asF)))
	}
	if tenth := v / 10; tenth > low && tenth <= high {
		return fault.New(fault.OutOfRange, "%s cannot be; %s. Did you mean %s?", quote(line), between, plain(tenth))
	}
	return fault.New(fault.OutOfRange, "%s cannot be; %s.", quote(line), between)
}

func plain(v float64) string { return decimalsSigned(v, 1) }

func decimalsSigned(v float64, places int) string {
	if v < 0 {
		return "-" + decimals(-v, places)
	}
	return decimals(v, places)
}

func (m Measures) readTemperature(t []token) (v float64, fahrenheit, bare, ok bool) {
	i, sign := 0, 1.0
	for i < len(t) && t[i].kind != numberToken && roughly[t[i].text] {
		i++
	}
	switch {
	case is(t, i, "-", "minus"):
		sign, i = -1, i+1
	case is(t, i, "+", "plus"):
		i++
	}
	n, i, ok := numeral(t, i)
	if !ok {
		return 0, false, false, false
	}
	for i < len(t) && t[i].kind != numberToken && degreeWords[t[i].text] {
		i++
	}
	fahrenheit, bare = m.Fahrenheit, true
	if i < len(t) && t[i].kind == wordToken {
		switch {
		case celsiusWords[t[i].text]:
			fahrenheit = false
		case fahrenheitWords[t[i].text]:
			fahrenheit = true
		default:
			return 0, false, false, false
		}
		i, bare = i+1, false
	}
	return sign * n, fahrenheit, bare, i == len(t)
}

// lengths are the units of length by the words for them, in centimetres.
var lengths = map[string]float64{
	"mm": 0.1, "millimetre": 0.1, "millimetres": 0.1, "millimeter": 0.1, "millimeters": 0.1, "mil": 0.1, "mils": 0.1,
	"cm": 1, "cms": 1, "centimetre": 1, "centimetres": 1, "centimeter": 1, "centimeters": 1,
	"m": 100, "metre": 100, "metres": 100, "meter": 100, "meters": 100,
	"in": inchCm, "ins": inchCm, "inch": inchCm, "inches": inchCm, `"`: inchCm,
	"ft": footCm, "foot": footCm, "feet": footCm, "'": footCm,
	"yd": 3 * footCm, "yard": 3 * footCm, "yards": 3 * footCm,
}

// readLength reads "40 cm" or "3 ft 2 in" whole, a bare number in bare centimetres.
func readLength(t []token, bare float64) (cm float64, isBare, ok bool) {
	i, last := 0, 0.0
	for i < len(t) && t[i].kind != numberToken && roughly[t[i].text] {
		i++
	}
	for parts := 0; parts < 2; parts++ {
		c, next, ok := quantity(t, i)
		if !ok {
			return 0, false, false
		}
		unit, isUnit := 0.0, false
		if next < len(t) {
			unit, isUnit = lengths[t[next].text]
		}
		if !isUnit && last == footCm { // 5 ft 6
			unit, next = inchCm, next-1
		} else if !isUnit {
			return c.Typical * bare, true, parts == 0 && next == len(t)
		}
		if last > 0 && unit >= last {
			return 0, false, false
		}
		cm, last, i = cm+c.Typical*unit, unit, next+1
		if i == len(t) {
			return cm, false, true
		}
		if is(t, i, "and", ",") {
			i++
		}
	}
	return 0, false, false
}

// ParseLength reads a depth or height and returns centimetres, 1 to 500: "40
// cm", "0.9 m", "16in", "3 ft 2 in". A bare number is centimetres, or inches
// in a US or imperial group.
func (m Measures) ParseLength(text string) (float64, error) {
	line, err := oneLine(text)
	if err != nil {
		return 0, err
	}
	bare, example := 1.0, "“40 cm” or “0.9 m”"
	if m.System == US || m.System == Imperial {
		bare, example = inchCm, "“16 in” or “3 ft 2 in”"
	}
	cm, _, ok := readLength(lex(trimLength(line)), bare)
	if !ok {
		return 0, fault.New(fault.NotUnderstood, "%s is not a length. Write one such as %s.", quote(line), fault.Say(example))
	}
	if cm < 1 || cm > 500 {
		return 0, fault.New(fault.OutOfRange, "%s is not a depth or height of a heap: it has to be between %s and %s, such as %s.", quote(line), m.SayLength(1), m.SayLength(500), fault.Say(example))
	}
	return cm, nil
}

// trimLength keeps the marks for feet and inches that trimEnds would drop.
func trimLength(s string) string {
	for len(s) > 0 && (s[len(s)-1] == '.' || s[len(s)-1] == ' ') {
		s = s[:len(s)-1]
	}
	return s
}

var noRain = wordSet("none no nothing zero dry")

// bareRainInches bounds a bare number of inches; more was meant as millimetres.
const bareRainInches = 20

// ParseRain reads rainfall and returns millimetres, 0 to 500: "12", "12mm",
// "0.5 in", "none". A bare number is millimetres, or inches in a US group.
func (m Measures) ParseRain(text string) (float64, error) {
	line, err := oneLine(text)
	if err != nil {
		return 0, err
	}
	bare, example := 0.1, "“12” or “12 mm”"
	if m.System == US {
		bare, example = inchCm, "“0.5” or “0.5 in”"
	}
	t := lex(trimLength(line))
	if len(t) > 0 && t[0].kind == wordToken && noRain[t[0].text] && (len(t) == 1 || len(t) == 2 && is(t, 1, "rain")) {
		return 0, nil
	}
	for len(t) > 1 && is(t, len(t)-1, "rain", "of") {
		t = t[:len(t)-1]
	}
	cm, isBare, ok := readLength(t, bare)
	if !ok {
		return 0, fault.New(fault.NotUnderstood, "%s is not an amount of rain. Write one such as %s.", quote(line), fault.Say(example))
	}
	if m.System == US && isBare && cm > bareRainInches*inchCm {
		return 0, fault.New(fault.OutOfRange, "%s would be inches here, and that is a flood. If it was millimetres, write “%s mm”.", quote(line), plain(cm/inchCm))
	}
	if cm > 50 {
		return 0, fault.New(fault.OutOfRange, "%s is more rain than is believed: at most %s. Write it such as %s.", quote(line), m.SayRain(500), fault.Say(example))
	}
	return cm * 10, nil
}
