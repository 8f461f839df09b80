import { assumed } from "../model/make-ranged";
import { figure, list, rate } from "../model/show";
import type { Ranged } from "../model/ranged";
import type { Trial } from "../model/trial";
import { airtime } from "../physics/airtime";
import { receivedOver } from "../signal/received";
import { wayOut, type Hop } from "../signal/network";
import { streamsOver, total } from "../signal/streams";
import type { Case, Check, Outcome, Scene } from "./check";
import { inUse, wireRemedies } from "./internet-text";
import { thinRemedies } from "./thin-remedies";

export const slowLink: Check = {
  silentInOrder: true,
  entry: {
    code: "slow-link", title: "A link on the way to the internet is too slow", severity: "warning", group: "The internet",
    notice: "The line was measured and is good, and pictures freeze all the same.",
    why: "What a device sends and receives passes every link up to the router. Where one of them carries less than the streams through it, the rest of the line is of no use. On radio and over mains wires all who share it take turns, both ways.",
    todo: ["A cable past it.", "Measure at the device, not at the router.", "Powerline adapters straight into the wall, not into a strip.", "Fewer or smaller pictures over it."],
    source: "arithmetic of turns on a shared channel; usable part: queue-management guide for wires, common practice else",
    symptoms: ["good line but it freezes", "slow at the far end", "powerline", "upstairs is slow"],
    limit: "the streams through a link fit into the usable part of the rate stated for it",
  },
  cases: (scene) => channelsOf(scene).map((hops): Case => ({
    key: `${hops[0]?.hop.channel ?? ""} ${hops.map(({ device, up }) => `${device} ${up}`).join(",")} ${scene.graph.joins.map((state) => state.shows.map((s) => `${s.what}${s.faces.best}${s.letters === undefined ? "" : "+"}`).join("") + (state.receives === undefined ? "" : `${state.receives.width}x${state.receives.height}@${state.receives.rate}`)).join()}`, ways: ["internet"],
    measure: (trial) => measure(scene, hops, trial),
    remedies: (outcome) => {
      const [first] = hops;
      if (first === undefined) return [];
      // So much has to come off what is sent that the rest takes no more than its part of the time.
      const over = ((outcome.measured?.value ?? 0) - (outcome.limit?.value ?? 0)) / 100;
      const room = hops.reduce((sum, { up }) => sum + up, 0) - over * (first.hop.facts.rate?.best ?? 0);
      return [...wireRemedies(scene.setup, hops.map(({ hop }) => hop)), ...thinRemedies(scene, first.internet, Math.max(0, room), (stream) => hops.some(({ device }) => device === stream.join.join.device))];
    },
  })),
};

interface Through {
  readonly device: string;
  readonly internet: ReturnType<typeof inUse>[number]["internet"];
  readonly hop: Hop;
  /** bit/s sent. */
  readonly up: number;
}

/** Links with a stated rate, those of one channel together, with the devices whose streams go through. */
function channelsOf(scene: Scene): Through[][] {
  const out = new Map<string, Through[]>();
  for (const { internet, joins } of inUse(scene)) {
    const streams = streamsOver(scene.graph, internet);
    for (const state of joins) {
      for (const hop of wayOut(scene.setup, state.join.device, internet)) {
        if (hop.facts.rate === undefined) continue;
        const up = total(streams.filter((stream) => stream.join === state), "target");
        out.set(hop.channel, [...(out.get(hop.channel) ?? []), { device: state.join.device, internet, hop, up }]);
      }
    }
  }
  return [...out.values()];
}

/** The part of a link that a call can count on. */
const usableOf = (hop: Hop): Ranged => {
  const best = { wired: 0.9, wireless: 0.75, powerline: 0.75 }[hop.kind];
  return assumed(`usable ${hop.channel}`, `the usable part of ${hop.channel}`, "share", { best, low: best - 0.1, high: Math.min(0.95, best + 0.1), source: "queue-management guide for wires, common practice else" });
};

function measure(scene: Scene, through: readonly Through[], trial: Trial): Outcome | undefined {
  const [first] = through;
  if (first === undefined) return undefined;
  const loads = through.map(({ device, internet, hop, up }) => {
    const down = total(receivedOver(scene.graph, internet, trial).filter((one) => one.join.join.device === device), "target");
    return { device, up, down, rate: hop.facts.rate === undefined ? Infinity : trial.value(hop.facts.rate) };
  });
  // A cable carries both ways at once, and all of them over one wire; a shared channel one thing at a time.
  const wired = first.hop.kind === "wired";
  const taken = wired ? Math.max(airtime(loads.map((one) => ({ load: one.up, rate: one.rate }))), airtime(loads.map((one) => ({ load: one.down, rate: one.rate }))))
    : airtime(loads.map((one) => ({ load: one.up + one.down, rate: one.rate })));
  const usable = trial.value(usableOf(first.hop));
  const severity = taken > usable ? "warning" : undefined;
  const name = first.hop.kind === "wireless" ? first.hop.channel.replace(/^radio/, "the radio") : first.hop.channel;
  const each = (): string[] => loads.map((one) => `${one.device} sends ${rate(one.up)} and receives ${rate(one.down)} at ${rate(one.rate)}`);
  return {
    severity, badness: (taken - usable) * 100, measured: { value: taken * 100, unit: "%" }, limit: { value: usable * 100, unit: "%" },
    cause: { key: `link ${first.hop.channel}`, subjects: [...new Set(through.flatMap(({ hop }) => [hop.from, hop.to]))], where: first.hop.where },
    say: () => ({
      because: `${name} is taken for ${figure(taken * 100)} % of the time`, effect: severity === undefined ? "" : `${figure(usable * 100)} % can be counted on, and ${list(each(), 3)}`,
      summary: `${name} is taken for ${figure(taken * 100)} % of the time`, chain: each(),
    }),
  };
}
