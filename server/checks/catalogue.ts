import { backlit } from "./backlit";
import { batteryShort } from "./battery-short";
import { callEnds } from "./call-ends";
import { callFull } from "./call-full";
import { beamBlocked } from "./beam-blocked";
import { behindTalker } from "./behind-talker";
import { blockedView } from "./blocked-view";
import { boardUnreadable } from "./board-unreadable";
import { circuitOverload } from "./circuit-overload";
import { cameraStops } from "./camera-stops";
import { cancellerBlind } from "./canceller-blind";
import { cancellerMoving } from "./canceller-moving";
import { cancellerStrained } from "./canceller-strained";
import { cancellerTwice } from "./canceller-twice";
import { castingBlocked } from "./casting-blocked";
import type { Check, Entry } from "./check";
import { dataCap } from "./data-cap";
import { downlinkShort } from "./downlink-short";
import { choppy } from "./choppy";
import { darkFace } from "./dark-face";
import { echoPath } from "./echo-path";
import { faceSmall } from "./face-small";
import { faceTiny } from "./face-tiny";
import { flicker } from "./flicker";
import { headsBlock } from "./heads-block";
import { headsetProfile } from "./headset-profile";
import { hearsItself } from "./hears-itself";
import { howlLoop } from "./howl-loop";
import { chatUnwatched, nobodyAdmits, oneRunsCall, presenterOperates, zoneMissing } from "./jobs-of-the-call";
import { doorAndKeys, notRehearsed, oneExpert, roleOpen, setupRushed } from "./jobs-of-the-day";
import { kitDouble, kitMissing, overBudget } from "./kit-of-the-day";
import { inFrameAgainstWill } from "./in-frame-against-will";
import { imageSmall } from "./image-small";
import { leadChained } from "./lead-chained";
import { levelMismatch } from "./level-mismatch";
import { loginExpires } from "./login-expires";
import { loopMisses } from "./loop-misses";
import { micNoise } from "./mic-noise";
import { micSpacing } from "./mic-spacing";
import { mixNotMinus } from "./mix-not-minus";
import { monitorLoop } from "./monitor-loop";
import { musicSuppressed } from "./music-suppressed";
import { noCaptions } from "./no-captions";
import { noDirectSend } from "./no-direct-send";
import { noPower } from "./no-power";
import { noSecondPath } from "./no-second-path";
import { nobodyListens } from "./nobody-listens";
import { offAxis } from "./off-axis";
import { oneDeviceCarriesAll } from "./one-device-carries-all";
import { phoneInterrupted } from "./phone-interrupted";
import { consentMissing, noRecording } from "./recording";
import { secondJoin } from "./second-join";
import { sharedLink } from "./shared-link";
import { slowLink } from "./slow-link";
import { seatUnheard } from "./seat-unheard";
import { sourceWithoutMic } from "./source-without-mic";
import { streamAudible } from "./stream-audible";
import { lipSync, pictureLate } from "./sync";
import { talkerFar } from "./talker-far";
import { talkerRoams } from "./talker-roams";
import { oneDisplayTwoJobs } from "./one-display-two-jobs";
import { outOfFrame } from "./out-of-frame";
import { outletsShort } from "./outlets-short";
import { overlayShows } from "./overlay-shows";
import { pictureLoop } from "./picture-loop";
import { screenMirrored } from "./screen-mirrored";
import { talkerCannotSee } from "./talker-cannot-see";
import { talkerTurnedAway } from "./talker-turned-away";
import { lateArrival } from "./late-arrival";
import { seatUncovered } from "./seat-uncovered";
import { speechUnclear } from "./speech-unclear";
import { talkerUnheardInRoom } from "./talker-unheard-in-room";
import { tooLoud } from "./too-loud";
import { tooQuiet } from "./too-quiet";
import { talkerUnclear } from "./talker-unclear";
import { textSmall } from "./text-small";
import { throwMisfit } from "./throw-misfit";
import { tooNear } from "./too-near";
import { uncoveredDirection } from "./uncovered-direction";
import { unmeasured } from "./unmeasured";
import { uplinkShort } from "./uplink-short";
import { visitorJoins } from "./visitor-joins";
import { voicePoor } from "./voice-poor";
import { weakWifi } from "./weak-wifi";
import { washedOut } from "./washed-out";
import { wind } from "./wind";
import { wrongInput, wrongOutput } from "./wrong-ends";

/** Every check there is, in the order in which causes are told from consequences. */
export const CHECKS: readonly Check[] = [
  noPower, uncoveredDirection, wrongInput, wrongOutput, levelMismatch, headsetProfile, musicSuppressed, noDirectSend, sourceWithoutMic, wind, talkerFar, seatUnheard, talkerRoams, micNoise, talkerUnclear, talkerTurnedAway, micSpacing, lipSync, pictureLate, nobodyListens, loopMisses, noCaptions, mixNotMinus, echoPath, hearsItself, cancellerBlind, monitorLoop, howlLoop, streamAudible, cancellerStrained, cancellerTwice, cancellerMoving, visitorJoins,
  tooQuiet, lateArrival, talkerUnheardInRoom, speechUnclear, seatUncovered, tooLoud,
  textSmall, imageSmall, faceSmall, tooNear, offAxis, headsBlock, washedOut, beamBlocked, throwMisfit, talkerCannotSee, oneDisplayTwoJobs, screenMirrored,
  outOfFrame, inFrameAgainstWill, faceTiny, behindTalker, blockedView, backlit, darkFace, boardUnreadable, pictureLoop, overlayShows, flicker, choppy, cameraStops,
  batteryShort, leadChained, outletsShort, circuitOverload, uplinkShort, downlinkShort, voicePoor, slowLink, weakWifi, sharedLink, loginExpires, dataCap, noSecondPath, unmeasured, callEnds, callFull, secondJoin, phoneInterrupted, castingBlocked, noRecording, consentMissing, oneDeviceCarriesAll,
  oneRunsCall, nobodyAdmits, chatUnwatched, presenterOperates, zoneMissing,
  kitMissing, overBudget, kitDouble, roleOpen, oneExpert, notRehearsed, setupRushed, doorAndKeys,
];

export type { Entry, Settle } from "./check";

/** What `explain` knows. */
export const CATALOGUE: readonly Entry[] = CHECKS.map((check) => check.entry);
