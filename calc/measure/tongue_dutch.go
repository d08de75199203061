package measure

import "strings"

var dutch = tongue{
	points: true,
	glosses: [][2]string{
		{"a", "een, 'n"}, {"one", "één"}, {"half", "half, halve"}, {"one and half", "anderhalf, anderhalve"}, {"and half", "en een half, en een halve, en half, en halve"},
		{"quarter", "kwart, kwart van een"}, {"three quarters", "driekwart, driekwart van een"}, {"third", "derde"}, {"two thirds", "twee derde, tweederde"},
		{"a few", "een paar, paar, enkele, enige"}, {"several", "verschillende, meerdere"}, {"dozen", "dozijn"}, {"a hundred", "honderd"}, {"a thousand", "duizend"},
		{"about", "ongeveer, circa, rond, bijna, zo'n, pakweg"}, {"between", "tussen"}, {"to", "tot"}, {"each", "elk, ieder, per stuk"}, {"times", "maal, keer"},
		{"of", "van"}, {"with", "met"}, {"and", "en"}, {"plus", "plus"}, {"the", "de, het"},
		{"add", "we, wij, ik, heb, hebben, hadden, vandaag, nog, ook, dan, er, zijn, kwam, kwamen, erbij"}, {"please", "graag, bedankt, gebracht, toegevoegd, alsjeblieft"},
		{"full", "vol, volle, gevulde"}, {"level", "afgestreken, gestreken"}, {"heaped", "opgehoopt, opgehoopte, overvolle"}, {"packed", "aangedrukt, aangedrukte, aangestampt"},
		{"big", "groot, grote"}, {"small", "klein, kleine"}, {"wet", "nat, natte, vochtig, vochtige"}, {"dry", "droog, droge, dor, dorre"},
		{"heap", "hoop, hopen, berg"}, {"load", "lading, vracht, ladingen"}, {"trailer", "aanhanger, aanhangwagen"}, {"bit", "beetje"}, {"bin", "ton, tonnen"},
		{"bucket", "emmer, emmertje"}, {"buckets", "emmers, emmertjes"}, {"barrow", "kruiwagen, kar"}, {"barrows", "kruiwagens, karren"},
		{"sack", "zak"}, {"sacks", "zakken"}, {"bag", "zakje"}, {"bags", "zakjes"}, {"bin bag", "vuilniszak"}, {"bin bags", "vuilniszakken"}, {"leaf bag", "bladzak, tuinzak"}, {"leaf bags", "bladzakken, tuinzakken"},
		{"carrier bag", "boodschappentas, tas, tasje"}, {"carrier bags", "boodschappentassen, tassen, tasjes"}, {"bulk bag", "bigbag, big bag"}, {"bulk bags", "bigbags, big bags"},
		{"bale", "baal"}, {"bales", "balen"}, {"straw bales", "strobalen"}, {"straw bale", "strobaal"}, {"hay bales", "hooibalen"}, {"hay bale", "hooibaal"},
		{"armful", "armvol, arm vol"}, {"armfuls", "armenvol, armen vol"}, {"handful", "handvol, hand vol, handje, handje vol"}, {"handfuls", "handenvol, handen vol, handjes"},
		{"trug", "tuinmand"}, {"trugs", "tuinmanden"}, {"basket", "mand, mandje"}, {"baskets", "manden, mandjes"}, {"kitchen caddy", "keukenemmer, gft-emmer, afvalbakje"}, {"kitchen caddies", "keukenemmers, gft-emmers, afvalbakjes"},
		{"crate", "krat, kratje, kist"}, {"crates", "kratten, kratjes, kisten"}, {"box", "doos"}, {"boxes", "dozen"}, {"shovelful", "schep"}, {"shovelfuls", "scheppen"}, {"spadeful", "spade, schop"}, {"spadefuls", "spades, schoppen"},
		{"forkful", "vork, riek, hooivork"}, {"forkfuls", "vorken, rieken, hooivorken"}, {"wheelie bin", "rolcontainer, groene bak, gft-bak, container"}, {"wheelie bins", "rolcontainers, groene bakken, gft-bakken, containers"},
		{"dustbin", "vuilnisbak, vuilnisemmer"}, {"dustbins", "vuilnisbakken, vuilnisemmers"}, {"tub", "kuip, bak, teil"}, {"tubs", "kuipen, bakken, teilen"}, {"pot", "pot, bloempot"}, {"pots", "potten, bloempotten"},
		{"jug", "kan, kannetje"}, {"jugs", "kannen, kannetjes"}, {"jar", "glazen pot, weckpot"}, {"jars", "glazen potten, weckpotten"}, {"cup", "kopje, mok, beker"}, {"cups", "kopjes, mokken, bekers"},
		{"can", "gieter"}, {"cans", "gieters"},
		{"litre", "liter"}, {"litres", "liter, liters"}, {"g", "gram"}, {"kg", "kilo, kilo's, kilogram"}, {"m3", "kuub, kubieke meter, kubieke meters"}, {"metric pound", "pond"},
	},
	between: [][2]string{{"or", "of"}, {"to", "à"}},
	numbers: dutchNumbers(),
}

// dutchNumbers are the numbers up to 99 and the half ones up to nine and a half.
func dutchNumbers() map[string]string {
	ones := strings.Fields("een twee drie vier vijf zes zeven acht negen tien elf twaalf dertien veertien vijftien zestien zeventien achttien negentien")
	tens := strings.Fields("twintig dertig veertig vijftig zestig zeventig tachtig negentig")
	all := counts(map[string]string{"nul": "zero"}, ones, tens, func(ten, one string) string { return one + "en" + ten })
	for i, one := range ones[1:9] {
		all[one+"enhalf"] = onesByNumber[i+1] + " and half"
		all[one+"enhalve"] = onesByNumber[i+1] + " and half"
	}
	return all
}
