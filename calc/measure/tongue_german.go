package measure

import "strings"

var german = tongue{
	points: true,
	fold:   func(s string) string { return digraphs.Replace(Plain(s)) },
	glosses: [][2]string{
		{"a", "ein, eine, einen, einem, einer, eines, 'ne, nen"}, {"one", "eins"},
		{"half", "halb, halbe, halber, halbes, halben, halbem"}, {"one and half", "anderthalb, eineinhalb, einundeinhalb, anderthalbe"},
		{"quarter", "viertel"}, {"three quarters", "dreiviertel, drei viertel"}, {"third", "drittel"}, {"two thirds", "zwei drittel"},
		{"a few", "ein paar, einige, einigen"}, {"several", "mehrere, mehreren"}, {"dozen", "dutzend"},
		{"two", "zwo"},
		{"a hundred", "hundert, einhundert"}, {"a thousand", "tausend, eintausend"},
		{"about", "etwa, ungefähr, rund, zirka, knapp, fast"}, {"between", "zwischen"}, {"to", "bis"}, {"or", "oder"}, {"times", "mal"},
		{"of", "von, vom, je, jeweils"}, {"with", "mit"}, {"and", "und, sowie"}, {"plus", "plus"}, {"the", "der, die, das, dem, den"},
		{"add", "wir, ich, habe, haben, hatten, hab, heute, noch, auch, dann, es, gibt, gab, kam, kamen, dazu"},
		{"please", "bitte, danke, gebracht, dazugegeben, draufgetan, reingetan"},
		{"full", "voll, volle, voller, vollen, gefüllt, gefüllte"}, {"level", "gestrichen, gestrichene, gestrichener"},
		{"heaped", "gehäuft, gehäufte, gehäufter, gehäuften"}, {"packed", "gepresst, gepresste, gepresster, festgetreten"},
		{"big", "groß, große, großer, großen, großes"}, {"small", "klein, kleine, kleiner, kleinen, kleines"},
		{"wet", "nass, nasses, nasse, nasser"}, {"dry", "trocken, trockenes, trockene"},
		{"heap", "haufen"}, {"load", "ladung, fuhre, fuhren, ladungen"}, {"trailer", "anhänger, hänger"}, {"bit", "bisschen, wenig"}, {"bin", "tonne, tonnen, zentner"},
		{"bucket", "Eimer, eimern, kübel, kübeln"}, {"buckets", "Eimer"}, {"barrow", "Schubkarre, schubkarren, karre, scheibtruhe, schiebkarre, scheibtruhen"},
		{"barrows", "Schubkarren, karren, schiebkarren, schubkarrenladungen"},
		{"sack", "Sack"}, {"sacks", "Säcke, säcken"}, {"bag", "Tüte, beutel"}, {"bags", "Tüten, beuteln"},
		{"bin bag", "Müllsack, müllbeutel"}, {"bin bags", "Müllsäcke, müllsäcken, müllbeutel"}, {"leaf bag", "Laubsack, gartensack"}, {"leaf bags", "Laubsäcke, gartensäcke, laubsäcken"},
		{"carrier bag", "Tragetasche, einkaufstüte, einkaufstasche, plastiktüte"}, {"carrier bags", "Tragetaschen, einkaufstüten, einkaufstaschen, plastiktüten"},
		{"bulk bag", "Bigbag, big bag"}, {"bulk bags", "Bigbags, big bags"}, {"bale", "Ballen"}, {"bales", "Ballen"},
		{"straw bales", "strohballen"}, {"hay bales", "heuballen"},
		{"armful", "Armvoll, arm voll"}, {"armfuls", "Armvoll, arme voll"}, {"handful", "Handvoll, hand voll"}, {"handfuls", "Handvoll, hände voll"},
		{"trug", "Gartenkorb"}, {"trugs", "Gartenkörbe, gartenkörben"}, {"basket", "Korb"}, {"baskets", "Körbe, körben"},
		{"kitchen caddy", "Bioeimer, biomülleimer, komposteimer, mülleimer, kücheneimer"}, {"kitchen caddies", "Bioeimer"},
		{"crate", "Kiste, steige"}, {"crates", "Kisten, steigen"}, {"box", "Schachtel"}, {"boxes", "Schachteln"},
		{"shovelful", "Schaufel, schippe"}, {"shovelfuls", "Schaufeln, schippen"}, {"spadeful", "Spaten, spatenstich"}, {"spadefuls", "Spaten, spatenstiche"},
		{"forkful", "Gabel, mistgabel, forke, heugabel"}, {"forkfuls", "Gabeln, mistgabeln, forken, heugabeln"},
		{"wheelie bin", "Mülltonne, biotonne"}, {"wheelie bins", "Mülltonnen, biotonnen"}, {"dustbin", "Abfalltonne"}, {"dustbins", "Abfalltonnen"},
		{"tub", "Wanne, bottich, bütte, zuber, maurerkübel"}, {"tubs", "Wannen, bottiche, bütten, zubern"}, {"pot", "Topf"}, {"pots", "Töpfe, töpfen"},
		{"jug", "Krug"}, {"jugs", "Krüge, krügen"}, {"jar", "Einmachglas, schraubglas"}, {"jars", "Einmachgläser, schraubgläser"},
		{"cup", "Tasse, becher"}, {"cups", "Tassen, becher, bechern"}, {"can", "Kanne, gießkanne"}, {"cans", "Kannen, gießkannen"},
		{"litre", "Liter"}, {"litres", "Liter, litern"}, {"g", "gramm"}, {"kg", "kilogramm, kilo, kilos"}, {"m3", "kubikmeter, raummeter, festmeter"}, {"metric pound", "pfund"},
	},
	numbers: germanNumbers(),
}

// germanNumbers are the numbers up to 99 and the half ones up to nine and a half.
func germanNumbers() map[string]string {
	ones := strings.Fields("ein zwei drei vier fünf sechs sieben acht neun zehn elf zwölf dreizehn vierzehn fünfzehn sechzehn siebzehn achtzehn neunzehn")
	tens := strings.Fields("zwanzig dreißig vierzig fünfzig sechzig siebzig achtzig neunzig")
	all := counts(map[string]string{"null": "zero"}, ones, tens, func(ten, one string) string { return one + "und" + ten })
	for i, one := range ones[1:9] {
		all[one+"einhalb"] = onesByNumber[i+1] + " and half"
	}
	return all
}
