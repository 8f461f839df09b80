import { batteryShort } from "./battery-short";
import { cancellerBlind } from "./canceller-blind";
import { cancellerMoving } from "./canceller-moving";
import { cancellerStrained } from "./canceller-strained";
import { cancellerTwice } from "./canceller-twice";
import type { Check, Entry } from "./check";
import { echoPath } from "./echo-path";
import { headsetProfile } from "./headset-profile";
import { hearsItself } from "./hears-itself";
import { howlLoop } from "./howl-loop";
import { levelMismatch } from "./level-mismatch";
import { loopMisses } from "./loop-misses";
import { micSpacing } from "./mic-spacing";
import { mixNotMinus } from "./mix-not-minus";
import { monitorLoop } from "./monitor-loop";
import { musicSuppressed } from "./music-suppressed";
import { noDirectSend } from "./no-direct-send";
import { noPower } from "./no-power";
import { nobodyListens } from "./nobody-listens";
import { oneDeviceCarriesAll } from "./one-device-carries-all";
import { sourceWithoutMic } from "./source-without-mic";
import { streamAudible } from "./stream-audible";
import { lipSync, pictureLate } from "./sync";
import { talkerTurnedAway } from "./talker-turned-away";
import { uncoveredDirection } from "./uncovered-direction";
import { uplinkShort } from "./uplink-short";
import { visitorJoins } from "./visitor-joins";
import { wind } from "./wind";
import { wrongInput, wrongOutput } from "./wrong-ends";

/** Every check there is, in the order in which causes are told from consequences. */
export const CHECKS: readonly Check[] = [
  noPower, uncoveredDirection, wrongInput, wrongOutput, levelMismatch, headsetProfile, musicSuppressed, noDirectSend, sourceWithoutMic, wind, talkerTurnedAway, micSpacing, lipSync, pictureLate, nobodyListens, loopMisses, mixNotMinus, echoPath, hearsItself, cancellerBlind, monitorLoop, howlLoop, streamAudible, cancellerStrained, cancellerTwice, cancellerMoving, visitorJoins,
  batteryShort, uplinkShort, oneDeviceCarriesAll,
];

export type { Entry } from "./check";

/** What `explain` knows. */
export const CATALOGUE: readonly Entry[] = CHECKS.map((check) => check.entry);
