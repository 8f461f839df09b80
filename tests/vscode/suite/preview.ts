export const preview = (): void => undefined;
