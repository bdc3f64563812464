/** Answers ready to be tapped while a recipe is read. */
export const choices = {
  "measures.us": "US: cup 237 mL, tablespoon 14.8 mL",
  "measures.metric": "Metric: cup 250 mL, tablespoon 15 mL",
  "measures.imperial": "British: pint 568 mL, tablespoon 15 mL",
  "measures.australian": "Australian: tablespoon 20 mL, cup 250 mL",
  "measures.japanese": "Japanese: cup 200 mL, tablespoon 15 mL",
  "oven.none": "No oven",
  "paste.first": "Which ingredient is meant: needed before it is kept.",
  "paste.may": "These may wait; what stays open is kept in the notes.",
};
