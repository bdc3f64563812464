/** Guests: the seating sheet, lists of guests, traces by shared equipment. */
export const guests = {
  "run.seating": "Seating",
  "seating.table": "Table {table}",
  "seating.noTable": "Seats without a table",
  "seating.noSeat": "No seat yet",
  "seating.rest": "Everyone else",
  "seating.none": "No guest has a need or a choice written down. Add them under Guests.",
  "seating.shares": "by the shares of the menu",
  "seating.missing": "Nothing at {course}",
  "seating.why": "Why: {why}.",
  "seating.mend": "Nearest: {mend}.",
  "seating.traces": "{place}, {at}: {how, select, beside {beside} other {after}} {from}.",
  "seating.tracesMend": "To keep it away: {mend}.",
  "seating.flags": "Asked for: {flag}. A certifying person decides.",
  "seating.flag": "{flag}: {list}",
  "seating.flag.nothing": "{flag}: nothing found that speaks against it; that is no certificate",
  "seating.planFirst": "The plan is still being made: what may pass on shared equipment is not told yet.",
  "seating.checked":
    "Traces by shared equipment and benches are judged in the plan shown. The plate-up, hands and cloths are not: mark trays, change gloves, use clean spoons.",
  "seating.beside": "Goes with every cover, keep from this seat: {items}.",
  "seating.beside.one": "{item} ({why})",
  "seating.changed": "changed",

  "traces.title": "Traces, by shared equipment and benches",
  "traces.way": "{path}: {how, select, beside {beside} other {after}} {from}, {place}, {at}",

  "list.title": "Write or paste a list",
  "list.label": "A guest a line",
  "list.hint": "T4 S2 coeliac, no nuts",
  "list.read": "Read",
  "list.asked": "“{word}” is no need the tool knows. What is it?",
  "list.noNeed": "no need: leave it out",
  "list.choose": "choose",
  "list.add": "{count, plural, one {Add # guest} other {Add # guests}}",
  "list.unanswered": "{count, plural, one {# word has no answer yet} other {# words have no answer yet}}.",
  "list.there": "is there already: its needs are put together",
  "list.noSeat": "no seat",
  "list.added": "{count, plural, one {# line} other {# lines}} put to the guests.",

  "log.onTheWay": "Not there yet. Read again before the time is over.",

  "flag.halal-style": "halal-style",
  "flag.kosher-style": "kosher-style",
  "guests.flags": "Also asked for, as a flag",
  "guests.flagged": "asked for: {list}",
  "guests.flags.what":
    "A flag tells the kitchen to look. It decides no plate and certifies nothing: only the guest’s own authority can say whether food meets it.",

  "pack.seating": "Seating sheet",
} as const;
