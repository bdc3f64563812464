export const stores = {} as const;
