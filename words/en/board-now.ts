/** The board: what is begun with one tap, and what a second judgement says of the mended plan. */
export const boardNow = {
  "next.start": "Start {name}",
  "next.begun": "{name}, begun at {at}.",
  "next.noHands": "(by itself)",
  "next.underWay": "under way, until {until}",
  "moved.back":
    "Taken back. {count, plural, one {What had moved is} other {The # tasks that had moved are}} where {count, plural, one {it was} other {they were}} before.",
  "judged.title": "A second check does not agree",
  "judged.what":
    "The plan was worked out once more by sums that share nothing with those that mend it. This is not kept and was not said; look at it before you go on.",
  "judged.more": "{count, plural, one {And one thing more.} other {And # things more.}}",
  "judged.well": "Checked once more by other sums: nothing is broken that is not said here.",
} as const;
