import { batteryShort } from "./battery-short";
import { cancellerBlind } from "./canceller-blind";
import type { Check, Entry } from "./check";
import { echoPath } from "./echo-path";
import { hearsItself } from "./hears-itself";
import { noPower } from "./no-power";
import { oneDeviceCarriesAll } from "./one-device-carries-all";
import { uncoveredDirection } from "./uncovered-direction";
import { uplinkShort } from "./uplink-short";

/** Every check there is, in the order in which causes are told from consequences. */
export const CHECKS: readonly Check[] = [
  noPower, uncoveredDirection, echoPath, hearsItself, cancellerBlind, batteryShort, uplinkShort, oneDeviceCarriesAll,
];

export type { Entry } from "./check";

/** What `explain` knows. */
export const CATALOGUE: readonly Entry[] = CHECKS.map((check) => check.entry);
