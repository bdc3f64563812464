/** List marks, check boxes and small pictures before the first word or number. */
const BULLET = /^(?:[^\p{L}\p{N}([.~≈±+#]|[+#](?=\s)|[[(]\s?[xX✓]?\s?[\])]\s)+/u;

const LIST_NUMBER = /^(?:\d{1,2}[.)]\s+(?=[\d¼½¾⅓⅔⅛]|\p{L})|[abd-j][.)]\s+(?=[\d¼½¾⅓⅔⅛]))/u;

const LEADERS = /\s*(?:\.{3,}|…{2,}|\.{2}(?=\s)|(?:\.\s){3,}|_{2,}|\t)[\s.]*/gu;

/** "1 - 28 oz can": one can of a size, no range. */
const COUNT_DASH_SIZE =
  /^(\d{1,2})\s+[-–]\s+(\d{1,4}(?:\.\d{1,2})?)[\s-]?(oz|ounce|g|lb|ml)\.?\s+(?=(?:cans?|tins?|jars?|packages?|pkgs?|bags?|bottles?|boxes|box|cartons?)\b)/iu;

/** "Zwiebel(n)", "Zehe/n" */
const MAYBE_PLURAL = /(\p{L}{2})(?:\((?:n|en|e|er|s|es)\)|\/(?:n|en|s))(?=[\s,]|$)/gu;

/** "a drop or two of vanilla". */
const OR_TWO = /^(?:an?|une?|un|una|ein|eine) (\p{L}+) (?:or two|or so|ou deux|o dos|o due|oder zwei) /iu;

/** The measure before the number, as Italian and French sheets write it: "g 500 di farina", "Tuorli gr 300". */
const UNIT_FIRST = /^(kg|grs?|gr?|ml|cl|dl|lt?)\.?\s+(\d[\d.,]*(?:\s?\/\s?\d+)?)\s+(?=\p{L})/u;

const UNIT_BEFORE_LAST = /(?<=\p{L}[.,)]?)\s+(kg|grs?|gr?|ml|cl|dl|lt?)\.?\s+(\d[\d.,]*)$/u;

/** "n. 3 uova", "Uova n° 4". */
const NUMBER_OF = /^n(?:\.|[°º]|r\.)\s?(?=\d{1,3}\s+\p{L})/iu;

const NUMBER_OF_LAST = /\s+(?:n[.°º]|nr\.)\s?(\d{1,3}(?:\s?\/\s?\d)?|[½¼¾])$/iu;

/** "12 No. eggs", "2 nos onions". */
const COUNT_NOS = /^(\d{1,3})\s?(?:nos?\.|nos)\s+(?=\p{L})/iu;

/** Noughts that a scanner moved away: "3 0 g", "1 0 leaves". */
const APART = /^(\d{1,2}) (0{1,2})(?=\s|k?g\b|ml\b)/u;

/** "1/2 tsp.fennel": the space is missing. */
const NO_SPACE = /\b(tsps?|tbsps?|oz|lbs?|gr?|kg|ml|cl|EL|TL)\.(?=\p{Ll}{3})/gu;

/** "Saft einer halben Zitrone". */
const GENITIVE =
  /^((?:(?:fein )?(?:abgeriebene|geriebene) )?(?:Saft|Schale|Abrieb)(?: und (?:Saft|Schale|Abrieb))?) eine[rs]( halben)? /iu;

/** Figures that a scanner took for letters: "lOOg", "3OOml", "l tbsp"; only before a measure. */
const SCANNED =
  /^(?=[\dlIO]*[lIO])(?:[lI\d][\dlIO]*)(?=\s?(?:k?g|ml|cl|l|oz|lbs?)\b|\s(?:tbsps?|tsps?|cups?|tablespoons?|teaspoons?|bunch|pinch|sprigs?)\b)/u;

/** A row of a table drawn with bars: "| Rye flour | 600 g | 60% |". */
const BARS = /^\s*\|.*$|^[^|]+(?:\s\|\s[^|]+){2,}$/u;

/** "lO marshmallows": ten. */
const SCANNED_TEN = /^(?:[lI]\s?[O0]|1O|[2-9]O|l)(?=\s\p{Ll})/u;

const SPOONS = /\b(table|tea) spoon(s|fuls?)?\b/giu;

/** The line without its list mark, with one kind of space. */
export function bare(text: string): string {
  return text
    .replace(BARS, (row) => row.replace(/\s*\|\s*/g, "\t").replace(/^\t|\t$/g, ""))
    .replace(BULLET, "")
    .replaceAll("**", "")
    .replace(LIST_NUMBER, "")
    .replace(LEADERS, "  ")
    .replace(SCANNED, (figures) => figures.replace(/[lI]/g, "1").replaceAll("O", "0"))
    .replace(SCANNED_TEN, (figures) => figures.replace(/[lI]/, "1").replace("O", "0"))
    .replace(SPOONS, "$1spoon$2")
    .replace(APART, "$1$2")
    .replace(NO_SPACE, "$1. ")
    .replace(GENITIVE, (_, part, half) => `${part} von ${half ? "1/2" : "1"} `)
    .replace(/(?<=\d\s?)c\/s\b/iu, "cda")
    .replace(/^(\d+(?:[.,/]\d+)?)\s?Ibs?\b/u, "$1 lb")
    .replace(/^(kilo|litro|libra|chilo|etto)(?= (?:y medi[oa]|e mezz[oa])(?!\p{L}))/iu, "1 $1")
    .replace(/^(\d{1,2}(?:[.,/]\d)?|[½¼¾])\s?c\.\s?c\.?\s(?=(?:de|di)\s|d['’])/iu, "$1 cac ")
    .replace(/^((?:Saft|Schale|Abrieb)(?: und (?:Saft|Schale|Abrieb))?) (?=[\d½¼¾])/u, "$1 von ")
    .replace(OR_TWO, "1-2 $1 ")
    .replace(NUMBER_OF, "")
    .replace(COUNT_NOS, "$1 ")
    .replace(UNIT_FIRST, "$2 $1 ")
    .replace(UNIT_BEFORE_LAST, "  $2 $1")
    .replace(NUMBER_OF_LAST, "  $1")
    .replace(MAYBE_PLURAL, "$1")
    .replace(/^[x×]\s?(?=\d)/iu, "")
    .replace(/^(\d{1,3})\s?[x×]\s+(?=\p{L})/iu, "$1 ")
    .replace(COUNT_DASH_SIZE, "$1 ($2 $3) ")
    .trim();
}

/** The figures of a line that a scanner took for letters or drew apart, as they stand; undefined when there are none. */
export function scannedIn(text: string): string | undefined {
  const unmarked = text.replace(BULLET, "");
  return (SCANNED.exec(unmarked) ?? SCANNED_TEN.exec(unmarked) ?? APART.exec(unmarked))?.[0];
}
