package measure

import "strings"

var spanish = tongue{
	after: true, points: true,
	glosses: [][2]string{
		{"a", "un, una"}, {"one", "uno"}, {"half", "medio, media, medios"}, {"and half", "y medio, y media"}, {"half of a", "la mitad de un, la mitad de una, mitad de un, mitad de una"},
		{"quarter of a", "cuarto de, cuarto de un, cuarto de una"}, {"three quarters of a", "tres cuartos de, tres cuartos de un, tres cuartos de una"}, {"and quarter", "y cuarto"},
		{"third of a", "tercio de, tercio de un, tercio de una"}, {"two thirds of a", "dos tercios de, dos tercios de un, dos tercios de una"},
		{"a few", "unos cuantos, unas cuantas, algunos, algunas, unos pocos, unas pocas"}, {"several", "varios, varias"}, {"dozen", "docena, docena de, docenas de"}, {"a couple of", "un par de, par de"},
		{"a hundred", "cien, ciento"}, {"two hundred", "doscientos, doscientas"}, {"a thousand", "mil"},
		{"about", "unos, unas, aproximadamente, alrededor de, casi, más o menos, como"}, {"between", "entre"}, {"each", "cada uno, cada una"}, {"times", "veces, por"},
		{"of", "de, del"}, {"with", "con"}, {"and", "y, e"}, {"plus", "más"}, {"the", "la, el, los, las, lo"},
		{"add", "hemos, he, traje, trajimos, traigo, hay, hoy, echado, eché, puse, también, luego, nosotros, yo"}, {"please", "por favor, gracias"},
		{"full", "lleno, llena, llenos, llenas, bien lleno, bien llenos"}, {"level", "raso, rasa, rasos, rasas, al ras"}, {"heaped", "colmado, colmada, colmados, colmadas"},
		{"packed", "compactado, compactada, compactados, apretado, apretados"}, {"big", "grande, grandes, gran"}, {"small", "pequeño, pequeña, pequeños, pequeñas, chico, chica"},
		{"wet", "mojado, mojada, mojadas, húmedo, húmeda, húmedas"}, {"dry", "seco, seca, secas, secos"},
		{"heap", "montón, montones"}, {"trailer", "remolque, remolques"}, {"load", "carga, cargas, viaje"}, {"bit", "poco, poquito"}, {"bin", "lata, latas"},
		{"bucket", "cubo, balde, cubeta, tobo"}, {"buckets", "cubos, baldes, cubetas, tobos"}, {"barrow", "carretilla, carretillada"}, {"barrows", "carretillas, carretilladas"},
		{"sack", "saco, costal"}, {"sacks", "sacos, costales"}, {"bag", "bolsa"}, {"bags", "bolsas"}, {"bin bag", "bolsa de basura"}, {"bin bags", "bolsas de basura"},
		{"leaf bag", "bolsa de jardín, saco de jardín"}, {"leaf bags", "bolsas de jardín, sacos de jardín"}, {"carrier bag", "bolsa de la compra, bolsa de compra"}, {"carrier bags", "bolsas de la compra, bolsas de compra"},
		{"bulk bag", "saca, big bag"}, {"bulk bags", "sacas, big bags"}, {"bale", "fardo, paca, bala"}, {"bales", "fardos, pacas, balas"}, {"armful", "brazada"}, {"armfuls", "brazadas"},
		{"handful", "puñado"}, {"handfuls", "puñados"}, {"trug", "capazo, espuerta"}, {"trugs", "capazos, espuertas"}, {"basket", "cesta, cesto, canasta, canasto"}, {"baskets", "cestas, cestos, canastas, canastos"},
		{"kitchen caddy", "cubo de cocina"}, {"kitchen caddies", "cubos de cocina"}, {"crate", "cajón"}, {"crates", "cajones"}, {"box", "caja"}, {"boxes", "cajas"},
		{"shovelful", "palada, pala"}, {"shovelfuls", "paladas, palas"}, {"spadeful", "palada de laya"}, {"spadefuls", "paladas de laya"}, {"forkful", "horcada, horca, horquillada"}, {"forkfuls", "horcadas, horcas, horquilladas"},
		{"wheelie bin", "contenedor"}, {"wheelie bins", "contenedores"}, {"dustbin", "cubo de basura"}, {"dustbins", "cubos de basura"}, {"tub", "barreño, tina"}, {"tubs", "barreños, tinas"},
		{"pot", "maceta, tiesto"}, {"pots", "macetas, tiestos"}, {"jug", "jarra"}, {"jugs", "jarras"}, {"jar", "tarro, bote, frasco"}, {"jars", "tarros, botes, frascos"},
		{"cup", "taza, vaso"}, {"cups", "tazas, vasos"}, {"can", "regadera"}, {"cans", "regaderas"},
		{"litre", "litro"}, {"litres", "litros"}, {"g", "gramo, gramos"}, {"kg", "kilo, kilos, kilogramo, kilogramos"}, {"m3", "metro cúbico, metros cúbicos"}, {"tonne", "tonelada"}, {"tonnes", "toneladas"}, {"lb", "libra, libras"},
	},
	between: [][2]string{{"to", "a"}, {"or", "o, u"}},
	numbers: spanishNumbers(),
}

// spanishNumbers are the numbers up to 99.
func spanishNumbers() map[string]string {
	ones := strings.Fields("un dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis diecisiete dieciocho diecinueve")
	all := counts(map[string]string{"cero": "zero"}, ones, strings.Fields("veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa"),
		func(ten, one string) string { return ten + " y " + one })
	for i, one := range ones[:9] {
		all["veinti"+one] = "twenty " + onesByNumber[i]
	}
	return all
}
