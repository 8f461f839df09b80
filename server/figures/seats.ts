/** What seats hear of the people online and of those who speak in the room: the numbers that the findings about seats tell. */
import type { Scene } from "../checks/check";
import { inRoom, speakingOf } from "../checks/voices-in-room";
import type { Figure } from "../finding";
import type { Trial } from "../model/trial";
import { median } from "../physics/loudspeaker";
import { acoustics } from "../signal/acoustics";
import { listeners } from "../signal/air";
import { clarityOf, groupNames, leastClear, levelsOf, loudestOf, ONLINE_SPEAKS, seatsOf, softest, sourcesOf, type Speaking } from "../signal/seats/heard";
import { lateSeats } from "../signal/seats/late";
import { strongestAt } from "../signal/seats/levels";
import { mouthsAsked } from "../signal/seats/sources";
import { given, round } from "./record";

/** Up to so many seats each has its figures; of more, the worst of each row. Up to so many voices each has its index. */
const EACH_SEAT = 120;
const MOST_VOICES = 24;
/** Beyond it the index is not worked out at every seat. */
const MOST_INDEXED = 1000;

const OVER = { formula: "10·lg Σ 10^((Lmax + H)/10) − N, over all that plays", source: "common practice, no source" } as const;
const LEVEL = { formula: "10·lg Σ 10^((L₁ + H)/10), over all that plays", source: "handbook of sound system design, ch. 6" } as const;
const INDEX = { formula: "m(F) = |Σ (d + v/(1 + j2πFT/13.8))·e^(−j2πFτ)|/Σ(d + v) · I/(I + In + Iam + Irt)", source: "IEC 60268-16 Ed. 5, male; direct and diffuse field together: model choice" } as const;

export function seatFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup } = scene;
  const groups = groupNames(setup);
  const online = sourcesOf(scene.graph, ONLINE_SPEAKS, trial).length === 0 ? [] : [...groups.flatMap((group) => ofGroup(scene, group, trial)), ...lateness(scene, ONLINE_SPEAKS, trial)];
  const voices = inRoom(scene).slice(0, MOST_VOICES).flatMap((voice): Figure[] => {
    const asked = mouthsAsked(setup, voice, trial).flatMap((mouth) => groups.map((group) => ({ speaking: speakingOf(voice, mouth), group })));
    const clear = asked.flatMap(({ speaking, group }) => leastClear(scene.graph, speaking, group, trial) ?? []).sort((a, b) => a.sti - b.sti)[0];
    const soft = asked.flatMap(({ speaking, group }) => softest(scene.graph, speaking, "level", group, trial) ?? []).sort((a, b) => a.level - b.level)[0];
    const { noise } = acoustics(setup, trial);
    return [
      ...(soft === undefined ? [] : [{ name: "speech over the noise in the room", of: [voice.name], ...at(scene, soft.seat, trial), value: round(soft.level - noise), unit: "dB", ...LEVEL, inputs: [given("level there", soft.level, "dBA"), given("noise", noise, "dBA")] }]),
      ...(clear === undefined ? [] : [{ name: "speech transmission index", of: [voice.name], ...at(scene, clear.seat, trial), value: round(clear.sti), unit: "", ...INDEX, inputs: [] }]),
      ...lateness(scene, speakingOf(voice, 0), trial),
    ];
  });
  return [...online, ...voices];
}

const at = ({ setup }: Scene, seat: number, trial: Trial): { readonly at?: string } => {
  const name = listeners(setup, trial)[seat]?.name;
  return name === undefined ? {} : { at: name };
};

/** Worst, middle and best of a group, then seat by seat, or row by row. */
function ofGroup(scene: Scene, group: string, trial: Trial): Figure[] {
  const { setup, graph } = scene;
  const seats = seatsOf(setup, trial, group);
  const least = softest(graph, ONLINE_SPEAKS, "most", group, trial);
  if (least === undefined || seats.length === 0) return [];
  const { noise } = acoustics(setup, trial);
  const levels = levelsOf(graph, ONLINE_SPEAKS, "level", trial);
  const sources = sourcesOf(graph, ONLINE_SPEAKS, trial);
  const clear = leastClear(graph, ONLINE_SPEAKS, group, trial);
  const indexed = listeners(setup, trial).length <= MOST_INDEXED ? clarityOf(graph, ONLINE_SPEAKS, trial) : undefined;
  const level = (i: number): number => levels[i] ?? -Infinity;
  const byLevel = [...seats].sort((a, b) => level(a) - level(b));
  const spread = (name: string, of: (i: number) => number, unit: string, how: typeof LEVEL | typeof INDEX): Figure[] => {
    const values = seats.map(of);
    const [low, high] = [seats.reduce((a, b) => (of(b) < of(a) ? b : a), seats[0] ?? 0), seats.reduce((a, b) => (of(b) > of(a) ? b : a), seats[0] ?? 0)];
    return [
      { name: `${name}, at the worst seat`, of: [group], ...at(scene, low, trial), value: round(of(low)), unit, ...how, inputs: [] },
      { name: `${name}, at the middle seat`, of: [group], value: round(median(values)), unit, ...how, inputs: [] },
      { name: `${name}, at the best seat`, of: [group], ...at(scene, high, trial), value: round(of(high)), unit, ...how, inputs: [] },
    ];
  };
  const strongest = strongestAt(loudestOf(graph, trial), least.seat, "most");
  return [
    { name: "speech over the noise", of: [group, ...(strongest === undefined ? [] : [strongest.name])], ...at(scene, least.seat, trial), value: round(least.level - noise), unit: "dB", ...OVER, inputs: [given("level there at most", least.level, "dBA"), given("noise", noise, "dBA")] },
    ...spread("level of the people online", level, "dBA", LEVEL),
    ...(clear === undefined ? [] : [{ name: "speech transmission index", of: [group], ...at(scene, clear.seat, trial), value: round(clear.sti), unit: "", ...INDEX, inputs: [given("noise", noise, "dBA")] }]),
    ...(indexed === undefined ? [] : spread("clearness of the people online", (i) => indexed[i] ?? 0, "", INDEX)),
    ...told(scene, group, byLevel, trial).flatMap((i): Figure[] => {
      const by = strongestAt(sources, i);
      return [
        { name: "level at the seat", of: [group], ...at(scene, i, trial), value: round(level(i)), unit: "dBA", ...LEVEL, inputs: by === undefined ? [] : [given(`distance to ${by.name}, the loudest there`, by.field.distance[i] ?? NaN, "m"), given("noise", noise, "dBA")] },
        ...(indexed === undefined ? [] : [{ name: "index at the seat", of: [group], ...at(scene, i, trial), value: round(indexed[i] ?? 0), unit: "", ...INDEX, inputs: [] }]),
      ];
    }),
  ];
}

/** The seats that are told one by one: all, or of very many the softest of each row. `byLevel`: the softest first. */
function told({ setup }: Scene, group: string, byLevel: readonly number[], trial: Trial): readonly number[] {
  if (byLevel.length <= EACH_SEAT) return [...byLevel].sort((a, b) => a - b);
  const all = listeners(setup, trial);
  const rows = new Map<number, number>();
  for (const i of byLevel) {
    const row = all[i]?.row ?? 1;
    if (!rows.has(row) && all[i]?.group === group) rows.set(row, i);
  }
  return [...rows.values()].sort((a, b) => a - b).slice(0, EACH_SEAT);
}

/** The widest gap between two that are heard apart. */
function lateness(scene: Scene, speaking: Speaking, trial: Trial): Figure[] {
  const sources = sourcesOf(scene.graph, speaking, trial);
  if (sources.length < 2) return [];
  const late = lateSeats(sources, [...listeners(scene.setup, trial).keys()]);
  const worst = late.reduce<(typeof late)[number] | undefined>((a, b) => (a === undefined || b.gap > a.gap ? b : a), undefined);
  if (worst === undefined) return [];
  const names = [worst.first, worst.later].map((source) => source.ending?.device.name ?? source.name);
  return [{
    name: "how late", of: [...new Set(names)], ...at(scene, worst.seat, trial), value: round(worst.gap * 1000), unit: "ms", formula: "τ = τ₂ + r₂/c − τ₁ − r₁/c", source: "speed of sound 343 m/s; 50 ms, within 10 dB: common practice, no source",
    inputs: [given("weaker by", worst.below, "dB")],
  }];
}
