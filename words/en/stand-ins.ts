/** Substitutes: in one line of a preparation, or wherever an ingredient is used. */
export const standIns = {
  "standIn.line": "replace…",
  "standIn.line.of": "replace… {name}",
  "standIn.line.some": "or {list}",
  "standIn.everywhere": "May be replaced",
  "standIn.everywhere.what":
    "Wherever it is used. For one preparation alone, say so at its line on the Bench.",
  "standIn.add": "Let something stand in for {food}",
  "standIn.factor": "Grams for 1 g of {food}",
  "standIn.factor.wrong": "“{typed}” is no ratio. Write it as 1 or 1.25, at most 100.",
  "standIn.when": "When {name} stands in",
  "standIn.missing": "If it cannot be had in time",
  "standIn.cheaper": "Also if cheaper",
  "standIn.remove": "{name} may not stand in",
  "standIn.against":
    "{name} will not be ordered for it: {why}. Write it into the preparation, so that every plate is judged with it.",
  "standIn.labels": "Labels and plate cards name {name}: where the goods must be named, change the line.",
  "standIn.only": "for {list} alone",
} as const;
