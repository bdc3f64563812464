export const log = {} as const;
