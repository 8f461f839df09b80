import { canonical } from "../model/names";
import { list } from "../model/show";
import type { JoinState, Sent } from "../signal/call-state";
import { inputs, outputs, type SoundEnd } from "../signal/sound-ends";
import type { Case, Check, Entry, Scene } from "./check";
import { replaceIn } from "./join-text";

/** What differs between choosing where sound comes from and choosing where it goes. */
interface Side {
  readonly entry: Entry;
  readonly way: "online-hears-room" | "room-hears-online";
  readonly head: "sends" | "plays";
  readonly word: string;
  ends(scene: Scene, state: JoinState): readonly SoundEnd[];
  chosen(state: JoinState): readonly Sent[];
  statement(name: string): string;
  title(state: JoinState, name: string): string;
}

/** Several ends and none chosen. One that the text names is chosen; the device's own, taken because nothing is said, is not. */
const unchosen = (side: Side): Check => ({
  silentInOrder: true,
  entry: side.entry,
  cases: (scene) => scene.graph.joins.flatMap((state): Case[] => {
    const live = side.chosen(state);
    const ends = live.length === 0 ? [] : side.ends(scene, state);
    if (ends.length < 2) return [];
    const stated = live.some((sent) => namesIt(state, side.head, sent));
    return [{
      key: `${canonical(state.join.device)} ${stated ? "chosen" : "open"} ${ends.map((end) => end.name).join(" ")}`, ways: [side.way],
      measure: () => ({
        severity: stated ? undefined : "warning", badness: stated ? -1 : ends.length - 1, measured: { value: ends.length, unit: side.word }, limit: { value: 1, unit: side.word },
        cause: { key: `${side.head} ${canonical(state.join.device)}`, subjects: [state.join.device], where: live[0]?.where ?? state.join.where },
        say: () => ({
          because: `${state.join.device} has ${ends.length} ${side.word}, ${list(ends.map((end) => end.name), 4)}, and the text chooses none`,
          effect: `on the evening it takes whichever it likes, ${live[0]?.name ?? "its own"} as a rule`,
          summary: stated ? `${state.join.device} knows which of its ${ends.length} ${side.word} to take` : `nobody chose between the ${side.word} of ${state.join.device}`,
          chain: [],
        }),
      }),
      // What somebody plugged in was plugged in to be used.
      remedies: () => [...ends].reverse().map((end) => ({
        title: side.title(state, end.name), edits: replaceIn(scene.setup, state, side.head, "sound", scene.item, side.statement(end.name)),
      })),
    }];
  }),
});

/** Whether the statement that brought a source in names one. */
const namesIt = (state: JoinState, head: string, sent: Sent): boolean => !sent.assumed
  && state.join.statements.some((s) => s.row.head === head && s.where === sent.where && s.values.has(head === "sends" ? "from" : "on"));

const SOURCE = "common practice, no source";

export const wrongInput: Check = unchosen({
  way: "online-hears-room", head: "sends", word: "sound inputs",
  ends: (scene, state) => inputs(scene.graph, state.device), chosen: (state) => state.sound,
  statement: (name) => `sends sound from ${name}`, title: (state, name) => `Let ${state.join.device} send the sound of ${name}`,
  entry: {
    code: "wrong-input", title: "Nobody chose which microphone is sent", severity: "warning", group: "The people online hear the room",
    notice: "The people online hear the room from far off: the computer listens with its own microphone, not with the one on the talker.",
    why: "A computer with several sound inputs takes one of them, often its own or the one that was plugged in last, and may change its mind when something else is plugged in.",
    todo: ["Say from which: sends sound from lapel.", "On the evening choose it in the call's settings and speak into it while somebody online listens."],
    source: SOURCE, symptoms: ["wrong microphone", "sounds far away", "microphone does nothing", "only the laptop is heard"], limit: "one input, or one chosen",
  },
});

export const wrongOutput: Check = unchosen({
  way: "room-hears-online", head: "plays", word: "sound outputs",
  ends: (scene, state) => outputs(scene.graph, state.device), chosen: (state) => state.plays,
  statement: (name) => `plays sound on ${name}`, title: (state, name) => `Let ${state.join.device} play on ${name}`,
  entry: {
    code: "wrong-output", title: "Nobody chose where the call is played", severity: "warning", group: "The room hears the people online",
    notice: "The sound comes out of the computer, or of the projector, and the loudspeaker stays silent.",
    why: "A computer with several sound outputs, a display among them, plays on one of them, often the one that was plugged in last.",
    todo: ["Say on which: plays sound on box.", "On the evening choose it in the call's settings and let somebody online speak."],
    source: SOURCE, symptoms: ["no sound from the loudspeaker", "sound from the projector", "sound from the laptop"], limit: "one output, or one chosen",
  },
});
