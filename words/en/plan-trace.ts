/** How a figure of a found plan came: what the search was asked, and what it decided. */
export const planTrace = {
  "tracePath.calc:/plan/problem": "the tasks, hands and equipment of this service",
  "tracePath.calc:/plan/limits": "waits, room, shifts and dates of this service",
  "tracePath.calc:/plan/asked": "plans the search may try",
  "tracePath./plan/seed": "where the search begins",
  "tracePath.place": "place in the list",

  "rule.fingerprint": "minutes of every task, and what binds them",
  "rule.scheduledCount": "plans tried until the search ended",
  "rule.scheduledStart": "found by the search: the same question gives the same plan",
  "rule.scheduledEnd": "found by the search, with the breaks of the hands in between",
  "rule.scheduledLatest": "the latest start that what comes after it leaves room for",
  "rule.scheduledTerm": "added up over the plan that was found",
  "rule.scheduledBound": "no plan of this service can be better than this",
  "rule.scheduledTimes": "counted in the plan that was found",
  "rule.scheduledBreach": "by so much the plan that was found breaks the rule",
  "rule.scheduledBusy": "minutes in use in the plan that was found",
  "rule.scheduledOpen": "minutes it is there to be used",
  "rule.scheduledSpare": "the least time to spare in the plan with this change",
  "rule.scheduledApply": "what the change writes",
  "rule.scheduledCovers": "the most covers for which a plan was found",
} as const;
