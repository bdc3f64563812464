/** Words of recipes in English, French, Spanish, Italian and German; common practice, no source. */

const set = (words: string) => new Set(words.split("|"));

/** Headings over the ingredients, in small letters without marks. */
export const INGREDIENT_HEADINGS = set(
  "ingredients|ingredient list|the ingredients|you will need|you'll need|what you need|shopping list|total formula|formula|" +
    "ingrédients|les ingrédients|il vous faut|denrées|liste des denrées|ingredientes|los ingredientes|necesitas|" +
    "ingredienti|gli ingredienti|occorrente|zutaten|die zutaten|das brauchen sie|zutatenliste",
);

/** Headings over the method. */
export const METHOD_HEADINGS = set(
  "method|the method|directions|instructions|preparation|procedure|process|steps|what to do|how to make it|how to|to make|cooking|" +
    "préparation|la préparation|technique|techniques|préparer|réalisation|la recette|étapes|progression|déroulement|cuisson|procédé|" +
    "preparación|elaboración|modo de preparación|modo de hacerlo|instrucciones|pasos|cómo se hace|procedimiento|" +
    "preparazione|la preparazione|procedimento|esecuzione|istruzioni|come si fa|metodo|" +
    "zubereitung|die zubereitung|anleitung|so geht's|so wird's gemacht|herstellung|arbeitsschritte",
);

/** Headings over what is neither: it is kept, but not read. */
export const NOTE_HEADINGS = set(
  "note|notes|tip|tips|cook's note|cook's notes|chef's note|chef's notes|storage|to store|equipment|nutrition|variations|variation|" +
    "astuce|astuces|conseil|conseils|conservation|matériel|notas|consejo|consejos|trucos|conservación|" +
    "consigli|consiglio|conservazione|tipp|tipps|hinweis|hinweise|aufbewahrung",
);

/** Times of the whole recipe, which are no steps. */
export const META =
  /^(?:prep(?:aration|aración|arazione|aratoin)?|préparation|cook(?:ing)?|total|active|hands-on|resting|chill(?:ing)?|cuisson|repos|cocción|reposo|cottura|riposo|vorbereitung\w*|arbeits\w*|back(?:zeit|dauer|en)\w*|koch(?:zeit|dauer|en)\w*|gar(?:zeit|dauer|en)\w*|ruhe\w*|gesamt\w*|(?:temps|tiempo|tempo|zeit)\b[^:]{0,30}|difficulty|difficulté|dificultad|difficoltà|schwierigkeit\w*|cuisine|course|category|source|author|calories|level)(?: ?(?:time|zeit|temps|tiempo))?\s*[:=–-]\s*\S|^(?:notes?|n\.?b\.?|tips?|subs?|substitutes?|(?:special )?equipment|allerg[eè]n[es]?|al[eé]rgenos|allergeni|shelf life|storage|astuce|conseil|consejo|consiglio|nota|hinweis|tipp|cost|coût|coste|costo|dlc|haltbarkeit|haltbar|station|date|adapted from|from the kitchen of|recipe by)\s*:\s*\S/iu;

/** "Serves 4": what is made is portions. */
export const PORTION_KEY =
  /^(?:\(?\s*)(?:(?:this )?(?:recipe )?(?:serves|feeds)|(?:(?:number|no\.?|nombre|nb\.?|n[úu]mero|n[°º.]|anzahl)\s(?:of |de |di |der )?)?(?:servings?|serving size|portions?|covers|couverts|coperti|cubiertos|personnes|convives|raciones|comensales|porciones|personas|porzioni|persone|portionen|personen|pax))(?!\p{L})\s*:?\s*(?=[^\s:])/iu;
/** "Makes 12 buns", "Für 4 Personen": what is made is said after the number. */
export const YIELD_KEY =
  /^(?:\(?\s*)(?:(?:this )?(?:recipe )?(?:makes|yields?)|yield|batch(?: size)?(?=\s*[:=])|base(?=\s*[:=])|quantity made|(?:ingrédients |quantités |recette )?pour|rendement|donne|(?:ingredientes |receta )?para|rinde|rendimiento|(?:ingredienti |dosi )?per|dosi|resa|x(?=\s?\d{1,4}\s(?:pers|pax|coperti|couverts|portion|porzioni|raciones|comensales|guests|covers))|(?:zutaten )?für|ergibt|menge|for|enough for)\s*[:=–-]?\s*(?=[^\s:])/iu;
/** Words for those who are fed. */
export const PORTION_WORDS =
  /^(?:to \d+ )?(?:(?:hungry|generous|generosas|small|large|gute|kleine|main|starter|main-course|first-course)\s+)?(?:persons?|people|portions?|servings?|serves|guests|covers|pax|diners|couverts?|cubiertos|coperti|personnes?|pers\.?|convives|parts?|raciones|ración|racione?s|personas|comensales|porciones|porción|persone|porzioni|porzione|portionen|personen|esser)\b/iu;

/** "For the sauce": the heading of a part. */
export const PART_KEY =
  /^(?:(?:ingredients?|ingrédients|ingredientes|ingredienti|zutaten)\s+)?(?:for (?:the |your )?|to (?=serve|finish|plate|garnish|assemble|decorate)|pour (?:la |le |les |l['’]|(?=\p{L}+(?:er|ir|re)\s*:?$))|para (?:la |el |las |los |)|per (?:la |il |lo |i |gli |le |l['’]|(?=\p{L}+[aei]re\s*:?$))|für (?:den |die |das )|zum (?=servieren|garnieren|anrichten))/iu;

/** Last words of the names of parts: such a short line among ingredients is a heading. */
export const PART_NOUNS = set(
  "dough|pastry|crust|sauce|filling|topping|toppings|glaze|icing|frosting|dressing|marinade|brine|vinaigrette|sponge|base|" +
    "crumble|syrup|garnish|purée|puree|jus|gel|praline|ganache|emulsion|crumb|pickle|rub|batter|streusel|custard|mousse|" +
    "crisp|tuile|caramel|coulis|relish|salsa|paste|broth|soup|mix|mixture|spices|garnishes|assembly|wrapper|wrappers|" +
    "pâte|garniture|appareil|crème|glaçage|nappage|masa|relleno|salsa|glaseado|impasto|ripieno|condimento|farcia|glassa|frolla|" +
    "montaggio|beilage|teig|füllung|belag|soße|guss|glasur|streusel|creme|marinade",
);

/** Words that say which, not what: before "or" or in a list of adjectives they never stand alone. */
export const ADJECTIVES = set(
  "large|small|medium|big|extra-large|fresh|dried|ripe|firm|red|white|green|black|yellow|brown|golden|dark|light|whole|skim|skimmed|" +
    "semi-skimmed|low-fat|full-fat|hot|mild|sweet|cold|warm|plain|strong|boneless|skinless|bone-in|skin-on|raw|frozen|canned|cooked|" +
    "smoked|salted|unsalted|coarse|fine|young|old|tender|crisp|crusty|dry|medium-dry|good|free-range|organic|thick|thin|flat|curly|" +
    "clear|heavy|single|double|lean|unwaxed|waxy|floury|finely|roughly|thinly|coarsely|" +
    "freshly|lightly|very|well|rouge|blanc|blanche|vert|verte|noir|noire|frais|fraîche|doux|douce|petit|petits|petite|petites|gros|" +
    "tinto|blanco|verde|rojo|negro|fresco|fresca|rosso|bianco|nero|fresche|freschi|rote|weiße|grüne|frische|große|kleine|reife",
);

/** Foods that before "or" name a kind: chicken or vegetable stock, olive or sunflower oil. */
export const KINDS = set(
  "chicken|vegetable|beef|veal|fish|pork|lamb|turkey|duck|mushroom|olive|sunflower|rapeseed|canola|peanut|grapeseed|" +
    "apple|cider|wine|rice|malt|almond|oat|soy",
);
