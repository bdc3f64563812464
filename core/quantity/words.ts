import { parseRational, type Rational } from "../numerics/rational.ts";
import { UNIT_SYMBOLS, type Unit } from "./units.ts";

/** What a word for a measure means: `times` units, with a doubt to tell when the word is loose. */
export type Word = {
  readonly unit: Unit;
  readonly times?: Rational;
  readonly doubt?: string;
  /** A spoon, cup or pint of English: its size follows the country of the recipe. */
  readonly local?: true;
};

const LOOSE_CUP = "this cup is read as the metric one of 250 mL (common practice)";

/**
 * Names of measures in English, French, Spanish, Italian and German, without accents or full stops,
 * parted by "|". Names of one letter keep their capitals: T is a tablespoon, t a teaspoon.
 */
const NAMES: Partial<Record<Unit, string>> = {
  mg: "mg|milligram|milligrams|milligramme|milligrammes|miligramo|miligramos|milligrammo|milligrammi|milligramm",
  g: "g|G|gr|grs|gm|gms|gram|grams|gramme|grammes|gramo|gramos|grammo|grammi|gramm",
  kg: "kg|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes|kilogramo|kilogramos|chilo|kilogramm",
  oz: "oz|ozs|ounce|ounces|once|onces|onza|onzas|oncia|once|unze|unzen",
  lb: "lb|lbs|pound|pounds|#",
  mL: "ml|mls|cc|milliliter|milliliters|millilitre|millilitres|mililitro|mililitros|millilitro|millilitri",
  cL: "cl|centiliter|centiliters|centilitre|centilitres|centilitro|centilitros|centilitri",
  dL: "dl|deciliter|deciliters|decilitre|decilitres|decilitro|decilitros|decilitri|deziliter",
  L: "l|L|lt|ltr|liter|liters|litre|litres|litro|litros|litri",
  tsp: "t|tsp|tsps|tspn|tspns|teasp|teaspoon|teaspoons|teaspoonful|teaspoonfuls",
  tbsp: "T|tb|tbs|tbsp|tbsps|tblsp|tblsps|tblspn|tbspn|tbl|tbls|tablespoon|tablespoons|tablespoonful|tablespoonfuls",
  "fl oz": "fl oz|floz|fluid oz|fluid ounce|fluid ounces|fl ounce|fl ounces",
  cup: "c|C|cup|cups|cupful|cupfuls",
  pt: "pt|pts|pint|pints",
  qt: "qt|qts|quart|quarts",
  gal: "gal|gals|gallon|gallons",
  "metric tsp":
    "cac|c a c|cuil a cafe|cuillere a cafe|cuilleres a cafe|cuilleree a cafe|cuillerees a cafe|c a cafe|c a the|cuillere a the|cuilleres a the|cuiller a cafe|cuillers a cafe|cuill a cafe|cuil a c|cuill a c|cdta|cdtas|cdita|cditas|cta|ctas|cucharadita|cucharaditas|cucharadita de te|cucharaditas de te|cucchiaino|cucchiaini|cucchiaino da te|cucchiaini da te|cucchiaino da caffe|cucchiaini da caffe|tl|teel|teeloffel|teeloeffel|kl|kaffeeloffel",
  "metric tbsp":
    "cas|c a s|cs|cuil a soupe|cuillere a soupe|cuilleres a soupe|cuilleree a soupe|cuillerees a soupe|c a soupe|cda|cdas|cucharada|cucharadas|cucharada sopera|cucharadas soperas|cuiller a soupe|cuillers a soupe|cuill a soupe|cuil a s|cuill a s|cda sopera|cdas soperas|cucchiaio|cucchiai|cucchiaiata|cucchiaiate|cucchiaio da tavola|cucchiai da tavola|cucchiaio da minestra|cucchiai da minestra|cucch|el|essl|eßl|essloffel|eßloffel|essloeffel",
  drop: "drop|drops|goutte|gouttes|gota|gotas|goccia|gocce|tropfen",
  pinch:
    "pinch|pinches|pincee|pincees|pizca|pizcas|pizzico|pizzichi|presa|prese|pellizco|pellizcos|prise|prisen|pr|msp|messerspitze|messerspitzen|pointe de couteau|pointes de couteau|punta di coltello|punta de cuchillo",
  dash: "dash|dashes|trait|traits|spritzer|chorrito|spruzzo",
  piece:
    "pc|pcs|piece|pieces|each|ea|pce|pces|pieza|piezas|pza|pzas|unidad|unidades|unid|unids|ud|uds|pezzo|pezzi|stk|stck|stuck|stueck|stucke",
  dozen: "doz|dz|dozen|dozens|douzaine|douzaines|docena|docenas|dozzina|dozzine|dutzend",
  mm: "mm|millimeter|millimeters|millimetre|millimetres|milimetro|milimetros|millimetri",
  cm: "cm|centimeter|centimeters|centimetre|centimetres|centimetro|centimetros|centimetri|zentimeter",
  m: "m|meter|meters|metre|metres|metro|metros|metri",
  in: "in|inch|inches|pouce|pouces|pulgada|pulgadas|zoll",
  ft: "ft|foot|feet",
  "°C": "°c|deg c|degrees c|degree c|degrees celsius|celsius|degres|degres c|grad|grad c|grados|grados c|gradi|gradi c",
  "°F": "°f|F|deg f|degrees f|degree f|degrees fahrenheit|fahrenheit",
  K: "K|kelvin",
  s: "s|sec|secs|second|seconds|seconde|secondes|segundo|segundos|secondo|secondi|sek|sekunde|sekunden",
  min: "min|mins|minute|minutes|minuto|minutos|minuti|minuten|mn",
  h: "h|hr|hrs|hour|hours|heure|heures|hora|horas|ora|ore|std|stunde|stunden",
  day: "day|days|jour|jours|dia|dias|giorno|giorni|tag|tage|tagen",
  bottle:
    "bottle|bottles|btl|btls|bouteille|bouteilles|botella|botellas|bottiglia|bottiglie|flasche|flaschen",
  bunch:
    "bunch|bunches|bnch|bn|bch|bu|botte|bottes|bouquet|bouquets|manojo|manojos|atado|atados|ramillete|ramilletes|mazzo|mazzi|mazzetto|mazzetti|mazzolino|bund|bunde|bd|buschel",
  can: "can|cans|tin|tins|boite|boites|conserve|conserves|lata|latas|bote|botes|lattina|lattine|barattolo|barattoli|scatola|scatole|scatoletta|scatolette|dose|dosen|ds",
  clove:
    "clove|cloves|gousse|gousses|diente|dientes|spicchio|spicchi|zehe|zehen|knoblauchzehe|knoblauchzehen",
  fillet: "fillet|fillets|filet|filets|filete|filetes|filetto|filetti",
  glass: "glass|glasses|verre|verres|vaso|vasos|bicchiere|bicchieri|glas|glaser",
  handful:
    "handful|handfuls|poignee|poignees|punado|punados|punadito|punaditos|manciata|manciate|manciatina|handvoll|hand voll|handvolle",
  head: "head|heads|bulb|bulbs|bulbe|bulbes|bulbo|bulbos|bulbi|tete|tetes|cabeza|cabezas|testa|teste|knolle|knollen|kopf|kopfe",
  jar: "jar|jars|bocal|bocaux|tarro|tarros|vasetto|vasetti",
  leaf: "leaf|leaves|feuille|feuilles|hoja|hojas|foglia|foglie|blatt|blatter",
  packet:
    "packet|packets|env|pkt|pkg|pkgs|envelope|envelopes|bag|bags|box|boxes|carton|cartons|tub|tubs|package|packages|pack|packs|sachet|sachets|paquet|paquets|sobre|sobres|paquete|paquetes|bustina|bustine|pacchetto|pacchetti|pacco|packchen|paeckchen|pck|packung|packungen|pkg|pak|packerl|briefchen|beutel|tute|tuten|tutchen",
  sheet: "sheet|sheets|plaque|plaques|lamina|laminas|foglio|fogli",
  slice:
    "slice|slices|rasher|rashers|strips|tranche|tranches|rebanada|rebanadas|loncha|lonchas|rodaja|rodajas|fetta|fette|fettina|fettine|feta|fetas|lonja|lonjas|scheibe|scheiben|schb",
  sprig:
    "sprig|sprigs|brin|brins|ramita|ramitas|rametto|rametti|brindille|brindilles|ramito|ramitos|zweig|zweige|zweiglein|zweigerl|stangel|stengel|stiel|stiele",
  stalk: "stalk|stalks|branche|branches|tallo|tallos|rama|ramas|gambo|gambi|costa|coste|stange|stangen|stg",
  stick: "stick|sticks|baton|batons",
};

/** Words that stand for a number of units, or are looser than a unit. */
const LOOSE: readonly (readonly [names: string, unit: Unit, times: string, doubt?: string])[] = [
  ["etto|etti|hg|ettogrammo|ettogrammi|hectogramme|hectogrammes", "g", "100"],
  ["dag|deka|dekagramm", "g", "10"],
  ["pfund|pfd", "g", "500"],
  ["livre|livres", "g", "500", "a livre is read as 500 g (French use)"],
  ["libra|libras|libbra|libbre", "lb", "1", "read as the pound of 453.59 g; older local pounds differ"],
  ["tasse|tasses|taza|tazas|tazza|tazze|tassen", "metric cup", "1", LOOSE_CUP],
  ["halbliter|demi litre|demi litres", "L", "1/2"],
  [
    "dessertspoon|dessertspoons|dessertspoonful|dessertspoonfuls|dsp|dstsp|cuillere a dessert|cuilleres a dessert|c a dessert|cucharada de postre|cucharadas de postre",
    "metric tsp",
    "2",
    "a dessertspoon is read as two teaspoons, 10 mL (common practice)",
  ],
  [
    "saltspoon|saltspoons|saltspoonful|saltspoonfuls",
    "tsp",
    "1/4",
    "a saltspoon is read as 1/4 tsp (common practice)",
  ],
  ["dizaine|dizaines|decina|decine|decena|decenas", "piece", "10"],
  ["quinzaine|quindicina|quincena", "piece", "15"],
  ["vingtaine|ventina|veintena", "piece", "20"],
  ["trentaine|trentina|treintena", "piece", "30"],
  ["quarantaine|quarantina", "piece", "40"],
  ["cinquantaine|cinquantina|cincuentena", "piece", "50"],
  ["centaine|centaines|centinaio|centenar", "piece", "100"],
  ["°", "°C", "1", "no C or F after the degree sign: read as °C"],
  ["oz fl|onza liquida|onzas liquidas|once liquide|onces liquides", "fl oz", "1"],
];

/** English measures whose size depends on the country. */
const LOCAL: readonly Unit[] = ["tsp", "tbsp", "fl oz", "cup", "pt", "qt", "gal"];

/** Lower case, no accents, no full stops, single spaces; one letter alone keeps its capital. */
export function normalise(text: string): string {
  if (/^[a-z]{2,}$/.test(text)) return text;
  const bare = text
    .normalize("NFD")
    .replace(/[\u0300-\u036f.]/g, "")
    .replace(/[º˚]/g, "°")
    .replace(/['’‘-]/g, " ")
    .replace(/\s+/g, " ")
    .trim();
  return bare.length === 1 ? bare : bare.toLowerCase();
}

function build(): Map<string, Word> {
  const words = new Map<string, Word>();
  const put = (name: string, word: Word) => {
    if (!words.has(name)) words.set(name, word);
  };
  for (const unit of UNIT_SYMBOLS) put(normalise(unit), { unit });
  for (const [unit, names] of Object.entries(NAMES) as [Unit, string][]) {
    const word: Word = LOCAL.includes(unit) ? { unit, local: true } : { unit };
    for (const name of names.split("|")) words.set(name, word);
  }
  for (const [names, unit, times, doubt] of LOOSE) {
    for (const name of names.split("|")) {
      put(name, { unit, times: parseRational(times)!, ...(doubt ? { doubt } : {}) });
    }
  }
  // A quarter of a pint, of whichever pint.
  for (const name of ["gill", "gills"]) put(name, { unit: "pt", times: parseRational("1/4")!, local: true });
  for (const [family, prefixes, units] of SYSTEMS) {
    for (const unit of units) {
      const meant = (family === "us" ? unit : `${family} ${unit}`) as Unit;
      for (const prefix of prefixes) {
        for (const name of NAMES[unit]!.split("|")) put(`${prefix} ${name}`, { unit: meant });
      }
    }
  }
  return words;
}

/** Which words before a measure fix its country. */
const SYSTEMS: readonly (readonly [family: string, prefixes: readonly string[], units: readonly Unit[]])[] = [
  ["us", ["us", "u s", "american"], LOCAL],
  ["imp", ["imp", "imperial", "uk", "british"], ["fl oz", "pt", "qt", "gal"]],
  ["metric", ["metric"], ["tsp", "tbsp", "cup"]],
  ["australian", ["australian", "au"], ["tbsp"]],
  ["japanese", ["japanese"], ["cup"]],
  ["rice", ["rice", "rice cooker"], ["cup"]],
  ["label", ["label"], ["cup"]],
];

/**
 * Whose spoons, cups and pints English names mean: US customary; metric (5, 15, 250 mL); imperial, the British ones (metric
 * spoons and cups, imperial pints); australian (a tablespoon of 20 mL); japanese (a cup of 200 mL).
 */
export const COUNTRIES = ["us", "metric", "imperial", "australian", "japanese"] as const;
export type Country = (typeof COUNTRIES)[number];

/** An English measure as a recipe of another country means it. */
export function localUnit(unit: Unit, country: Country): Unit {
  if (country === "us" || !LOCAL.includes(unit)) return unit;
  if (country === "australian" && unit === "tbsp") return "australian tbsp";
  if (country === "japanese" && unit === "cup") return "japanese cup";
  const spoon = unit === "tsp" || unit === "tbsp" || unit === "cup";
  return (spoon ? `metric ${unit}` : `imp ${unit}`) as Unit;
}

const WORDS = build();
/** First words of all names with the words of the longest: most words of a line are known at once to begin none. */
const FIRST = new Map<string, number>();
for (const name of WORDS.keys()) {
  const words = name.split(" ");
  FIRST.set(words[0]!, Math.max(FIRST.get(words[0]!) ?? 0, words.length));
}

/** Words of the longest name of a measure that begins with this word; 0 when none does. */
export function longestUnit(word: string): number {
  return FIRST.get(word) ?? FIRST.get(normalise(word).split(" ", 1)[0]!) ?? 0;
}

/** The measure a word or phrase names in any of the five languages, or undefined. */
export function unitWord(phrase: string): Word | undefined {
  return WORDS.get(phrase.trim()) ?? WORDS.get(normalise(phrase));
}
