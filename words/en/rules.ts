/** How a figure came, by the name of the rule that made it; a rule without words is shown by its name, spaced. */
export const rules = {
  "rule.given": "as written",
  "trace.how": "How this came",
  "trace.from": "from",
  "trace.source": "Source: {doc}{table, select, none {} other {, {table}}}",
  "trace.kind.published": "published",
  "trace.kind.memory": "from memory",
  "trace.kind.measured": "measured here",
  "trace.kind.invented": "invented",
  "trace.none": "No trace is kept for this figure.",
  "trace.loading": "Looking it up",
  "trace.more": "{count, plural, one {# more figure} other {# more figures}}",
  "trace.result": "computed",
  "trace.constant": "constant",
} as const;
