import { rewrite } from "../model/edits";
import { canonical } from "../model/names";
import { duration, figure, list } from "../model/show";
import type { Internet } from "../model/setup";
import type { Trial } from "../model/trial";
import { BEST_RATING, satisfaction, voiceRating } from "../physics/voiceRating";
import type { JoinState } from "../signal/call-state";
import { node, type Edge } from "../signal/edges";
import { callDelay } from "../signal/graph";
import { wayOut, type Hop } from "../signal/network";
import { carriesNow, hearing, playing, type Late } from "../signal/timing";
import { endsOf, goTogether, portOwnersOf } from "../signal/wiring";
import type { Case, Check, Outcome, Remedy, Scene } from "./check";
import { otherConnection, wireRemedies } from "./internet-text";

/** Ratings under which a voice is raised. Source: ITU-T G.109. */
const LIMIT = { error: 50, warning: 70 } as const;

export const voicePoor: Check = {
  silentInOrder: true, asksWhenRaised: true,
  entry: {
    code: "voice-poor", title: "Voices arrive late or torn", severity: "error", group: "The internet",
    notice: "People fall into each other's words, or ask again and again what was said.",
    why: "Delay on the way from mouth to ear and packets that are lost take quality from a voice, each its own part.",
    todo: ["A wire in place of a radio link to loudspeaker or microphone.", "A cable in place of a wireless network.", "Less video over a link that loses packets.", "Leave a pause before one answers."],
    source: "ITU-T G.107 (rating), G.109 (classes), G.113 (robustness of the codec), as transcribed; echo is judged by itself",
    symptoms: ["talk over each other", "long pauses", "words are lost", "voices are torn", "delay"],
    limit: "R under 70: warning; under 50: error",
  },
  cases: (scene) => scene.graph.joins.flatMap((state) => [
    ...(state.sound.length > 0 ? [caseOf(scene, state, "out")] : []), ...(state.plays.length > 0 ? [caseOf(scene, state, "in")] : []),
  ]),
};

type Direction = "out" | "in";

function caseOf(scene: Scene, state: JoinState, direction: Direction): Case {
  const { setup, graph } = scene;
  const device = state.join.device;
  const own = node(direction === "out" ? "sends" : "plays", device);
  const ends = (direction === "out" ? hearing(graph) : playing(graph)).filter((one) => one.path.some((edge) => edge.from === own || edge.to === own));
  const over = setup.internets.find((one) => canonical(one.name) === canonical(state.join.over ?? "")) ?? setup.internets[0];
  const hops = wayOut(setup, device, over);
  return {
    key: `${direction} ${device} ${over?.name ?? ""} ${ends.map((one) => `${one.ending.part.id} ${one.path.map((edge) => edge.via).join("")}`).join(",")}`,
    ways: [direction === "out" ? "online-hears-room" : "room-hears-online"],
    measure: (trial) => measure(scene, state, direction, ends, over, hops, trial),
    remedies: () => [...unradio(scene, ends), ...wireRemedies(setup, hops), ...(over === undefined ? [] : otherConnection(setup, [state], over, (other) => other.loss === undefined || other.loss.best < (over.loss?.best ?? 0)))],
  };
}

/** Delays of an end, without what stands for the whole of the call. */
const withoutCall = (path: readonly Edge[], trial: Trial): number => path.reduce((sum, edge) => sum + (edge.via === "call" || edge.delay === undefined ? 0 : trial.value(edge.delay)), 0);

function measure(scene: Scene, state: JoinState, direction: Direction, ends: readonly Late[], over: Internet | undefined, hops: readonly Hop[], trial: Trial): Outcome | undefined {
  const { setup } = scene;
  const live = ends.filter((one) => carriesNow(one, trial)).map((one) => ({ name: one.ending.part.id, delay: withoutCall(one.path, trial) })).sort((a, b) => b.delay - a.delay);
  const [end] = live;
  // What reaches nobody is told as such.
  if (end === undefined) return undefined;
  const call = trial.value(callDelay(setup, state));
  const network = hops.reduce((sum, hop) => sum + (hop.facts.delay === undefined ? 0 : trial.value(hop.facts.delay)), 0);
  const losses = [...hops.map((hop) => hop.facts.loss), over?.loss].flatMap((loss) => (loss === undefined ? [] : [trial.value(loss)]));
  const loss = 1 - losses.reduce((left, one) => left * (1 - one), 1);
  const delay = call + network + end.delay;
  const { rating, byDelay, byLoss } = voiceRating({ delay, loss });
  const severity = rating < LIMIT.error ? "error" : rating < LIMIT.warning ? "warning" : undefined;
  const device = state.join.device;
  const voices = direction === "out" ? `voices from ${end.name} to the people online` : `voices from the people online to ${end.name}`;
  const parts = [`the call ${duration(call)}`, ...(end.delay > 0.001 ? [`${end.name} ${duration(end.delay)}`] : []), ...(network > 0.001 ? [`the network ${duration(network)}`] : [])];
  const taken = [`${figure(byDelay)} by ${duration(delay)} of delay (${list(parts, 4)})`, `${figure(byLoss)} by ${figure(loss * 100)} % of lost packets`];
  return {
    severity, badness: LIMIT.warning - rating, measured: { value: rating, unit: "R" }, limit: { value: severity === "error" ? LIMIT.error : LIMIT.warning, unit: "R" },
    cause: { key: `voice ${direction} ${canonical(device)}`, subjects: [device, ...(canonical(end.name.split(".")[0] ?? "") === canonical(device) ? [] : [end.name])], where: byLoss > byDelay && over !== undefined ? over.where : state.join.where },
    say: () => ({
      because: `${voices} are rated R ${figure(rating)} of ${figure(BEST_RATING)}`,
      effect: severity === undefined ? "" : `${(byDelay >= byLoss ? taken : [...taken].reverse()).join(", ")} are taken off; ${satisfaction(rating)}`,
      summary: `${voices} are rated R ${figure(rating)}: ${satisfaction(rating)}`, chain: taken,
    }),
  };
}

/** A cable in place of each radio link that sound takes to a loudspeaker or from a microphone. */
function unradio({ setup }: Scene, ends: readonly Late[]): Remedy[] {
  const owners = portOwnersOf(setup);
  const radios = setup.links.filter((link) => link.how === "radio" && ends.some((one) => one.path.some((edge) => edge.via === "radio" && edge.where === link.where)));
  return radios.flatMap((link): Remedy[] => {
    const [a, b] = [endsOf(setup, link.from)[0], endsOf(setup, link.to)[0]];
    const [from, to] = [a && owners.get(canonical(a.id)), b && owners.get(canonical(b.id))];
    const busy = (port: string): boolean => setup.links.some((other) => [other.from, other.to].some((name) => canonical(name) === canonical(port)));
    const free = (device: typeof from) => device?.ports.filter((port) => !busy(port.id)) ?? [];
    const pair = free(from).flatMap((p) => free(to).filter((q) => ((p.gives.has("sound") && q.takes.has("sound")) || (q.gives.has("sound") && p.takes.has("sound"))) && goTogether(p, q, "cable")).map((q) => [p, q] as const))[0];
    return pair === undefined ? [] : [{ title: `Run a cable from ${pair[0].id} to ${pair[1].id} in place of the radio link`, edits: [rewrite(link.statement, `cable from ${pair[0].id} to ${pair[1].id}`)] }];
  });
}
