export const setups = (): void => undefined;
