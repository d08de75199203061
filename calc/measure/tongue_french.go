package measure

import "strings"

var french = tongue{
	elided: true, after: true,
	glosses: [][2]string{
		{"a", "un, une"}, {"half", "demi, demie"}, {"and half", "et demi, et demie"}, {"half of a", "la moitié d un, la moitié d une, moitié d un, moitié d une"},
		{"quarter of a", "quart de, quart d un, quart d une"}, {"three quarters of a", "trois quarts de, trois quarts d un, trois quarts d une"},
		{"third of a", "tiers de, tiers d un, tiers d une"}, {"two thirds of a", "deux tiers de, deux tiers d un, deux tiers d une"}, {"and quarter", "et quart"},
		{"a few", "quelques"}, {"several", "plusieurs"}, {"dozen", "douzaine, douzaine de, douzaine d"}, {"a couple of", "une paire de"},
		{"seventy", "soixante dix"}, {"eighty", "quatre vingts, quatre vingt"}, {"ninety", "quatre vingt dix"}, {"a hundred", "cent"}, {"hundred", "cents"}, {"a thousand", "mille"},
		{"twenty one", "vingt et un, vingt et une"},
		{"about", "environ, à peu près, presque, à peine"}, {"between", "entre"}, {"or", "ou"}, {"each", "chacun, chacune, chaque"}, {"times", "fois"},
		{"of", "de, d, du, des"}, {"with", "avec"}, {"and", "et"}, {"plus", "plus"}, {"the", "la, le, les"},
		{"add", "nous, avons, on a, il y a, j'ai, ai, aujourd'hui, encore, aussi, puis, ajoute, ajouté, apporté, mis"}, {"please", "s'il te plaît, merci"},
		{"full", "plein, pleine, pleins, pleines, rempli, remplis, remplie, bien plein, bien pleins"}, {"level", "ras, rase, rases, à ras"}, {"heaped", "comble, combles, bombé, bombés"},
		{"packed", "tassé, tassée, tassés, tassées"}, {"big", "grand, grande, grands, grandes, gros, grosse, grosses"}, {"small", "petit, petite, petits, petites"},
		{"wet", "mouillé, mouillée, mouillées, humide, humides"}, {"dry", "sec, sèche, sèches, secs"},
		{"heap", "tas"}, {"trailer", "remorque, remorques, chargement, benne"}, {"bit", "peu"}, {"bundle", "paquet, paquets"},
		{"bucket", "seau"}, {"buckets", "seaux"}, {"barrow", "brouette, brouettée"}, {"barrows", "brouettes, brouettées"},
		{"sack", "sac"}, {"sacks", "sacs"}, {"bag", "sachet"}, {"bags", "sachets"}, {"bin bag", "sac poubelle"}, {"bin bags", "sacs poubelle, sacs poubelles"},
		{"leaf bag", "sac à feuilles, sac de jardin, sac à déchets verts"}, {"leaf bags", "sacs à feuilles, sacs de jardin, sacs à déchets verts"},
		{"carrier bag", "sac de courses, sac à provisions, cabas"}, {"carrier bags", "sacs de courses, sacs à provisions"}, {"bulk bag", "big bag"}, {"bulk bags", "big bags"},
		{"bale", "botte, ballot"}, {"bales", "bottes, ballots"}, {"armful", "brassée"}, {"armfuls", "brassées"}, {"handful", "poignée"}, {"handfuls", "poignées"},
		{"trug", "panier de jardin"}, {"trugs", "paniers de jardin"}, {"basket", "panier, corbeille"}, {"baskets", "paniers, corbeilles"},
		{"kitchen caddy", "seau de cuisine, bioseau"}, {"kitchen caddies", "seaux de cuisine, bioseaux"}, {"crate", "caisse, cageot, cagette"}, {"crates", "caisses, cageots, cagettes"},
		{"box", "boîte"}, {"boxes", "boîtes"}, {"shovelful", "pelletée, pelle"}, {"shovelfuls", "pelletées, pelles"}, {"spadeful", "bêchée, bêche"}, {"spadefuls", "bêchées, bêches"},
		{"forkful", "fourchée, fourche"}, {"forkfuls", "fourchées, fourches"}, {"wheelie bin", "bac roulant, poubelle à roulettes"}, {"wheelie bins", "bacs roulants, poubelles à roulettes"},
		{"dustbin", "poubelle"}, {"dustbins", "poubelles"}, {"tub", "bac, bassine, baquet, cuve"}, {"tubs", "bacs, bassines, baquets, cuves"}, {"pot", "pot"}, {"pots", "pots"},
		{"jug", "pichet, cruche, carafe"}, {"jugs", "pichets, cruches, carafes"}, {"jar", "bocal"}, {"jars", "bocaux"}, {"cup", "tasse, bol"}, {"cups", "tasses, bols"},
		{"can", "arrosoir"}, {"cans", "arrosoirs"},
		{"litre", "litre"}, {"litres", "litres"}, {"g", "gramme, grammes"}, {"kg", "kilo, kilos, kilogramme, kilogrammes"}, {"m3", "mètre cube, mètres cubes, m cube, stère, stères"}, {"metric pound", "livre, livres"},
	},
	between: [][2]string{{"to", "à"}},
	numbers: counts(map[string]string{"zéro": "zero", "deux": "two", "dix-sept": "seventeen", "dix-huit": "eighteen", "dix-neuf": "nineteen"},
		strings.Fields("un deux trois quatre cinq six sept huit neuf dix onze douze treize quatorze quinze seize"),
		strings.Fields("vingt trente quarante cinquante soixante"), func(ten, one string) string { return ten + " " + one }),
}
