import type { Host } from "../harness/host";
export interface Walked {
  readonly host: Host;
  readonly vsix: string;
  readonly browser: string;
  readonly pictures: string;
}
export const walk = (_walked: Walked): void => undefined;
