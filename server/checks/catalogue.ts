import { batteryShort } from "./battery-short";
import { callEnds } from "./call-ends";
import { callFull } from "./call-full";
import { cancellerBlind } from "./canceller-blind";
import { cancellerMoving } from "./canceller-moving";
import { cancellerStrained } from "./canceller-strained";
import { cancellerTwice } from "./canceller-twice";
import { castingBlocked } from "./casting-blocked";
import type { Check, Entry } from "./check";
import { dataCap } from "./data-cap";
import { downlinkShort } from "./downlink-short";
import { echoPath } from "./echo-path";
import { headsetProfile } from "./headset-profile";
import { hearsItself } from "./hears-itself";
import { howlLoop } from "./howl-loop";
import { chatUnwatched, nobodyAdmits, oneRunsCall, presenterOperates, zoneMissing } from "./jobs-of-the-call";
import { doorAndKeys, notRehearsed, oneExpert, roleOpen, setupRushed } from "./jobs-of-the-day";
import { kitDouble, kitMissing, overBudget } from "./kit-of-the-day";
import { levelMismatch } from "./level-mismatch";
import { loginExpires } from "./login-expires";
import { loopMisses } from "./loop-misses";
import { micNoise } from "./mic-noise";
import { micSpacing } from "./mic-spacing";
import { mixNotMinus } from "./mix-not-minus";
import { monitorLoop } from "./monitor-loop";
import { musicSuppressed } from "./music-suppressed";
import { noDirectSend } from "./no-direct-send";
import { noPower } from "./no-power";
import { noSecondPath } from "./no-second-path";
import { nobodyListens } from "./nobody-listens";
import { oneDeviceCarriesAll } from "./one-device-carries-all";
import { phoneInterrupted } from "./phone-interrupted";
import { secondJoin } from "./second-join";
import { sharedLink } from "./shared-link";
import { slowLink } from "./slow-link";
import { seatUnheard } from "./seat-unheard";
import { sourceWithoutMic } from "./source-without-mic";
import { streamAudible } from "./stream-audible";
import { lipSync, pictureLate } from "./sync";
import { talkerFar } from "./talker-far";
import { talkerRoams } from "./talker-roams";
import { talkerTurnedAway } from "./talker-turned-away";
import { lateArrival } from "./late-arrival";
import { seatUncovered } from "./seat-uncovered";
import { speechUnclear } from "./speech-unclear";
import { talkerUnheardInRoom } from "./talker-unheard-in-room";
import { tooLoud } from "./too-loud";
import { tooQuiet } from "./too-quiet";
import { talkerUnclear } from "./talker-unclear";
import { uncoveredDirection } from "./uncovered-direction";
import { unmeasured } from "./unmeasured";
import { uplinkShort } from "./uplink-short";
import { visitorJoins } from "./visitor-joins";
import { voicePoor } from "./voice-poor";
import { weakWifi } from "./weak-wifi";
import { wind } from "./wind";
import { wrongInput, wrongOutput } from "./wrong-ends";

/** Every check there is, in the order in which causes are told from consequences. */
export const CHECKS: readonly Check[] = [
  noPower, uncoveredDirection, wrongInput, wrongOutput, levelMismatch, headsetProfile, musicSuppressed, noDirectSend, sourceWithoutMic, wind, talkerFar, seatUnheard, talkerRoams, micNoise, talkerUnclear, talkerTurnedAway, micSpacing, lipSync, pictureLate, nobodyListens, loopMisses, mixNotMinus, echoPath, hearsItself, cancellerBlind, monitorLoop, howlLoop, streamAudible, cancellerStrained, cancellerTwice, cancellerMoving, visitorJoins,
  tooQuiet, lateArrival, talkerUnheardInRoom, speechUnclear, seatUncovered, tooLoud,
  batteryShort, uplinkShort, downlinkShort, voicePoor, slowLink, weakWifi, sharedLink, loginExpires, dataCap, noSecondPath, unmeasured, callEnds, callFull, secondJoin, phoneInterrupted, castingBlocked, oneDeviceCarriesAll,
  oneRunsCall, nobodyAdmits, chatUnwatched, presenterOperates, zoneMissing,
  kitMissing, overBudget, kitDouble, roleOpen, oneExpert, notRehearsed, setupRushed, doorAndKeys,
];

export type { Entry } from "./check";

/** What `explain` knows. */
export const CATALOGUE: readonly Entry[] = CHECKS.map((check) => check.entry);
