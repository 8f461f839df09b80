export const server = (): void => undefined;
