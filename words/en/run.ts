export const run = {} as const;
