/** Why so much is ordered, and how far the covers may miss. */
export const whySoMuch = {
  "why.mean": "as purchased are needed by the usual yields",
  "why.surer": "for a chance of {share} of having enough",
  "why.store": "is in the store",
  "why.covers": "Of this the line covers",
  "why.packs": "{count, plural, one {# pack} other {# packs}} of {pack} make {bought}.",
  "why.left": "One pack too many loses",
  "why.short": "A chance of {share} is right where one pack too few costs",
  "why.choose": ". If it costs you more, ask for a higher chance; if less, for a lower one.",
  "rule.lostOnLeft": "the price less the share that what is left over is worth",
  "rule.costOfShort": "lost on one too many, times the chance over what it leaves",
  "covers.spread.said": "Covers are counted on to miss by {share} either way.",
  "covers.spread.none": "How far the covers may miss is not counted in.",
  "covers.spread.by":
    "By the log, those who come differ from those guaranteed by {share} ({services, plural, one {# service} other {# services}}).",
  "covers.spread.take": "Count in {share}",
  "covers.spread.drop": "Leave it out",
} as const;
