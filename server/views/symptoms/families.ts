/**
 * What is said on an evening, told by what ails: each family of symptoms with the codes of the catalogue that cause it, the likeliest
 * first. Every code belongs to one at least. The order, within and between them, is common practice, no source.
 */
import { CATALOGUE } from "../../checks/catalogue";
import type { WayName } from "../../model/ways";

/** What there is to go to, whatever was computed. */
export type Along = "echo" | "howl" | "thin" | "way" | "microphones" | "loudspeakers" | "displays" | "cameras" | "line" | "power" | "people" | "feeds" | "service";

export interface Symptom {
  readonly id: string;
  /** As somebody says it. */
  readonly says: string;
  /** Words by which it is told, besides. */
  readonly words: readonly string[];
  readonly way: WayName;
  /** Who notices it, where that tells it from its like. */
  readonly who?: "online" | "room";
  readonly along: Along;
  readonly codes: readonly string[];
}

/** The likeliest first. */
const TABLE: readonly Symptom[] = [
  { id: "echo", says: "They hear themselves", words: ["echo", "echoes", "hear themselves", "hears herself", "hears himself", "comes back", "their own voice", "everything comes back to them"], way: "call", who: "online", along: "echo",
    codes: ["echo-path", "mix-not-minus", "canceller-blind", "visitor-joins", "canceller-moving", "stream-audible"] },
  { id: "robot", says: "Robot voice", words: ["robot", "metallic", "choppy", "breaks up", "stutters", "freezes", "garbled", "drops out", "frozen", "bad connection"], way: "internet", along: "thin",
    codes: ["uplink-short", "voice-poor", "slow-link", "downlink-short", "weak-wifi", "shared-link", "canceller-twice", "unmeasured", "data-cap"] },
  { id: "silent-online", says: "They do not hear us", words: ["they cannot hear us", "we are muted", "no sound online", "silent online", "nobody online hears", "they could not hear us"], way: "online-hears-room", who: "online", along: "way",
    codes: ["uncovered-direction", "wrong-input", "source-without-mic", "no-power", "battery-short", "nobody-listens"] },
  { id: "back-row", says: "Nobody hears the back row", words: ["questions not heard", "audience not heard", "back row", "cannot hear the questions"], way: "online-hears-room", who: "online", along: "way",
    codes: ["seat-unheard", "uncovered-direction"] },
  { id: "silent-room", says: "We do not hear them", words: ["no sound in the room", "we cannot hear them", "loudspeaker silent", "nothing from the loudspeaker", "room cannot hear"], way: "room-hears-online", who: "room", along: "way",
    codes: ["uncovered-direction", "wrong-output", "no-power", "battery-short"] },
  { id: "black", says: "Black picture", words: ["black", "dark screen", "no picture", "projector shows nothing", "nothing on the screen", "no signal", "blue screen", "screen stays dark", "we cannot see them"], way: "room-sees-online", who: "room", along: "way",
    codes: ["uncovered-direction", "no-power", "casting-blocked"] },
  { id: "unseen", says: "They do not see us", words: ["they see nothing", "camera off", "camera black", "they cannot see us", "frozen camera"], way: "online-sees-room", who: "online", along: "way",
    codes: ["uncovered-direction", "out-of-frame", "camera-stops", "phone-interrupted", "blocked-view"] },
  { id: "howl", says: "It howls", words: ["howl", "howling", "feedback", "whistle", "squeal", "ringing tone"], way: "call", along: "howl", codes: ["howl-loop", "monitor-loop"] },
  { id: "faint-online", says: "They hear us badly", words: ["they hear us faintly", "hollow voice", "rushing", "hissing", "distorted", "muffled online", "we sound far away", "too quiet online"], way: "online-hears-room", who: "online", along: "microphones",
    codes: ["talker-far", "mic-noise", "talker-unclear", "wrong-input", "talker-roams", "talker-turned-away", "level-mismatch", "headset-profile", "no-direct-send", "mic-spacing", "wind"] },
  { id: "faint-room", says: "We hear them badly", words: ["too soft", "turn it up", "we do not understand them", "muddy", "loud in front and soft at the back", "they are too quiet"], way: "room-hears-online", who: "room", along: "loudspeakers",
    codes: ["too-quiet", "speech-unclear", "seat-uncovered", "late-arrival", "wrong-output", "headset-profile"] },
  { id: "twice", says: "We hear everything twice", words: ["we hear ourselves", "double in the room", "the room echoes", "second voice from a loudspeaker"], way: "call", who: "room", along: "echo",
    codes: ["hears-itself", "stream-audible", "late-arrival", "monitor-loop", "visitor-joins"] },
  { id: "small", says: "We cannot read it", words: ["too small", "letters too small", "cannot read the slides", "faces too small", "pale picture", "washed out", "cannot see the slides", "crooked picture", "picture does not fit the screen"], way: "room-sees-online", who: "room", along: "displays",
    codes: ["text-small", "image-small", "washed-out", "face-small", "one-display-two-jobs", "throw-misfit", "off-axis"] },
  { id: "hidden", says: "Heads are in the way", words: ["cannot see over", "head in front of the screen", "somebody stands in the picture", "shadow on the screen", "stiff neck", "cannot see from the side"], way: "room-sees-online", who: "room", along: "displays",
    codes: ["heads-block", "beam-blocked", "too-near", "off-axis"] },
  { id: "badly-seen", says: "They see us badly", words: ["too dark", "silhouette", "grainy", "flickers", "back of the head", "we are tiny", "jerky picture", "cannot read the board", "picture in the picture"], way: "online-sees-room", who: "online", along: "cameras",
    codes: ["out-of-frame", "face-tiny", "in-frame-against-will", "backlit", "dark-face", "behind-talker", "blocked-view", "board-unreadable", "choppy", "flicker", "overlay-shows", "picture-loop"] },
  { id: "cut-off", says: "The call is gone", words: ["thrown out", "disconnected", "the call ended", "offline", "internet is gone", "everything gone"], way: "internet", along: "line",
    codes: ["call-ends", "login-expires", "second-join", "data-cap", "no-second-path", "one-device-carries-all"] },
  { id: "one-side", says: "Only one side can speak", words: ["cut off while they talk", "half duplex", "syllables missing", "talk over each other", "long pauses", "delay"], way: "call", along: "echo",
    codes: ["canceller-strained", "canceller-twice", "voice-poor"] },
  { id: "out-of-step", says: "Lips and voice do not match", words: ["out of sync", "sound late", "sound early", "sound lags behind the picture", "picture lags behind the sound", "picture late", "lip sync"], way: "room-hears-online", along: "loudspeakers", codes: ["lip-sync", "picture-late"] },
  { id: "dead", says: "It does not start", words: ["dead", "no light", "switched itself off", "battery empty", "nothing happens", "it is not there", "somebody else had it"], way: "call", along: "power",
    codes: ["no-power", "battery-short", "kit-missing", "kit-double", "over-budget", "camera-stops"] },
  { id: "no-entry", says: "Somebody cannot get in", words: ["waiting to be let in", "meeting is full", "cannot join", "joined an hour late"], way: "call", along: "people",
    codes: ["nobody-admits", "call-full", "one-runs-call", "zone-missing"] },
  { id: "unnoticed", says: "The speaker does not notice them", words: ["talks past the people online", "questions from online were missed", "does not see raised hands", "nobody answers them", "speaker had to click"], way: "call", along: "people",
    codes: ["talker-cannot-see", "chat-unwatched", "presenter-operates", "nobody-listens"] },
  { id: "music", says: "The music is gone online", words: ["music breaks up", "singing vanishes", "choir vanishes", "film without sound", "choir wobbles"], way: "online-hears-room", who: "online", along: "microphones", codes: ["music-suppressed", "source-without-mic"] },
  { id: "in-room", says: "The back cannot hear the speaker", words: ["louder please", "cannot hear the speaker", "questions are not heard in the room"], way: "room-hears-online", who: "room", along: "loudspeakers", codes: ["talker-unheard-in-room", "speech-unclear"] },
  { id: "loud", says: "It is too loud", words: ["hurts", "ears ring", "too loud"], way: "room-hears-online", along: "loudspeakers", codes: ["too-loud"] },
  { id: "private", says: "Something private is on the wall", words: ["private mail", "notes visible to all", "wrong window", "camera menu in the picture"], way: "room-sees-online", along: "displays", codes: ["screen-mirrored", "overlay-shows"] },
  { id: "loop", says: "Nothing on the hearing loop", words: ["hearing loop is silent", "receiver is silent", "interpreter hears nothing"], way: "room-hears-online", along: "feeds", codes: ["loop-misses"] },
  { id: "captions", says: "No captions, or wrong ones", words: ["captions are wrong", "nothing to read along"], way: "online-hears-room", along: "service", codes: ["no-captions", "talker-unclear", "mic-noise"] },
  { id: "recording", says: "There is no recording", words: ["recording is missing", "recorded without asking", "recording is silent"], way: "call", along: "service", codes: ["no-recording", "consent-missing", "loop-misses"] },
  { id: "unplanned", says: "Nobody did it", words: ["everybody thought somebody else would", "nobody knew how it works", "no time to set up", "locked out", "started late"], way: "call", along: "people",
    codes: ["role-open", "one-expert", "not-rehearsed", "setup-rushed", "door-and-keys"] },
];

/** Where a code goes that no row names: by its group. */
const BY_GROUP: Readonly<Record<string, string>> = {
  "Each way across": "silent-online", "The people online hear the room": "faint-online", "The room hears the people online": "faint-room", "Echo and howl": "echo", "The room sees the people online": "small",
  "The people online see the room": "badly-seen", "The call": "cut-off", "The internet": "robot", "Power and heat": "dead", "Cables and ports": "dead", "Place and people": "unplanned", "Access and consent": "unplanned",
};

/** The families with every code of the catalogue in one at least, the likeliest first. */
export const SYMPTOMS: readonly Symptom[] = (() => {
  const named = new Set(TABLE.flatMap((symptom) => symptom.codes));
  const others = CATALOGUE.filter((entry) => !named.has(entry.code));
  return TABLE.map((symptom) => ({ ...symptom, codes: [...symptom.codes, ...others.filter((entry) => (BY_GROUP[entry.group] ?? "unplanned") === symptom.id).map((entry) => entry.code)] }));
})();
