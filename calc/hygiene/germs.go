package hygiene

import "time"

const (
	srcEggs   = "McGarry and Stainforth 1978"
	atEggs    = "p. 43, as given at https://www.grovida.us/composting-guide/parasitic-worm-egg-death.html"
	srcFaeces = "Jenkins, Humanure Handbook ch. 7"
	atFaeces  = "http://weblife.org/humanure/chapter7_19.html; Cornell's horticulture page puts question marks to both figures"
)

const cornellAsks = "Cornell repeats the figure with a question mark."

// Germs are the published times at heat after which eggs of worms and germs of
// faeces were dead, for the germs that the words name. They compare: a heap is
// never as hot all through as what was tried.
func Germs(words string) []Trial { return germWords.pick(germTrials, words) }

var germWords = wordsFor(map[string]string{
	"roundworm eggs":   "roundworm|roundworm egg|ascaris|worm egg|worm",
	"hookworm eggs":    "hookworm|hookworm egg|worm egg|worm",
	"schistosome eggs": "schistosome|schistosome egg|bilharzia|worm egg|worm",
	"germs of faeces":  "germ|pathogen|faecal|fecal|faeces|feces|bacteria|coli|salmonella",
})

var germTrials = []Trial{
	{Of: "roundworm eggs", Source: srcEggs, Locator: atEggs, Seen: SecondHand, C: 55, For: 10 * time.Minute, Effect: Killed},
	{Of: "roundworm eggs", Source: srcEggs, Locator: atEggs, Seen: SecondHand, C: 60, For: 5 * time.Second, Effect: Killed},
	{Of: "hookworm eggs", Source: srcEggs, Locator: atEggs, Seen: SecondHand, C: 55, For: time.Minute, Effect: Killed},
	{Of: "schistosome eggs", Source: srcEggs, Locator: atEggs, Seen: SecondHand, C: 53.5, For: time.Minute, Effect: Killed},
	{Of: "germs of faeces", Source: srcFaeces, Locator: atFaeces, Seen: SecondHand, C: 50, For: day, Effect: Killed, Note: cornellAsks},
	{Of: "germs of faeces", Source: srcFaeces, Locator: atFaeces, Seen: SecondHand, C: 46, For: 7 * day, Effect: Killed, Note: cornellAsks},
}
