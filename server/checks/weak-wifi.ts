import type { Ranged } from "../model/ranged";
import { figure } from "../model/show";
import type { Where } from "../model/where";
import { wayOut, type Hop } from "../signal/network";
import { limitOf, type Case, type Check, type Scene } from "./check";
import { inUse, wireRemedies } from "./internet-text";

/** dB of signal over noise under which links become unsteady. Common practice, no source. */
const LEAST_MARGIN = 20;
/** dBm, likewise. */
const LEAST_SIGNAL = -70;

export const weakWifi: Check = {
  bearing: "beside", takesLimit: true,
  entry: {
    code: "weak-wifi", title: "The wireless network is weak there", severity: "hint", group: "The internet",
    notice: "It works while one tries it, and breaks up once the room is full.",
    why: "A weak signal makes the link slow, and people in the room take another few dB from it.",
    todo: ["A cable.", "The access point nearer, higher, in the same room.", "The computer where the signal is better."],
    source: "common practice, no source", symptoms: ["wireless drops", "weak signal", "one bar"], limit: "signal at least −70 dBm, at least 20 dB over the noise, where stated",
  },
  cases: (scene) => measuredPlaces(scene).map(({ name, signal, margin, where, hops }): Case => ({
    key: name, ways: ["internet"],
    measure: (trial) => {
      const least = limitOf(scene.setup, "weak-wifi", LEAST_SIGNAL);
      const short = [
        ...(signal === undefined ? [] : [{ by: least - trial.value(signal), is: trial.value(signal), limit: least, unit: "dBm", says: "is" }]),
        ...(margin === undefined ? [] : [{ by: LEAST_MARGIN - trial.value(margin), is: trial.value(margin), limit: LEAST_MARGIN, unit: "dB", says: "stands over the noise by" }]),
      ].sort((a, b) => b.by - a.by)[0];
      if (short === undefined) return undefined;
      return {
        severity: short.by > 0 ? "hint" : undefined, badness: short.by, measured: { value: short.is, unit: short.unit }, limit: { value: short.limit, unit: short.unit },
        cause: { key: `weak ${name}`, subjects: [name], where },
        say: () => ({
          because: `the wireless network at ${name} ${short.says} ${figure(short.is)} ${short.unit}`, effect: `${figure(short.limit)} ${short.unit} is wanted, and a full room takes more of it`,
          summary: `the wireless network at ${name} ${short.says} ${figure(short.is)} ${short.unit}`, chain: [],
        }),
      };
    },
    remedies: () => wireRemedies(scene.setup, hops),
  })),
};

interface Place { readonly name: string; readonly signal: Ranged | undefined; readonly margin: Ranged | undefined; readonly where: Where; readonly hops: readonly Hop[] }

/** Where the text states how strong the network is: of a connection as a whole, and of each radio link on a way. */
function measuredPlaces(scene: Scene): Place[] {
  const out = new Map<string, Place>();
  for (const { internet, joins } of inUse(scene)) {
    if (internet.signal !== undefined || internet.margin !== undefined) out.set(internet.name, { name: internet.name, signal: internet.signal, margin: internet.margin, where: internet.where, hops: [] });
    for (const state of joins) {
      for (const hop of wayOut(scene.setup, state.join.device, internet)) {
        const { signal, margin } = hop.facts;
        if (hop.kind === "wireless" && (signal !== undefined || margin !== undefined)) out.set(hop.from, { name: hop.from, signal, margin, where: hop.where, hops: [hop] });
      }
    }
  }
  return [...out.values()];
}
