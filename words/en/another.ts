/** Bench: one formula at another amount, without a service. */
export const another = {
  "another.open": "At another amount, or from what is here",
  "another.by": "Scale to",
  "another.by.mass": "an amount",
  "another.by.portions": "portions",
  "another.by.here": "what is here",
  "another.wanted": "It shall come to",
  "another.portions": "Portions",
  "another.portion": "One portion",
  "another.notWeighed": "That can''t be weighed: give a mass, or a density to the preparation.",
  "another.here.what": "Write what is there, as purchased; what is left empty is taken as enough.",
  "another.stock": "Take what the store holds ({count, plural, one {# ingredient} other {# ingredients}})",
  "another.unit":
    "{name} can''t be weighed from that. Write g or kg, or give it a density or a piece weight under Stores.",
  "another.factor": "{factor} times the formula",
  "another.pieces": "{pieces} pieces",
  "another.gives": "{count, plural, one {# portion} other {# portions}}",
  "another.scarce": "{name} gives out first.",
  "another.weigh": "Weigh",
  "another.buys": "As purchased",
  "another.alone": "This formula alone: no overage, no batches; the service in hand is not changed.",

  "rule.smallest": "the smallest of",
  "rule.wholePortions": "whole portions in it",
} as const;
