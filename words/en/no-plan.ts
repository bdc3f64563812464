/** A plan that breaks rules: whether it is proved that there is none, or none was found. */
export const noPlan = {
  "noPlan.proved": "Proved: no plan exists that keeps every rule.",
  "noPlan.proved.rules": "These alone suffice for the proof:",
  "noPlan.proved.conflict": "The rules that cannot all be kept, below, suffice for the proof.",
  "noPlan.proved.all": "Hands, room, dates and waits together prove it; no few of them were found that do.",
  "noPlan.searched":
    "No plan found in {schedules, plural, one {# schedule} other {# schedules}}; that none exists is not proved.",
} as const;
