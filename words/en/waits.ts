/** What waits by itself on the board, what moved beyond the first few, and another plan's places on the score. */
export const waits = {
  "waits.until": "Waits by itself until {until}: {left} left.",
  "waits.from": "Waits by itself from {from} to {until}.",
  "waits.over": "Its waiting is over. Look at it.",
  "hands.many": "{count} pairs of hands",
  "moves.more": "{count, plural, one {One task more} other {# tasks more}} of this station",
  "ghosts.many":
    "{count} of {all} tasks stand elsewhere, too many to draw at once. Dashed on the score: where the task you choose stands in the other plan, with what comes before and after it.",
} as const;
