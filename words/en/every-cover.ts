/** For the hall: what stands on the table for everyone. */
export const everyCover = {
  "front.everyCover": "With every cover",
  "front.everyCover.note": "On the table for all, on no plate: keep it from who must not have it.",
} as const;
