package weather

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"time"
)

// Config is what an operator sets. The zero value asks Open-Meteo only: the
// other two want to know who is asking.
type Config struct {
	// Agent is how we introduce ourselves: a name and a way to reach the
	// operator, such as "millrace-heaps/1 organiser@example.org". MET Norway and
	// the US weather service require one and are not asked without.
	Agent     string
	OpenMeteo Source // free for non-commercial use only: switch it off elsewhere
	MetNorway Source
	NWS       Source
	Places    Source   // place names, by Open-Meteo under the same terms
	Order     []string // names of services, first choice first; nil is DefaultOrder
	Timeouts  Timeouts
}

// Source switches a service off or moves it to another base address.
type Source struct {
	Off     bool
	BaseURL string // "" is the public one
}

// DefaultOrder is the order in which services are asked: one that knows the
// past and evapotranspiration first, then one of the world, then the US one.
var DefaultOrder = []string{OpenMeteo, MetNorway, NWS}

// Public base addresses of the services.
const (
	openMeteoURL = "https://api.open-meteo.com"
	metNorwayURL = "https://api.met.no"
	nwsURL       = "https://api.weather.gov"
	placesURL    = "https://geocoding-api.open-meteo.com"
)

// Timeouts bound one request; zero fields are those of DefaultTimeouts.
type Timeouts struct {
	Connect time.Duration // until there is a connection
	Header  time.Duration // from the request to the first bytes of the answer
	Total   time.Duration // all of it, with one repeat
}

// DefaultTimeouts are our own choice.
var DefaultTimeouts = Timeouts{Connect: 5 * time.Second, Header: 10 * time.Second, Total: 30 * time.Second}

func (t Timeouts) orDefault() Timeouts {
	pick := func(v, d time.Duration) time.Duration {
		if v > 0 {
			return v
		}
		return d
	}
	return Timeouts{
		pick(t.Connect, DefaultTimeouts.Connect),
		pick(t.Header, DefaultTimeouts.Header),
		pick(t.Total, DefaultTimeouts.Total),
	}
}

// base is the base address to use, without a slash at its end.
func (s Source) base(public string) (string, error) {
	if s.BaseURL == "" {
		return public, nil
	}
	u, err := url.Parse(s.BaseURL)
	if err != nil || u.Host == "" || u.Scheme != "https" && u.Scheme != "http" || u.RawQuery != "" || u.Fragment != "" {
		return "", fmt.Errorf("weather service address %q is not of the form https://host", s.BaseURL)
	}
	return strings.TrimRight(s.BaseURL, "/"), nil
}

func (c Config) order() ([]string, error) {
	if c.Order == nil {
		return DefaultOrder, nil
	}
	for i, name := range c.Order {
		if !slices.Contains(DefaultOrder, name) || slices.Contains(c.Order[:i], name) {
			return nil, fmt.Errorf("weather service %q is unknown or named twice: the services are %s", name, strings.Join(DefaultOrder, ", "))
		}
	}
	return c.Order, nil
}

// checkAgent refuses a name that would break the request's header.
func checkAgent(agent string) error {
	if strings.ContainsFunc(agent, func(r rune) bool { return r < ' ' || r > '~' }) {
		return fmt.Errorf("the name for weather services, %q, must be plain ASCII without line breaks", agent)
	}
	return nil
}
