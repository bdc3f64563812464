import type { IngredientInput } from "./types.ts";

/**
 * What common ingredients are called in French, Spanish, Italian and German, so that a recipe in these languages
 * finds them. Common vocabulary, from memory: a name that may be another thing elsewhere is left out.
 * One line an ingredient: id: French; Spanish; Italian; German, several names parted by commas.
 */
const NAMES = `
butter: beurre, beurre doux; mantequilla, mantequilla sin sal; burro; Butter, Süßrahmbutter
butter-salted: beurre salé, beurre demi-sel; mantequilla salada; burro salato; gesalzene Butter
cream: crème, crème liquide, crème fleurette, crème entière; nata, nata líquida, nata para montar; panna, panna fresca; Sahne, Schlagsahne, Rahm, Schlagrahm, Obers
creme-fraiche: crème épaisse; nata fresca espesa; panna acida francese; Creme fraiche
sour-cream: crème aigre; nata agria; panna acida; Sauerrahm, saure Sahne, Schmand
milk: lait, lait entier; leche, leche entera; latte, latte intero; Milch, Vollmilch
skimmed-milk: lait écrémé; leche desnatada; latte scremato; Magermilch
buttermilk: lait ribot, babeurre, lait battu; suero de mantequilla; latticello; Buttermilch
goat-milk: lait de chèvre; leche de cabra; latte di capra; Ziegenmilch
sheep-milk: lait de brebis; leche de oveja; latte di pecora; Schafmilch
condensed-milk: lait concentré sucré; leche condensada; latte condensato; gezuckerte Kondensmilch
milk-powder: lait en poudre écrémé; leche en polvo desnatada; latte in polvo magro; Magermilchpulver
yoghurt: yaourt, yaourt nature; yogur, yogur natural; yogurt, yogurt bianco; Joghurt, Naturjoghurt
greek-yoghurt: yaourt grec; yogur griego; yogurt greco; griechischer Joghurt
ricotta: ; requesón; ricotta vaccina; 
quark: fromage blanc maigre; queso quark; ; Speisequark, Topfen
mascarpone: ; ; mascarpone fresco; 
parmesan: parmesan râpé; queso parmesano; parmigiano, parmigiano reggiano; Parmesankäse
pecorino: ; queso pecorino; pecorino romano; 
gruyere: gruyère râpé; queso gruyer; groviera; Greyerzer
comte: fromage comté; ; ;
emmental: emmenthal; queso emmental; ; Emmentaler
roquefort: bleu de Roquefort; queso roquefort; ;
goat-cheese-fresh: chèvre frais; queso fresco de cabra; caprino fresco; Ziegenfrischkäse
mozzarella: ; queso mozzarella; fior di latte; 
feta: ; queso feta; ; Schafskäse in Lake
cream-cheese: fromage à la crème; queso crema; formaggio spalmabile; Frischkäse
eggs: œuf, œufs; huevo, huevos; uovo, uova; Ei, Eier
quail-egg: œuf de caille; huevo de codorniz; uovo di quaglia, uova di quaglia; Wachtelei, Wachteleier
egg-yolk-past: jaune d'œuf, jaunes d'œufs; yema de huevo, yema; tuorlo, tuorli, tuorlo d'uovo; Eigelb, Dotter
egg-white-past: blanc d'œuf, blancs d'œufs; clara de huevo, clara; albume, albumi; Eiweiß, Eiklar
plain-flour: farine, farine de blé, farine blanche; harina, harina de trigo; farina, farina 0, farina 00, farina di grano tenero; Mehl, Weizenmehl
strong-flour: farine de gruau, farine de force; harina de fuerza; farina forte, farina manitoba; backstarkes Mehl
wholemeal-flour: farine complète; harina integral; farina integrale; Vollkornmehl, Weizenvollkornmehl
rye-flour: farine de seigle; harina de centeno; farina di segale; Roggenmehl
buckwheat-flour: farine de sarrasin, farine de blé noir; harina de trigo sarraceno; farina di grano saraceno; Buchweizenmehl
spelt-flour: farine d'épeautre; harina de espelta; farina di farro; Dinkelmehl
rice-flour: farine de riz; harina de arroz; farina di riso; Reismehl
chickpea-flour: farine de pois chiche; harina de garbanzo; farina di ceci; Kichererbsenmehl
maize-starch: fécule de maïs, maïzena; maicena, almidón de maíz; amido di mais, maizena; Speisestärke, Maisstärke
potato-starch: fécule de pomme de terre; fécula de patata; fecola di patate, fecola; Kartoffelstärke
semolina: semoule, semoule de blé dur; sémola de trigo; semola, semola di grano duro; Hartweizengrieß
polenta: ; harina de maíz para polenta; farina di mais per polenta; Maisgrieß
couscous: semoule à couscous; cuscús; cuscus; Couscous
bulgur: boulgour; bulgur de trigo; ; Bulgurweizen
pearl-barley: orge perlé; cebada perlada; orzo perlato; Perlgraupen, Graupen, Gerstengraupen
oats: flocons d'avoine; copos de avena; fiocchi d'avena; Haferflocken
quinoa: ; quinua; ;
millet: ; mijo; miglio; Hirse
risotto-rice: riz à risotto, riz arborio; arroz arborio; riso carnaroli, riso arborio, riso; Risottoreis
long-grain-rice: riz long, riz long grain; arroz largo, arroz de grano largo; riso a chicco lungo; Langkornreis
wild-rice: riz sauvage; arroz salvaje; riso selvaggio; Wildreis
breadcrumbs: chapelure; pan rallado; pangrattato, pan grattato; Semmelbrösel, Paniermehl
puff-pastry: pâte feuilletée; hojaldre, masa de hojaldre; pasta sfoglia; Blätterteig
shortcrust: pâte brisée; masa quebrada; pasta brisée; Mürbeteig
filo: pâte filo; pasta filo; ; Filoteig
sugar: sucre, sucre semoule, sucre en poudre, sucre blanc; azúcar, azúcar blanco; zucchero, zucchero semolato; Zucker, Kristallzucker
icing-sugar: sucre glace; azúcar glas, azúcar glasé, azúcar en polvo; zucchero a velo; Puderzucker, Staubzucker
brown-sugar: cassonade, vergeoise, sucre roux; azúcar moreno; zucchero di canna; brauner Zucker
honey: miel; miel de flores; miele; Honig
maple-syrup: sirop d'érable; sirope de arce, jarabe de arce; sciroppo d'acero; Ahornsirup
glucose-syrup: sirop de glucose, glucose; jarabe de glucosa; sciroppo di glucosio; Glukosesirup
salt: sel, sel fin; sal, sal fina; sale, sale fino; Salz
sea-salt-flakes: fleur de sel; flor de sal, sal en escamas; fior di sale; Meersalzflocken
water: eau; agua; acqua; Wasser
ice: glaçons; hielo; ghiaccio; Eiswürfel
black-pepper: poivre, poivre noir; pimienta, pimienta negra; pepe, pepe nero; Pfeffer, schwarzer Pfeffer
white-pepper: poivre blanc; pimienta blanca; pepe bianco; weißer Pfeffer
nutmeg: muscade, noix de muscade; nuez moscada; noce moscata; Muskat, Muskatnuss
cinnamon-stick: bâton de cannelle, cannelle; canela, canela en rama; cannella, stecca di cannella; Zimtstange, Zimt
clove-spice: clou de girofle, clous de girofle; clavo de olor; chiodo di garofano, chiodi di garofano; Gewürznelke, Nelken
star-anise: badiane, anis étoilé; anís estrellado; anice stellato; Sternanis
juniper: baie de genièvre, baies de genièvre; enebro, bayas de enebro; bacche di ginepro, ginepro; Wacholderbeere, Wacholderbeeren
bay-leaf: laurier, feuille de laurier; laurel, hoja de laurel; alloro, foglia di alloro; Lorbeerblatt, Lorbeer
saffron: safran; azafrán, hebras de azafrán; zafferano; Safran
cumin: cumin en poudre; comino; cumino; Kreuzkümmel
caraway: carvi; alcaravea; carvi dei prati; Kümmel
fennel-seed: graines de fenouil; semillas de hinojo; semi di finocchio; Fenchelsamen
coriander-seed: graines de coriandre; semillas de cilantro; semi di coriandolo; Koriandersamen
mustard-seed: graines de moutarde; semillas de mostaza; semi di senape; Senfkörner
paprika: paprika doux; pimentón dulce, pimentón; paprica dolce; Paprikapulver
smoked-paprika: paprika fumé; pimentón ahumado; paprica affumicata; geräuchertes Paprikapulver
cayenne: poivre de Cayenne; cayena; pepe di cayenna; Cayennepfeffer
cardamom: cardamome; cardamomo; cardamomo verde; Kardamom
turmeric: curcuma; cúrcuma; curcuma in polvere; Kurkuma
vanilla-pod: gousse de vanille, vanille; vaina de vainilla, vainilla; baccello di vaniglia, bacca di vaniglia, vaniglia; Vanilleschote
vanilla-extract: extrait de vanille; extracto de vainilla; estratto di vaniglia; Vanilleextrakt
garlic: ail; ajo; aglio; Knoblauch, Knoblauchzehe
onion: oignon, oignon jaune; cebolla; cipolla; Zwiebel
red-onion: oignon rouge; cebolla morada; cipolla rossa; rote Zwiebel
shallot: échalote, échalotes; chalota, chalotas; scalogno, scalogni; Schalotte
spring-onion: cébette, oignon nouveau; cebolleta; cipollotto, cipollotti; Frühlingszwiebel, Lauchzwiebel
leek: poireau, poireaux; puerro; porro, porri; Lauch, Porree
carrot: carotte; zanahoria; carota, carote; Karotte, Möhre, Mohrrübe
celery: céleri branche, céleri; apio; sedano; Staudensellerie, Stangensellerie
celeriac: céleri-rave; apionabo; sedano rapa; Knollensellerie, Sellerieknolle
potato: pomme de terre, pommes de terre; patata; patata, patate; Kartoffel, Kartoffeln
sweet-potato: patate douce; boniato, batata; patata dolce; Süßkartoffel
beetroot: betterave, betterave rouge; remolacha; barbabietola, barbabietole; Rote Bete, Rote Rübe
parsnip: panais; chirivía; pastinaca; Pastinake
turnip: navet, navets; nabo; rapa bianca; Speiserübe
radish: radis; rábano, rabanitos; ravanello, ravanelli; Radieschen
jerusalem-artichoke: topinambour, topinambours; tupinambo, aguaturma; topinambur; Topinambur
salsify: salsifis; salsifí; scorzonera; Schwarzwurzel
kohlrabi: chou-rave; colirrábano; cavolo rapa; Kohlrabi
horseradish: raifort; rábano picante; rafano, cren; Meerrettich, Kren
ginger: gingembre, gingembre frais; jengibre; zenzero; Ingwer
fennel: fenouil; hinojo; finocchio, finocchi; Fenchel, Fenchelknolle
cucumber: concombre; pepino; cetriolo, cetrioli; Gurke, Salatgurke
tomato: tomate, tomates; tomate; pomodoro, pomodori; Tomate, Tomaten
cherry-tomato: tomate cerise, tomates cerises; tomate cherry, tomates cherry; pomodorini; Kirschtomate, Cocktailtomate
tinned-tomato: tomates pelées, tomates concassées; tomate triturado; pomodori pelati, pelati; Dosentomaten
passata: coulis de tomate; tomate tamizado; passata di pomodoro; passierte Tomaten
tomato-paste: concentré de tomate; concentrado de tomate; concentrato di pomodoro; Tomatenmark
red-pepper: poivron rouge; pimiento rojo; peperone rosso, peperoni rossi; rote Paprika, Paprikaschote rot
green-pepper: poivron vert; pimiento verde; peperone verde; grüne Paprika
aubergine: ; berenjena; melanzana, melanzane; Aubergine
courgette: ; calabacín; zucchina, zucchine; Zucchini
pumpkin: potiron, potimarron; calabaza; zucca; Kürbis
butternut: courge butternut; calabaza violín; zucca violina; Butternutkürbis
spinach: épinard, épinards; espinaca, espinacas; spinaci, spinacio; Spinat, Blattspinat
kale: chou frisé; col rizada; cavolo riccio; Grünkohl
white-cabbage: chou blanc; repollo; cavolo cappuccio; Weißkohl, Weißkraut
red-cabbage: chou rouge; lombarda, col lombarda; cavolo rosso; Rotkohl, Blaukraut
savoy-cabbage: chou vert; col de Milán; verza; Wirsing
cauliflower: chou-fleur; coliflor; cavolfiore; Blumenkohl
broccoli: brocoli, brocolis; brócoli; broccolo; Brokkoli
brussels-sprouts: choux de Bruxelles; coles de Bruselas; cavoletti di Bruxelles; Rosenkohl
chard: blette, bettes; acelga, acelgas; bietola, bietole; Mangold
artichoke: artichaut, artichauts; alcachofa; carciofo, carciofi; Artischocke
asparagus-green: asperge verte, asperges vertes; espárrago verde, espárragos verdes; asparago, asparagi; grüner Spargel
asparagus-white: asperge blanche, asperges blanches; espárrago blanco, espárragos blancos; asparagi bianchi; Spargel, weißer Spargel
green-beans: haricots verts; judías verdes; fagiolini; grüne Bohnen
frozen-peas: petits pois surgelés; guisantes congelados; piselli surgelati; TK-Erbsen
peas-pod: petits pois; guisantes; piselli; frische Erbsen
sweetcorn: maïs doux; maíz dulce; mais dolce; Zuckermais
rocket: roquette; rúcula; rucola, rughetta; Rucola, Rauke
watercress: cresson; berro, berros; crescione; Brunnenkresse
cornsalad: mâche; canónigos; valeriana, songino; Feldsalat
chicory: endive, endives; endibia; indivia belga; Chicorée
radicchio: trévise; achicoria roja; radicchio rosso; 
sorrel: oseille; acedera; acetosa; Sauerampfer
rhubarb: rhubarbe; ruibarbo; rabarbaro; Rhabarber
button-mushroom: champignon de Paris, champignons de Paris, champignons; champiñón, champiñones; champignon bianchi; Champignon
cep: cèpe, cèpes; boletus; porcino, porcini, funghi porcini; Steinpilz, Steinpilze
dried-cep: cèpes séchés; boletus secos; porcini secchi, funghi porcini secchi; getrocknete Steinpilze
chanterelle: girolle, girolles; rebozuelo; finferlo, finferli, gallinacci; Pfifferling, Pfifferlinge, Eierschwammerl
morel: morille, morilles; colmenilla; spugnola, spugnole; Morchel, Morcheln
oyster-mushroom: pleurote, pleurotes; seta de ostra; pleurotus, funghi ostrica; Austernpilz
black-truffle: truffe noire; trufa negra; tartufo nero; schwarzer Trüffel
parsley: persil, persil plat; perejil; prezzemolo; Petersilie
chive: ciboulette; cebollino; erba cipollina; Schnittlauch
chervil: cerfeuil; perifollo; cerfoglio; Kerbel
dill: aneth; eneldo; aneto; Dill
thyme: thym; tomillo; timo; Thymian
rosemary: romarin; romero; rosmarino; Rosmarin
sage: sauge; salvia; salvia officinale; Salbei
tarragon: estragon; estragón; dragoncello; Estragon
basil: basilic; albahaca; basilico; Basilikum
mint: menthe; menta, hierbabuena; mentuccia; Minze
coriander-leaf: coriandre fraîche; cilantro; coriandolo fresco; Koriandergrün
marjoram: marjolaine; mejorana; maggiorana; Majoran
lovage: livèche; levístico; levistico; Liebstöckel
dried-oregano: origan séché; orégano seco; origano secco; getrockneter Oregano
lemon: citron, citron jaune; limón; limone, limoni; Zitrone, Bio-Zitrone
lemon-juice: jus de citron; zumo de limón; succo di limone; Zitronensaft
lime: citron vert; lima; lime verde; Limette
orange: ; naranja; arancia, arance; Orange, Apfelsine
orange-juice: jus d'orange; zumo de naranja; succo d'arancia; Orangensaft
grapefruit: pamplemousse; pomelo; pompelmo; Grapefruit
apple: pomme, pommes; manzana; mela, mele; Apfel, Äpfel
pear: poire, poires; pera, peras; pera, pere; Birne, Birnen
quince: coing, coings; membrillo; mela cotogna, cotogna; Quitte, Quitten
plum: prune, prunes; ciruela; susina, susine; Pflaume, Zwetschge
prune: pruneau, pruneaux; ciruela pasa; prugna secca, prugne secche; Backpflaume, Dörrpflaume
apricot: abricot, abricots; albaricoque; albicocca, albicocche; Aprikose, Marille
peach: pêche, pêches; melocotón; pesca, pesche; Pfirsich
cherry: cerise, cerises; cereza; ciliegia, ciliegie; Kirsche, Süßkirsche
sour-cherry: griotte, griottes; guinda; amarena, amarene; Sauerkirsche
strawberry: fraise, fraises; fresa; fragola, fragole; Erdbeere, Erdbeeren
raspberry: framboise, framboises; frambuesa; lampone, lamponi; Himbeere, Himbeeren
blackberry: mûre, mûres; mora; mora di rovo; Brombeere
blueberry: myrtille, myrtilles; arándano; mirtillo, mirtilli; Heidelbeere, Blaubeere
redcurrant: groseille, groseilles; grosella; ribes rosso; rote Johannisbeere
blackcurrant: cassis frais; grosella negra; ribes nero; schwarze Johannisbeere
grape: raisin frais; uva, uvas; uva da tavola; Weintraube, Trauben
fig: figue, figues; higo; fico, fichi; Feige
raisin: raisin sec, raisins secs; uva pasa, pasas; uvetta, uva passa; Rosine, Rosinen
sultana: raisins de Smyrne; pasas sultanas; uva sultanina; Sultanine
date: datte, dattes; dátil; dattero, datteri; Dattel
banana: banane; plátano; ; Banane
mango: mangue; ; ; Mango
pineapple: ananas; piña; ananas; Ananas
pomegranate: grenade; granada; melagrana; Granatapfel
almond: amande, amandes; almendra, almendra cruda; mandorla, mandorle; Mandel, Mandeln
ground-almond: poudre d'amande, amandes en poudre; almendra molida; farina di mandorle; gemahlene Mandeln
hazelnuts: noisette, noisettes; avellana; nocciola, nocciole; Haselnuss, Haselnüsse, Haselnusskerne
walnut: noix, cerneaux de noix; nuez, nueces; noce, noci, gherigli di noce; Walnuss, Walnüsse, Walnusskerne
pistachio: pistache, pistaches; pistacho; pistacchio, pistacchi; Pistazie, Pistazien
pine-nut: pignon de pin, pignons; piñón, piñones; pinolo, pinoli; Pinienkern, Pinienkerne
chestnut: châtaigne, marron, marrons; castaña; castagna, castagne; Esskastanie, Marone
peanut: cacahuète, arachide; cacahuete; arachide, arachidi; Erdnuss, Erdnüsse
sesame: graines de sésame, sésame; sésamo; sesamo; Sesam
poppy-seed: graines de pavot, pavot; semillas de amapola; semi di papavero; Mohn
pumpkin-seeds: graines de courge; pipas de calabaza; semi di zucca; Kürbiskerne
sunflower-seeds: graines de tournesol; pipas de girasol; semi di girasole; Sonnenblumenkerne
linseed: graines de lin; linaza; semi di lino; Leinsamen
coconut-milk: lait de coco; leche de coco; latte di cocco; Kokosmilch
olive-oil: huile d'olive, huile d'olive vierge extra; aceite de oliva, aceite de oliva virgen extra, AOVE; olio d'oliva, olio extravergine d'oliva, olio extravergine, olio evo; Olivenöl, natives Olivenöl
sunflower-oil: huile de tournesol; aceite de girasol; olio di girasole, olio di semi di girasole; Sonnenblumenöl
rapeseed-oil: huile de colza; aceite de colza; olio di colza; Rapsöl
groundnut-oil: huile d'arachide; aceite de cacahuete; olio di arachidi; Erdnussöl
sesame-oil: huile de sésame; aceite de sésamo; olio di sesamo; Sesamöl
walnut-oil: huile de noix; aceite de nuez; olio di noci; Walnussöl
hazelnut-oil: huile de noisette; aceite de avellana; olio di nocciole; Haselnussöl
lard: saindoux; manteca de cerdo; strutto; Schweineschmalz
duck-fat: graisse de canard; grasa de pato; grasso d'anatra; Entenfett
ghee: beurre clarifié; mantequilla clarificada; burro chiarificato; Butterschmalz
white-wine-vinegar: vinaigre de vin blanc; vinagre de vino blanco; aceto di vino bianco; Weißweinessig
red-wine-vinegar: vinaigre de vin rouge; vinagre de vino tinto; aceto di vino rosso; Rotweinessig
cider-vinegar: vinaigre de cidre; vinagre de manzana; aceto di mele; Apfelessig
sherry-vinegar: vinaigre de xérès; vinagre de Jerez; aceto di sherry; Sherryessig
balsamic-vinegar: vinaigre balsamique; vinagre balsámico; aceto balsamico; Balsamicoessig
dijon-mustard: moutarde de Dijon, moutarde; mostaza de Dijon; senape di Digione; Dijonsenf
grain-mustard: moutarde à l'ancienne; mostaza antigua; senape in grani; körniger Senf
capers: câpres, câpre; alcaparras; capperi, capperi sotto sale; Kapern
soy-sauce: sauce soja; salsa de soja; salsa di soia; Sojasauce, Sojasoße
worcester-sauce: sauce Worcestershire; salsa Worcestershire; ; Worcestersauce
white-wine: vin blanc, vin blanc sec; vino blanco, vino blanco seco; vino bianco, vino bianco secco; Weißwein, trockener Weißwein
red-wine: vin rouge; vino tinto; vino rosso; Rotwein, trockener Rotwein
port: porto; oporto, vino de Oporto; ; Portwein
dry-sherry: xérès sec; jerez seco, fino; ; trockener Sherry
brandy: eau-de-vie de vin, cognac; coñac; cognac francese; Weinbrand
dry-cider: cidre brut; sidra seca; sidro secco; Apfelwein
chicken-stock: fond de volaille, bouillon de volaille, bouillon de poule; caldo de pollo; brodo di pollo; Hühnerbrühe, Geflügelfond, Hühnerfond
beef-stock: fond de bœuf, bouillon de bœuf; caldo de carne, caldo de ternera; brodo di carne, brodo di manzo; Rinderbrühe, Rinderfond
fish-stock: fumet de poisson; fumet de pescado, caldo de pescado; fumetto di pesce; Fischfond
vegetable-bouillon: bouillon de légumes en poudre; caldo de verduras en polvo; dado vegetale; Gemüsebrühe Pulver
fresh-yeast: levure fraîche, levure de boulanger; levadura fresca; lievito di birra, lievito fresco; Hefe, frische Hefe
dry-yeast: levure sèche; levadura seca; lievito secco; Trockenhefe
baking-powder: levure chimique; levadura química, polvo de hornear; lievito per dolci; Backpulver
bicarbonate: bicarbonate de soude; bicarbonato; bicarbonato di sodio; Natron
gelatin-leaf: feuille de gélatine, gélatine; gelatina en hojas, gelatina; colla di pesce, gelatina in fogli; Blattgelatine, Gelatine
agar: agar-agar; ; ; Agar-Agar
dark-chocolate-70: chocolat noir 70 %; chocolate negro 70 %; cioccolato fondente 70 %; Zartbitterschokolade 70 %
dark-chocolate-55: chocolat noir; chocolate negro; cioccolato fondente; Zartbitterschokolade
milk-chocolate: chocolat au lait; chocolate con leche; cioccolato al latte; Vollmilchschokolade
white-chocolate: chocolat blanc; chocolate blanco; cioccolato bianco; weiße Schokolade
cocoa-powder: cacao en poudre, cacao; cacao en polvo; cacao in polvere, cacao amaro; Kakaopulver, Kakao
chickpeas: pois chiches; garbanzos; ceci; Kichererbsen
lentils: lentilles; lentejas; lenticchie; Linsen
white-beans: haricots blancs; alubias blancas, judías blancas; fagioli bianchi; weiße Bohnen
black-beans: haricots noirs; alubias negras; fagioli neri; schwarze Bohnen
chicken: poulet, poulet entier; pollo, pollo entero; pollo intero; Hähnchen, Huhn
chicken-breast: blanc de poulet, suprême de volaille; pechuga de pollo; petto di pollo; Hähnchenbrust
chicken-leg: cuisse de poulet; muslo de pollo entero; coscia di pollo; Hähnchenkeule
duck: canard; pato; anatra; Ente
duck-breast: magret, magret de canard; magret de pato; petto d'anatra; Entenbrust
guinea-fowl: pintade; gallina de Guinea, pintada; faraona; Perlhuhn
quail: caille, cailles; codorniz; quaglia, quaglie; Wachtel, Wachteln
squab: pigeonneau, pigeon; pichón; piccione; Taube
rabbit: lapin; conejo; coniglio; Kaninchen
beef-fillet: filet de bœuf; solomillo de ternera, solomillo de vaca; filetto di manzo; Rinderfilet
beef-cheek: joue de bœuf; carrillera de ternera; guancia di manzo; Rinderbacke
beef-mince: bœuf haché; carne picada de ternera; carne macinata di manzo; Rinderhack, Rinderhackfleisch
oxtail: queue de bœuf; rabo de toro, rabo de buey; coda di bue; Ochsenschwanz
veal-shin: jarret de veau; jarrete de ternera; ossobuco, stinco di vitello; Kalbshaxe
lamb-rack: carré d'agneau; costillar de cordero; carré d'agnello; Lammkarree
lamb-leg: gigot d'agneau; pierna de cordero; cosciotto d'agnello; Lammkeule
lamb-shoulder: épaule d'agneau; paletilla de cordero; spalla d'agnello; Lammschulter
pork-belly: poitrine de porc; panceta de cerdo fresca; pancia di maiale; Schweinebauch
pork-tenderloin: filet mignon de porc; solomillo de cerdo; filetto di maiale; Schweinefilet
pork-loin: longe de porc; lomo de cerdo; lonza di maiale; Schweinerücken
bacon: lard fumé, poitrine fumée; beicon, panceta ahumada; pancetta affumicata; Räucherspeck, Bauchspeck
cooked-ham: jambon blanc, jambon cuit; jamón cocido, jamón york; prosciutto cotto; Kochschinken
air-dried-ham: jambon cru, jambon sec; jamón serrano; prosciutto crudo; luftgetrockneter Schinken
cod: cabillaud; bacalao fresco; merluzzo; Kabeljau, Dorsch
salt-cod: morue salée; bacalao salado; baccalà; Klippfisch
hake: merlu; merluza; nasello; Seehecht
sea-bass: loup de mer; lubina; branzino, spigola; Wolfsbarsch
sea-bream: daurade royale, dorade; dorada; orata; Dorade
turbot: ; rodaballo; rombo; Steinbutt
dover-sole: sole; lenguado; sogliola; Seezunge
monkfish: lotte; ; coda di rospo, rana pescatrice; Seeteufel
mackerel: maquereau; caballa; sgombro; Makrele
sardine: sardine fraîche; sardina; sarda, sarde; frische Sardine
trout: truite; trucha; trota; Forelle
eel: anguille; anguila; anguilla; Aal
pike-perch: sandre; lucioperca; lucioperca europea; Zander
salmon-farmed: saumon, saumon frais; salmón; salmone; Lachs
smoked-salmon: saumon fumé; salmón ahumado; salmone affumicato; Räucherlachs
anchovy-oil: anchois à l'huile, filets d'anchois; anchoas, anchoas en aceite; acciughe sott'olio, alici sott'olio; Sardellenfilets
mussel: moule, moules; mejillón, mejillones; cozza, cozze; Miesmuschel, Miesmuscheln
oyster: huître, huîtres; ostra; ostrica, ostriche; Auster, Austern
scallop: coquille Saint-Jacques, noix de Saint-Jacques; vieira, vieiras; capasanta, capesante; Jakobsmuschel
clam: palourde, palourdes; almeja, almejas; vongola, vongole; Venusmuschel
squid: calmar, encornet; calamar, chipirón; calamaro, calamari; Kalmar
octopus: poulpe; pulpo; polpo; Krake, Oktopus
lobster: homard; bogavante; astice; Hummer
langoustine: ; cigala, cigalas; scampo, scampi; Kaisergranat
prawn: crevette, crevettes, gambas; gamba, langostino; gambero, gamberi; Garnele, Garnelen
crab: tourteau, crabe; buey de mar, cangrejo; granchio; Taschenkrebs
`;

/** Names by id, from the table. */
function foreignNames(): Map<string, string[]> {
  const names = new Map<string, string[]>();
  for (const line of NAMES.split("\n")) {
    const colon = line.indexOf(":");
    if (colon > 0)
      names.set(
        line.slice(0, colon).trim(),
        line
          .slice(colon + 1)
          .split(/[;,](?=\s|$)/)
          .map((name) => name.trim())
          .filter(Boolean),
      );
  }
  return names;
}

/** Adds the names of other languages as aliases; a name that another ingredient has already is left with it. */
export function withForeignNames(pantry: readonly IngredientInput[]): IngredientInput[] {
  const foreign = foreignNames();
  const plain = (name: string) => name.toLowerCase();
  const taken = new Set(pantry.flatMap(({ name, aliases = [] }) => [name, ...aliases].map(plain)));
  return pantry.map((one) => {
    const more = (foreign.get(one.id) ?? []).filter((name) => {
      if (taken.has(plain(name))) return false;
      taken.add(plain(name));
      return true;
    });
    return more.length === 0 ? one : { ...one, aliases: [...(one.aliases ?? []), ...more] };
  });
}
