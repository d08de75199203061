package weather

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"net/url"
	"strconv"
	"strings"
	"time"
	"unicode"

	"heapside/calc/fault"
)

// Candidate is a place that a name may mean.
type Candidate struct {
	Name, Admin, Country string // Admin is the state or region; both may be ""
	Place                Place
	Zone                 string // IANA name; "" when the service gave none that is known here
}

// maxCandidates is how many places a name is looked up to, maxPlaceRunes how
// long a name may be: own choice.
const (
	maxCandidates = 5
	maxPlaceRunes = 80
)

// Search finds places by name: "Ghent", "Los Angeles, CA". It returns one to
// five, the likeliest first. No hit, no name and no service are a *fault.Error.
func (s *Station) Search(ctx context.Context, name string) ([]Candidate, error) {
	name = plain(name)
	switch n := len([]rune(name)); {
	case s.places == nil:
		return nil, fault.New(fault.Unavailable, "Looking up places by name is switched off here. Give the coordinates instead, such as “51.05, 3.72”.")
	case n < 2:
		return nil, fault.New(fault.Missing, "“%s” is too short for a place name. Say at least two letters, such as “Ghent”.", name)
	case n > maxPlaceRunes:
		return nil, fault.New(fault.TooLong, "That is too long for a place name. Say a town, such as “Ghent”.")
	}
	found, err := s.places.search(ctx, name)
	if err != nil {
		return nil, s.unfound(ctx, name, err)
	}
	if len(found) == 0 {
		return nil, fault.New(fault.Unknown, "No place called “%s” is known. Try the nearest town, or add the country: “Ghent, Belgium”. Coordinates work too, such as “51.05, 3.72”.", name)
	}
	return found, nil
}

// search asks for the places of a name.
func (w *wire) search(ctx context.Context, name string) ([]Candidate, error) {
	a, err := w.get(ctx, "/v1/search", url.Values{
		"name": {name}, "count": {strconv.Itoa(maxCandidates)}, "language": {"en"},
	}, "")
	if err != nil {
		return nil, err
	}
	return w.decodePlaces(a.body)
}

// unfound is what a person hears when the search itself failed.
func (s *Station) unfound(ctx context.Context, name string, err error) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	s.log.Warn("place search failed", "error", err)
	var f *Failure
	if errors.As(err, &f) {
		return fault.New(fault.Unavailable, "“%s” could not be looked up: the place search %s. Try later, or give the coordinates, such as “51.05, 3.72”.", name, saidAs[f.Kind])
	}
	return err
}

// decodePlaces reads an answer. Places that cannot be are left out.
func (w *wire) decodePlaces(body []byte) ([]Candidate, error) {
	var a struct {
		Results []struct {
			Name    string   `json:"name"`
			Lat     *float64 `json:"latitude"`
			Lon     *float64 `json:"longitude"`
			Admin   string   `json:"admin1"`
			Country string   `json:"country"`
			Zone    string   `json:"timezone"`
		} `json:"results"`
	}
	if err := json.Unmarshal(body, &a); err != nil {
		return nil, w.garbled("not the documented JSON: %w", err)
	}
	var found []Candidate
	for _, r := range a.Results {
		c := Candidate{Name: plain(r.Name), Admin: plain(r.Admin), Country: plain(r.Country), Zone: zone(r.Zone)}
		at, err := At(orNaN(r.Lat), orNaN(r.Lon))
		if err != nil || c.Name == "" {
			continue
		}
		c.Place = at
		if found = append(found, c); len(found) == maxCandidates {
			break
		}
	}
	return found, nil
}

func orNaN(v *float64) float64 {
	if v == nil {
		return math.NaN()
	}
	return *v
}

// zone is an IANA zone that this program knows, else "".
func zone(name string) string {
	if _, err := time.LoadLocation(name); err != nil || name == "Local" {
		return ""
	}
	return name
}

// plain is a name without control and format characters, blanks collapsed, and
// not too long to print.
func plain(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co, unicode.Cs) || r == unicode.ReplacementChar:
			return -1
		}
		return r
	}, s)
	s = strings.Join(strings.Fields(s), " ")
	if runes := []rune(s); len(runes) > 2*maxPlaceRunes {
		s = string(runes[:2*maxPlaceRunes])
	}
	return s
}
