import { duration, figure } from "../model/show";
import { canonical } from "../model/names";
import type { RemoteRoom } from "../model/setup";
import type { Trial } from "../model/trial";
import { namesOf } from "../model/voices";
import { CANCELLER_STRAINED_BELOW } from "../physics/coupling";
import { FAILING_BELOW_ACCEPTABLE } from "../physics/talkerEcho";
import { echoOf, loopKey, worstLoops, type Echo, type Loop } from "../signal/echo";
import { gainOf } from "../signal/graph";
import { remoteCancels, remoteEcho } from "../signal/loops/remote";
import { mixCause, returnsOf, type Returned } from "../signal/loops/returns";
import { calmer } from "./calmer";
import { limitOf, type Case, type Check, type Outcome, type Remedy, type Scene } from "./check";
import { cancelRemedy, withdraw } from "./join-text";
import { concerns, opinion } from "./observes";

/** More than one live device in a room is one cause, however many there are. */
export const CROSSED = "echo between devices";
/** What the room hears again of itself through the second one. */
export const RETURNED = "return between devices";
/** What comes back by wire through a mixer. */
export const wireEcho = (returned: Returned): string => `echo by ${mixCause(returned)}`;

/** Whatever takes part in a loop. */
export const namesIn = (loop: Loop): string[] => [loop.plays.join.device, loop.sends.join.device, ...loop.speakers.map((s) => s.ending.part.id), ...loop.mics.map((m) => m.ending.part.id)];

/** The second device of a pair: the one that joins later in the text, as a rule the one that was added. */
export const secondOf = (scene: Scene, loop: Loop) =>
  scene.graph.joins.indexOf(loop.plays) > scene.graph.joins.indexOf(loop.sends) ? loop.plays : loop.sends;

export const echoPath: Check = {
  takesLimit: true,
  entry: {
    code: "echo-path", title: "The people online hear themselves", severity: "error", group: "Echo and howl",
    notice: "Whoever speaks online hears the own voice come back, half a second late, and stops talking.",
    why: "What a joined device plays in the room reaches a microphone whose device sends it back into the call. An echo canceller holds only what its own device plays; what another device plays is speech to it, and passes.",
    todo: [
      "Turn off the sound of the second device: plays no sound, and sends no sound.",
      "Let one device both play and send, so that its canceller knows what it plays.",
      "Where someone must listen on a device of their own: earphones.",
    ],
    source: "ITU-T G.131 (acceptable talker echo loudness rating by delay); ITU-T G.107 (loudness ratings); ITU-T P.1110 (46 dB for cancellers)",
    symptoms: ["they hear themselves", "echo", "own voice comes back", "delayed voice", "hall", "everything twice"],
    limit: "echo loudness rating below what G.131 accepts at half the round trip: warning; more than 10.5 dB below: error",
  },
  cases: (scene) => [
    ...worstLoops(scene.graph)
      .filter((loop) => !unitAlone(loop))
      .map((loop): Case => ({
        key: `${loopKey(loop)} ${namesOf(scene.graph.voices)}`, ways: ["call"],
        measure: (trial) => measure(scene, loop, trial),
        remedies: () => remedies(scene, loop),
        observed: (seen) => (concerns(seen, namesIn(loop)) ? opinion(seen, ["echo"]) : undefined),
      })),
    ...scene.setup.remoteRooms.map((room): Case => ({ key: `remote ${room.name} ${room.cancels ?? "?"} ${scene.graph.joins.map((j) => j.join.device).join(",")}`, ways: ["call"], measure: (trial) => measureRemote(scene, room, trial), observed: (seen) => (concerns(seen, [room.name]) ? opinion(seen, ["echo"]) : undefined) })),
  ],
};

/** Another room that joins the call: what it plays, it sends back. Nothing that is chosen here mends it. */
function measureRemote(scene: Scene, room: RemoteRoom, trial: Trial): Outcome | undefined {
  const echo = remoteEcho(scene.graph, room, trial);
  if (echo === undefined) return undefined;
  const needed = limitOf(scene.setup, "echo-path", echo.needed);
  const short = needed - echo.telr;
  const severity = short > FAILING_BELOW_ACCEPTABLE ? "error" : short > 0 ? "warning" : undefined;
  return {
    severity, badness: short, measured: { value: echo.telr, unit: "dB" }, limit: { value: needed, unit: "dB" },
    cause: { key: `echo ${canonical(room.name)}`, subjects: [room.name], where: room.where },
    say: () => ({
      because: `${room.name} cancels no echo: what it plays, it sends back into the call`,
      effect: `whoever speaks here or online hears the own voice from ${room.name}: ${figure(echo.telr)} dB where ${figure(needed)} dB is needed`,
      summary: severity === undefined ? `${room.name} ${remoteCancels(room).from.how === "unsaid" ? "is taken to cancel" : "cancels"} its echo` : `${room.name} sends back what it plays`,
      chain: [`loss of the loop in ${room.name} ${figure(echo.loss)} dB`, `the echo comes back ${duration(echo.delay * 2)} after it left; at half of that ITU-T G.131 accepts a rating from ${figure(echo.needed)} dB up`],
      notice: `Whoever speaks hears the own voice come back from ${room.name}, and stops talking.`,
    }),
  };
}

/** One join whose microphone unit has a canceller of its own, and nothing else cancels: that is `canceller-blind`. */
export const unitAlone = (loop: Loop): boolean =>
  loop.plays === loop.sends && loop.sends.cancels.best < 0.5 && loop.mics.some((m) => m.ending.device.cancels);

function measure(scene: Scene, loop: Loop, trial: Trial): Outcome | undefined {
  const echo = echoOf(scene.graph, loop, trial);
  if (echo === undefined) return undefined;
  const needed = limitOf(scene.setup, "echo-path", echo.needed);
  const short = needed - echo.telr;
  const severity = short > FAILING_BELOW_ACCEPTABLE ? "error" : short > 0 ? "warning" : undefined;
  const plays = loop.plays.join.device;
  const sends = loop.sends.join.device;
  const same = loop.plays === loop.sends;
  const second = secondOf(scene, loop);
  // A device that plays and sends nothing is noticed first in the room; the fainter echo has the same cause. Of equals, the echo leads.
  const wire = echo.wired ? returnsOf(scene.graph).find((one) => one.plays === loop.plays && one.sends === loop.sends) : undefined;
  const under = wire !== undefined ? { foldUnder: mixCause(wire) } : same ? {} : { foldUnder: RETURNED };
  const overdriven = same && echo.held !== undefined && echo.held < CANCELLER_STRAINED_BELOW;
  return {
    severity, badness: short, measured: { value: echo.telr, unit: "dB" }, limit: { value: needed, unit: "dB" },
    ...under,
    cause: { key: wire !== undefined ? wireEcho(wire) : same ? `echo ${canonical(plays)}` : CROSSED, subjects: same ? [plays] : [second.join.device, (second === loop.plays ? loop.sends : loop.plays).join.device], where: second.join.where },
    say: () => ({
      because: wire !== undefined
        ? `what ${plays} plays comes out of ${wire.mixer} again, and ${sends} sends that`
        : overdriven
        ? `${sends} cancels what it plays, but its canceller is strained: ${echo.pair?.mic.part.id ?? sends} hears it far louder than whoever speaks`
        : same
        ? `nothing cancels what ${plays} plays before it sends it back`
        : `${sends} sends what ${plays} plays, and no canceller holds what another device plays`,
      effect: `the people online hear themselves: ${figure(echo.telr)} dB where ${figure(needed)} dB is needed`,
      summary: severity === undefined
        ? (same ? `${plays} plays and sends; its canceller holds the echo` : `${sends} hardly hears ${plays}`)
        : `the people online hear themselves through ${same ? plays : `${plays} and ${sends}`}`,
      chain: chainOf(loop, echo),
      related: same ? [] : [{ where: loop.plays.join.where, message: `${plays} plays the call` }, { where: loop.sends.join.where, message: `${sends} sends what it hears` }],
    }),
  };
}

function chainOf(loop: Loop, echo: Echo): string[] {
  const at = `the echo comes back ${duration(echo.delay * 2)} after it left; at half of that ITU-T G.131 accepts a rating from ${figure(echo.needed)} dB up`;
  if (echo.pair === undefined) return [`what ${loop.plays.join.device} plays reaches what ${loop.sends.join.device} sends through wires, at ${figure(gainOf(loop.wire ?? []))} dB`, at];
  const { speaker, mic, metres, coupling } = echo.pair;
  return [
    `${speaker.part.id} is ${figure(metres)} m from ${mic.part.id}`,
    `beside its own talker the microphone hears it at ${figure(coupling[3])} dB (1 kHz); loss of the loop ${figure(echo.loss)} dB`,
    at,
  ];
}

function remedies(scene: Scene, loop: Loop): Remedy[] {
  const { setup, item } = scene;
  if (loop.plays === loop.sends) return [...cancelRemedy(loop.sends), ...calmer(scene, loop)];
  const [main, ...others] = scene.graph.joins.filter((state) => state.sound.length > 0 || state.plays.length > 0);
  if (main === undefined || others.length === 0) return [];
  // The whole sound of the second device first: half of it leaves another loop open. The device that joins first stays live.
  const off = (what: "sends" | "plays") => others.flatMap((state) => ((what === "sends" ? state.sound : state.plays).length > 0 ? withdraw(setup, state, what, "sound", item) : []));
  const [only] = others;
  const who = others.length === 1 && only !== undefined ? only.join.device : `every device but ${main.join.device}`;
  return [
    { title: `Turn off the sound of ${who}`, edits: [...off("sends"), ...off("plays")] },
    { title: `Let ${who} play no sound`, edits: off("plays") },
    { title: `Let ${who} send no sound`, edits: off("sends") },
  ].filter((remedy) => remedy.edits.length > 0);
}
