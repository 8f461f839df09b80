/** Limits that the text sets for findings, in the place of the usual ones. */
import type { Setup } from "./setup";

/** The limit that the text sets for a finding, else the usual one. */
export const limitOf = (setup: Setup, code: string, otherwise: number): number =>
  setup.limits.find((limit) => limit.code === code)?.value ?? otherwise;
