import { pieceName, type Reading, unitFacts, unitWord } from "../../quantity/index.ts";
import { type Found, NONE, PART_OF_NAME } from "./found.ts";

/** Measures that no scale knows. */
const UNMEASURED =
  /^((?:(?:an?|the|\d{1,2}(?:\s?[-–]\s?\d{1,2})?|one|two|three|deux|trois|due|dos|zwei|une?|una|uno|eine?n?)\s+)?(?:(?:good|large|small|generous|big|little|tiny|petite?|bon(?:ne)?|beau|belle|gros(?:se)?|gran|buen|buon|bel|kleine[rn]?|guter?|kräftiger?|ordentlicher?)\s+)?(?:glugs?|drizzles?|splash(?:es)?|knobs?|squeezes?|dollops?|dabs?|sprinkl(?:es?|ing)|lugs?|grinds?|swirls?|lashings|slicks?|hint|soupçon|trickles?|gratings?|scrapings?|scrapes?|twists?|lumps?|blobs?|smears?|slugs?|spoonfuls?|spoons?|grates?|shavings?|shakes?|turns?(?= of (?:black |white |the )?(?:pepper|mill))|sprays?|spritz(?:es)?|scatterings?|dustings?|cracks?|pats?(?= of butter)|slivers?(?= of)|giclée|rasade|golpe|toque|chorreón|grattata|spruzzata|macinata|schwapp|nuts?(?= of butter)|walnuts?(?= of butter)|pointe(?= de (?!couteau))|punta(?= di (?!coltello))|grindings?|soupcons?|chouïa|lichette|larme|nuage|rasgo|pelín|spolverata|(?:noix|noisette|nuez|noce)(?= (?:de|di) (?:beurre|mantequilla|burro))|filet(?= (?:d['’](?:huile|eau)|de (?:citron|vinaigre|jus|sirop|crème|lait|miel|sauce|vin|rhum)))|chorr[oe]|filo|goccio|schuss|klecks|stich|flöckchen|spur|hauch))\s+(?:(?:of|de|di|von)\s+|d['’]\s?)?(?=\p{L})/iu;

/** "a knob of butter": a measure that no scale knows. */
export function noMeasure(body: string, notes: string[]): Found | undefined {
  const loose = UNMEASURED.exec(body);
  if (!loose) return undefined;
  notes.push(loose[1]!);
  const doubt = `"${loose[1]}" is no measure: how much is it?`;
  return { ...NONE, rest: body.slice(loose[0].length), doubt };
}

const OF = /^(?:of\s+|(?:de|di|du|des|del|della|dello|delle|dei|degli|von|vom)\s+|d['’]\s?)/iu;

/** "Hot sauce, a few dashes": no number, the measure behind the name. */
const FEW_LAST =
  /^(.{2,80}?),\s+(a few|some|several|quelques|un[oa]s|alcun[ei]|qualche|einige|ein paar)\s+(\p{L}{3,20})$/iu;

const SOME = /^(un[oa]s|des|qualche)\s+(?=\p{L})/iu;

/** "a few sprigs of thyme": no number, though the measure may be known. */
export function unmeasured(read: Reading, body: string, notes: string[]): Found {
  let rest = read.rest;
  let doubt = read.doubt ?? "";
  const some = SOME.exec(rest);
  if (some) {
    notes.push(some[1]!);
    rest = rest.slice(some[0].length);
    doubt = `"${some[1]}" is no number: how much is it?`;
  } else if (rest.length < body.length && body.endsWith(rest)) {
    const word = body.slice(0, body.length - rest.length).trim();
    if (/\p{L}/u.test(word)) notes.push(word.replace(/\s+(?:of|de|di)$|\s+d['’]$/iu, ""));
  }
  const behind = FEW_LAST.exec(rest);
  const few = behind && unitWord(behind[3]!);
  if (behind && few && (pieceName(few.unit) || unitFacts(few.unit).dimension === "volume")) {
    notes.push(behind[2]!);
    return { ...NONE, unit: few.unit, rest: behind[1]!, doubt };
  }
  // "a few coriander stalks"
  const after = /^((?:\p{L}+\s){1,2})(\p{L}{4,})(?=$|,)/u.exec(rest);
  const kind = after && notes.length > 0 ? unitWord(after[2]!)?.unit : undefined;
  if (after && kind && pieceName(kind) && !PART_OF_NAME.has(kind))
    return { ...NONE, unit: kind, rest: `${after[1]!.trim()}${rest.slice(after[0].length)}`, doubt };
  const first = /^\p{L}+\.?/u.exec(rest)?.[0];
  const word = first && notes.length > 0 ? unitWord(first) : undefined;
  if (first && word && (pieceName(word.unit) || unitFacts(word.unit).dimension === "volume")) {
    const after = rest.slice(first.length).trim().replace(OF, "");
    if (after) return { ...NONE, unit: word.unit, rest: after, doubt };
  }
  return { ...NONE, rest, doubt };
}
