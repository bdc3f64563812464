export const pass = {} as const;
