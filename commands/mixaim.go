package commands

import (
	"regexp"
	"strconv"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/mix"
)

func (d *desk) aim() (mix.Aim, error) {
	aim := mix.DefaultAim()
	var err error
	if said := d.arg("cn"); said != "" {
		if aim.CN, err = parseWindow("cn", said, "30 or 25-35", aimableCN); err != nil {
			return aim, err
		}
	}
	if said := d.arg("moisture"); said != "" {
		if aim.Moisture, err = parseWindow("moisture", said, "55 or 50-60", aimableMoisture); err != nil {
			return aim, err
		}
	}
	return aim, aim.Check()
}

// halfWidth makes a window of a single aim, as wide as the default windows
// around 30 and 55 %. Own choice.
const halfWidth = 5

// The ends of what mix.Aim.Check lets a person aim for.
var (
	aimableCN       = mix.Window{Low: 10, High: 100}
	aimableMoisture = mix.Window{Low: 30, High: 80}
)

// window is a number or a range, without the signs that people put around it.
var window = regexp.MustCompile(`^(\d+(?:\.\d+)?)(?:-(\d+(?:\.\d+)?))?$`)

// parseWindow reads "30" or "25-35"; whether a heap can be so, Aim.Check says.
func parseWindow(name, said, example string, within mix.Window) (mix.Window, error) {
	text := strings.NewReplacer("%", "", ":1", "", "–", "-", " to ", "-", ",", ".", " ", "").Replace(said)
	numbers := window.FindStringSubmatch(text)
	if numbers == nil {
		return mix.Window{}, fault.New(fault.NotUnderstood, "“%s” is nothing to aim for. Say one number or a range, e.g. %s:%s.", quote(said), name, example)
	}
	low, _ := strconv.ParseFloat(numbers[1], 64)
	if numbers[2] == "" {
		if low < within.Low || low > within.High {
			return mix.Window{}, fault.New(fault.OutOfRange, "“%s” is not one to aim for. Say %s: from %g to %g.", quote(said), name, within.Low, within.High)
		}
		return mix.Window{Low: max(low-halfWidth, within.Low), Aim: low, High: min(low+halfWidth, within.High)}, nil
	}
	high, _ := strconv.ParseFloat(numbers[2], 64)
	low, high = min(low, high), max(low, high)
	return mix.Window{Low: low, Aim: (low + high) / 2, High: high}, nil
}
