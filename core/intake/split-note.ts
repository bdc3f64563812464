import { ADJECTIVES, KINDS } from "./words.ts";

/** What is bought and what is said of it. */
export interface Split {
  readonly ingredient: string;
  readonly notes: readonly string[];
}

/** Marks and words that begin a note wherever they stand. */
const MARK = /,(?!\d)|(?<!\d),|;|\s[–—-]+\s|—|\s\+\s|\s\/\s|\s(?=w\/)/gu;
const STARTER = new RegExp(
  `[\\s](?:${[
    "plus\\b|divided\\b|for\\b|as (?:needed|required)\\b|at room temp|if (?:you|needed|desired|using|necessary|available)\\b",
    "to (?:serve|finish|garnish|taste|cover|coat|grease|dust|drizzle|decorate|top|brush|fry|sprinkle|season|make|bind)\\b|to \\p{L}+(?:-\\p{L}+)?(?=$|,|\\s(?:the|your|with|over|on|as|it)\\s)",
    "cut (?:into|in|on|cross|length|from)|broken (?:into|up)|torn into|left |such as\\b|preferably\\b|ideally\\b|dissolved\\b|mixed with\\b",
    "(?:per|par|por|pro|al|au)\\s(?:kg|kilo|litre|liter|litro|l|100\\s?g|person|portion|head)\\b",
    "(?:environ|circa|or so|or more|aprox\\.?|approx\\.?)(?=$|,)",
    "@\\s?(?=[\\d£$€])",
    "(?:about|approx\\.?|around|ca\\.?|circa|environ|etwa|unos|weighing|wt\\.?)\\s?(?=[\\d½¼¾])",
    "with (?:their |its |the )?(?:juices?|skins?|tops|leaves)\\b|(?:with|avec|con|mit)\\s(?=\\d)|without\\b|on the (?:bone|vine)\\b",
    "pour (?:le|la|les|l['’]|servir|\\p{L}+(?:er|ir)\\b)|en (?:dés|morceaux|rondelles|lamelles|cubes|dados|daditos|taquitos|tacos|trozos|trocitos|cubos|tiras|piezas|mitades|octavos|láminas|gajos|cuartos|bastones|aros|rodajas|juliana|julienne)\\b|(?:(?:à|de|da|di|von|zu)\\s(?:je\\s|ca\\.?\\s|circa\\s|environ\\s|etwa\\s|unos\\s)?|d['’]environ\\s)(?=\\d{1,4}(?:[.,]\\d)?\\s?(?:k?g|ml|cl|cm|oz)\\b)|à température",
    "para\\b|al gusto\\b|per (?:servire|guarnire|friggere|ungere|decorare|spolver\\p{L}*|infarinare|la|il|lo|le|i|gli|l['’])(?![\\p{L}])|a (?:dadini|cubetti|fett[ei]|fettine|pezzi|pezzetti|tocchetti|listarelle|julienne|rondelle|striscioline|spicchi|temperatura)\\b",
    "vom Vortag|zum\\b|zur\\b|für (?:die|den|das)\\b|in (?:Würfeln|Scheiben|Streifen|Stücken|Ringen|Stückchen|dünnen|feinen)|nach (?:Geschmack|Belieben)",
  ].join("|")})`,
  "giu",
);
const OR = /\s(?:or|ou|oder|od\.|bzw\.|oppure|o|u)\s/giu;
const PARTICIPLE =
  /\s((?:(?:finely|coarsely|roughly|thinly|thickly|very|well|lightly|freshly|just)\s)*(?:chopped|diced|sliced|minced|peeled|grated|crushed|halved|quartered|trimmed|drained|rinsed|seeded|deseeded|pitted|cored|shredded|cubed|torn|beaten|melted|softened|separated|toasted|sifted|juiced|zested|thawed|washed|cleaned|crumbled|mashed|scrubbed|stoned|hulled|shucked|julienned|warmed|chilled|cooled|picked|stemmed|reserved|soaked|squeezed|strained|snipped|shaved|flaked|split|scored|skinned|boned|filleted|smashed|bashed|bruised|sieved|deveined|shelled|tied|blanched|destemmed|defrosted|whisked|unpeeled|undrained|butterflied|spatchcocked|debearded|de-bearded|de-seeded|de-stoned|packed|zested|podded))(?=$|\s(?:and|or|&|into|in|with|to|on|but|if)\s)/giu;
/** Salt and its like: a list of them without an amount is one thing to the cook. */
export const SEASONING =
  /^(?:(?:sea|kosher|fine|flaky|coarse|freshly|ground|black|white|cracked|milled|fleur de|gros|flor de|some|meer)[\s-]*)*(?:salt|sel|sal|sale|salz|pepper|poivre|pfeffer|pimienta|pepe|s ?& ?p|seasoning|assaisonnement)(?![\p{L}-])/iu;

/** French, Spanish and Italian adjectives that stand after their noun: what follows "or" is another thing. */
const AFTER_NOUN =
  /^(?:rouge|blanc|blanche|verte?|noire?|frais|fraîche|doux|douce|tinto|blanco|verde|rojo|negro|fresc[oa]|fresche|ross[oa]|bianco|nero)$/iu;
/** What follows a comma is said of the seasoning, no further one: "pepper, a good grinding". */
const PHRASE = /^\s*(?:l[ao] necesari[ao]$|(?:if|as|an?|un[ae]?|eine?|plus|to|for|pour|para|per|zum)\s)/iu;

/** Parts the words after an amount into the ingredient and its notes; every word is in one of them.
 * `several`: the amount is for each of a list, whose commas part no note. */
export function splitNote(words: string, measured: boolean, several = false): Split {
  const { outside, inside } = takeBrackets(words);
  const cut = firstCut(outside, measured, several);
  const ingredient = clean(outside.slice(0, cut));
  const tail = clean(outside.slice(cut));
  return { ingredient, notes: tail ? [...inside, tail] : inside };
}

const clean = (text: string) =>
  text
    .replace(/\s+/g, " ")
    .replace(/\s+([,;])/g, "$1")
    .replace(/^[\s,;:–—.-]+|[\s,;:–—-]+$/gu, "");

/** Takes out what stands in brackets; an open bracket runs to the end. */
function takeBrackets(text: string): { outside: string; inside: string[] } {
  const inside: string[] = [];
  let outside = "";
  let depth = 0;
  let start = 0;
  for (let i = 0; i < text.length; i++) {
    if (text[i] === "(" || text[i] === "[") {
      if (depth++ === 0) {
        outside += text.slice(start, i);
        start = i + 1;
      }
    } else if ((text[i] === ")" || text[i] === "]") && depth > 0 && --depth === 0) {
      const held = text.slice(start, i).trim();
      if (held) inside.push(held);
      outside += " ";
      start = i + 1;
    }
  }
  if (depth === 0) outside += text.slice(start);
  else if (text.slice(start).trim()) inside.push(text.slice(start).trim());
  return { outside, inside };
}

/** Where the note begins, or the length of the text. */
function firstCut(text: string, measured: boolean, several: boolean): number {
  let cut = text.length;
  const seasoning = !measured && SEASONING.test(text);
  for (const match of text.matchAll(MARK)) {
    const comma = match[0] === ",";
    const list = seasoning && !PHRASE.test(text.slice(match.index + 1));
    if (comma && (several || list || onlyAdjectives(text.slice(0, match.index)))) continue;
    cut = match.index;
    break;
  }
  for (const match of text.slice(0, cut).matchAll(STARTER)) {
    if (match.index === 0) continue;
    cut = match.index;
    break;
  }
  for (const match of text.slice(0, cut).matchAll(OR)) {
    const before = lastWord(text.slice(0, match.index));
    const kind =
      KINDS.has(before.toLowerCase()) && /\S\s+\S/.test(text.slice(match.index + match[0].length, cut));
    const all = onlyAdjectives(text.slice(0, match.index));
    if (kind || all || (onlyAdjectives(before) && !AFTER_NOUN.test(before))) continue;
    cut = match.index;
    break;
  }
  for (const match of text.slice(0, cut).matchAll(PARTICIPLE)) {
    if (onlyAdjectives(text.slice(0, match.index))) continue;
    cut = match.index;
    break;
  }
  return cut;
}

const lastWord = (text: string) => /\S+$/.exec(text.trimEnd().slice(-60))?.[0] ?? "";

/** True for words that say which, never what. */
export function onlyAdjectives(text: string): boolean {
  const words = text
    .toLowerCase()
    .split(/[\s,]+/)
    .filter(Boolean);
  return words.length > 0 && words.every((word) => ADJECTIVES.has(word));
}
