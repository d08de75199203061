package commands

import (
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
)

// guideOf answers "guide topic" without a store.
func guideOf(topic string) (Reply, error) {
	d := &desk{call: &Call{Args: map[string]string{"topic": topic}}, table: feedstock.Default(), zone: time.UTC}
	return d.guide()
}

// The bounds of a page, own choice: what is read fits one screen of a phone,
// and with its sources one message of a chat.
const (
	pageRunes    = 900
	messageRunes = 1900
)

func TestEveryPageFitsAPhone(t *testing.T) {
	for _, p := range pages {
		t.Run(p.topic, func(t *testing.T) {
			r, err := guideOf(p.topic)
			require.NoError(t, err)
			assert.LessOrEqual(t, utf8.RuneCountInString(r.Headline), pageWidth)
			lines, runes := 0, utf8.RuneCountInString(r.Headline)
			for _, block := range r.Body {
				if block.Title == "Sources by id" {
					continue // asked for as a list
				}
				assert.NotEmpty(t, block.Lines)
				lines += len(block.Lines)
				for _, line := range block.Lines {
					assert.LessOrEqual(t, utf8.RuneCountInString(line), pageWidth, line)
					runes += utf8.RuneCountInString(line)
				}
			}
			assert.LessOrEqual(t, lines, pageLines)
			assert.LessOrEqual(t, runes, pageRunes)
			require.NotEmpty(t, r.Basis)
			for _, source := range r.Basis {
				assert.NotEmpty(t, strings.TrimSpace(source))
				runes += utf8.RuneCountInString(source)
			}
			assert.LessOrEqual(t, runes, messageRunes)
		})
	}
}

var linkIn = regexp.MustCompile(`\S*://\S*`)

func TestEveryLinkIsWellFormed(t *testing.T) {
	links := 0
	for _, p := range pages {
		for _, source := range p.sources {
			for _, link := range linkIn.FindAllString(source, -1) {
				links++
				link = strings.TrimSuffix(link, ";")
				u, err := url.Parse(link)
				if !assert.NoError(t, err, p.topic) {
					continue
				}
				assert.Contains(t, []string{"http", "https"}, u.Scheme, "%s: %s", p.topic, link)
				assert.Regexp(t, `^[a-z0-9.-]+\.[a-z]{2,}$`, u.Host, "%s: %s", p.topic, link)
				assert.NotRegexp(t, `[.,)\]>"”]$`, link, p.topic)
			}
			assert.NotRegexp(t, `\bwww\.`, linkIn.ReplaceAllString(source, ""), "%s: an address without its scheme", p.topic)
		}
	}
	assert.Greater(t, links, 50)
}

// Whoever publishes a caution is named with an address, except where the line
// says that nobody does.
func TestEveryCautionNamesItsPublisher(t *testing.T) {
	for topic, publisher := range map[string]string{
		"dust": "CIWMB", "spores": "CIWMB", "mould": "CIWMB", "legionella": "NSW Health", "at risk": "Recycle Now", "asthma": "Recycle Now",
		"tetanus": "CDC", "manure": "USDA", "herbicides": "NC State", "weedkiller": "Oregon State", "pea test": "WSU", "bioassay": "UF/IFAS",
		"fire": "NRCS", "rats": "Test Valley", "pets": "WSU", "dogs": "Alaska", "ash": "Oregon State", "urine": "Compendium",
		"what to keep out": "US EPA", "keep out": "WSU", "keeping apart": "AgriFutures", "winter": "WSU", "cover": "AgriFutures", "size": "Cornell",
		"words": "Purdue", "sources": "sources",
	} {
		t.Run(topic, func(t *testing.T) {
			r, err := guideOf(topic)
			require.NoError(t, err)
			assert.Contains(t, strings.Join(r.Basis, "\n"), publisher)
			assert.NotEmpty(t, r.Body[0].Lines)
		})
	}
	for _, p := range cautionPages {
		for _, source := range p.sources {
			unread := regexp.MustCompile(`(?i)no source|own choice|from memory|converted|page not named`).MatchString(source)
			assert.True(t, unread || linkIn.MatchString(source), "%s: %s", p.topic, source)
		}
	}
}

// Not turning is offered to people at risk, and said to run against the rest.
func TestNotTurningIsAChoice(t *testing.T) {
	r, err := guideOf("not turning")
	require.NoError(t, err)
	assert.Regexp(t, `Recycle Now.*not turned(?s:.*)runs against the turning advice(?s:.*)your choice`, strings.Join(r.Body[0].Lines, "\n"))
}

func TestEveryTopicIsReachedByItsWords(t *testing.T) {
	seen := map[string]string{}
	for _, p := range pages {
		for _, word := range append([]string{p.topic}, p.aliases...) {
			if other, taken := seen[word]; taken {
				t.Errorf("%q leads to %q and to %q", word, other, p.topic)
			}
			seen[word] = p.topic
			got, ok := pageFor(topicKey(strings.ToUpper(word)))
			assert.True(t, ok && got.topic == p.topic, "%q leads to %q, not %q", word, got.topic, p.topic)
		}
	}
}

// Words the guide never uses: nothing here is promised, and nothing is "safe".
func TestNoPagePromises(t *testing.T) {
	banned := regexp.MustCompile(`(?i)\b(?:safe|safely|safety|guarantee\w*|harmless|always works|100 %|no risk)\b`)
	for _, p := range pages {
		text := p.gist + " " + strings.Join(p.lines, " ")
		assert.False(t, banned.MatchString(text), "%s: %s", p.topic, banned.FindString(text))
	}
}

func TestGuideAnswersWithReasonAndSource(t *testing.T) {
	for _, topic := range []string{"meat", "dog waste", "coal ash", "why not meat", "clubroot"} {
		t.Run(topic, func(t *testing.T) {
			r, err := guideOf(topic)
			require.NoError(t, err)
			assert.NotEmpty(t, r.Body[0].Lines[0])
			assert.NotEmpty(t, r.Basis[0])
		})
	}
	for _, refusal := range feedstock.Default().Refusals() {
		topic := refusalTopic(refusal)
		if _, page := pageFor(topic); page {
			continue // a page of its own says more
		}
		t.Run(topic, func(t *testing.T) {
			r, err := guideOf(topic)
			require.NoError(t, err)
			assert.Contains(t, r.Headline, refusal.Name)
			assert.Equal(t, []string{refusal.Source}, r.Basis)
		})
	}
}

func TestGuideShowsAMaterial(t *testing.T) {
	r, err := guideOf("grass clippings")
	require.NoError(t, err)
	f, _ := feedstock.Default().ByID("grass-clippings")
	assert.Equal(t, "Grass clippings: a green, rich in nitrogen.", r.Headline)
	assert.Contains(t, r.Body[0].Lines[0], "C:N: about 17") // NRCS NEH 637 Table 2A-1
	assert.Equal(t, 17.0, f.CN.Typical)
	assert.Len(t, r.Basis, 3)
}

func TestGuideShowsASource(t *testing.T) {
	for _, s := range feedstock.Sources() {
		r, err := guideOf(strings.ToLower(s.ID))
		if _, page := pageFor(topicKey(s.ID)); page {
			continue
		}
		require.NoError(t, err, s.ID)
		assert.Contains(t, r.Headline, s.Citation)
	}
}

func TestGuideWithoutATopicListsAll(t *testing.T) {
	r, err := guideOf("")
	require.NoError(t, err)
	all := strings.Join(r.Body[0].Lines, " ")
	for _, p := range pages {
		assert.Contains(t, all, p.topic)
	}
}

func TestGuideNamesTheClosestTopics(t *testing.T) {
	for typed, want := range map[string]string{"tetnus": "tetanus", "squeze": "squeeze", "uncertanty": "uncertainty", "legionela": "legionella", "asthmma": "at risk"} {
		t.Run(typed, func(t *testing.T) {
			_, err := guideOf(typed)
			e, ok := fault.As(err)
			require.True(t, ok)
			assert.Equal(t, fault.Unknown, e.Code)
			assert.Contains(t, e.Message, want)
		})
	}
}
