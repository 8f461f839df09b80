/** Whoever speaks in the room is heard online, through a microphone or through somebody who repeats it. */
import { valuesOf } from "../../model/bound";
import { holding } from "../../model/during";
import { canonical } from "../../model/names";
import type { Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { acoustics } from "../acoustics";
import { mouths, pickUps } from "../air";
import { carries, type Ending, type Graph } from "../graph";
import { broken, called, candidates, keyOf, worst, type Assessment, type Claim, type SeatAsked } from "./claim";

/** Limits of the direct-to-reverberant ratio of a voice at its microphone, dB: below −6 hollow, below −12 lost. Model choice. */
const PICKUP = { poor: -6, bad: -12 } as const;
/** Limits of speech over noise at a microphone, dB. Common practice, no source. */
const MIC_NOISE = { poor: 6, bad: 0 } as const;

/** The claim that seats would make if their people spoke, whether or not the programme says that they do. */
export const heardFrom = (graph: Graph, voice: Voice): Claim | undefined => onlineHearsRoom(graph, [voice])[0];

export function onlineHearsRoom(graph: Graph, voices: readonly Voice[] = graph.voices): Claim[] {
  const { setup } = graph;
  const mics = candidates(graph, "sound", "microphone", "back");
  const key = keyOf(mics);
  const pickUp = (voice: Voice, trial: Trial, within?: (seat: SeatAsked) => boolean): Assessment => {
    const open = mics.filter((m) => carries(m.path, trial));
    if (open.length === 0) {
      // Somebody's own microphone is the one that is missed.
      const own = mics.filter((m) => isOwn(m.ending, voice));
      return broken(graph, own.length > 0 ? own : mics, "sends sound", "nothing-sends-sound");
    }
    const { noise } = acoustics(setup, trial);
    const level = trial.value(voice.level);
    const places = mouths(setup, voice, trial);
    let through = open[0]?.ending.part.id;
    let least = Infinity;
    const heard = open.map((m) => ({ by: m.ending.part.id, at: pickUps(setup, trial, voice, m.ending.device, m.ending.part) }));
    const margins = places.map((_, i) => {
      let best = -Infinity;
      let by = through;
      for (const m of heard) {
        const one = m.at[i];
        if (one === undefined) continue;
        // One figure for both: how far the worse of the two is above its limit, on the scale of the first.
        const margin = Math.min(one.ratio, level + one.transfer - noise - MIC_NOISE.bad + PICKUP.bad);
        if (margin > best) {
          best = margin;
          by = m.by;
        }
      }
      if (best < least) {
        least = best;
        through = by;
      }
      return best;
    });
    const names = voice.seats === undefined ? places.map(() => voice.name) : setup.floor.seats(voice.seats, trial).map((s) => s.name);
    const rows = voice.seats === undefined ? places.map(() => 1) : setup.floor.seats(voice.seats, trial).map((s) => s.row);
    // Somebody's own microphone is planned, and does not get there: that is what is wrong, not that another one is far.
    const own = mics.find((m) => !open.includes(m) && isOwn(m.ending, voice));
    const asked = places.map((at, i) => ({ name: names[i] ?? "", group: voice.seats?.name ?? voice.name, row: rows[i] ?? 1, at, margin: margins[i] ?? -Infinity })).filter((seat) => within?.(seat) !== false);
    const graded = worst(asked, asked.map((seat) => seat.margin), PICKUP, "dB", "direct over reverberant sound");
    if (own !== undefined && graded.grade !== "good") return broken(graph, [own], "", "");
    return { ...graded, gaps: [], path: open.find((m) => m.ending.part.id === through)?.path, through, repeatedBy: undefined };
  };
  return voices.map((voice): Claim => ({
    way: "online-hears-room", subject: voice.name, key: `heard ${voice.name} ${key} ${repeaters(graph, voice).map((v) => v.name).join(",")}`,
    routes: mics.map((m) => m.path),
    title: `the people online hear ${called(voice.name)}`, unmet: `the people online do not hear ${called(voice.name)}`,
    assess: (trial, within) => {
      const direct = pickUp(voice, trial, within);
      if (direct.grade === "good") return direct;
      const repeater = repeaters(graph, voice).find((other) => pickUp(other, trial).grade === "good");
      return repeater === undefined ? direct : { ...pickUp(repeater, trial), repeatedBy: repeater.name };
    },
  }));
}

/** A microphone that is worn by somebody, held, or stands at that very name. */
const isOwn = (mic: Ending, voice: Voice): boolean =>
  mic.device.place?.relations.some((r) => r.anchor.kind === "name" && canonical(r.anchor.name.text) === canonical(voice.name)) === true;

/** Talkers who say again what somebody says, in this item. */
function repeaters(graph: Graph, voice: Voice): Voice[] {
  return [...graph.setup.voices.values()].filter((other) => other !== voice && holding(other.statements, "repeats", graph.item)
    .some((s) => !s.negated && valuesOf(s, "of", "name").some((n) => canonical(n.text) === canonical(voice.name) || (canonical(n.text) === "audience" && voice.seats !== undefined))));
}
