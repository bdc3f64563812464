/** What food contains, may contain and may have traces of: never said to be free of anything. */
export const contained = {
  "contained.said":
    "{contains, select, none {None of the fifteen as an ingredient} other {Contains {contains}}}{may, select, none {} other {; may contain {may}}}{traces, select, none {} other {; perhaps traces of {traces}{way, select, short {} other { (shared equipment, benches)}}}}.",
  "contained.leaveOff":
    "Without {what}, not an ingredient: {frees}{traces, select, none {} other {; traces of {traces} still possible{way, select, short {} other { (shared equipment, benches)}}}}.",
  "contained.leaveOff.none": "{what} may be left off.",
  "contained.traces.dish": "Perhaps traces of {list} (shared equipment, benches).",
  "contained.elsewhere":
    "Traces by shared equipment and benches hang on the plan of the day: they stand under Allergens and Front of house, not here.",
  "bench.everyCover": "what goes with every cover",
  // What a prep list says to clean before a task.
  "clean.first":
    "Clean {name, select, none {the bench} other {{name}}} first{left, select, none {} other {: nothing may be left of {left}}}.",
} as const;
