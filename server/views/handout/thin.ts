/** What is given up first when the internet is thin, with the uplink below which each step is taken: pictures first, sound last. */
import { fallbackTables, type FallbackTable } from "../../figures/fallback-table";
import type { Setup } from "../../model/setup";
import type { FittingSet, Ladder } from "../../signal/giving-up";

/** One picture turned down or off, or something that is presented no more. */
export interface Turned {
  /** The joined device that sends it. */
  readonly device: string;
  /** `stage-camera`, `phone.camera`, `slides`. */
  readonly picture: string;
  /** `360p15`; nothing where it is sent no more. */
  readonly to: string | undefined;
}

export interface Step {
  /** bit/s of measured uplink below which it is taken. */
  readonly below: number;
  /** What changes against the step before it. */
  readonly turned: readonly Turned[];
  /** No picture is left. */
  readonly soundOnly: boolean;
}

export interface Stair {
  readonly internet: string;
  /** For which connection it steps in. */
  readonly insteadOf: string | undefined;
  /** Devices whose streams go over it. */
  readonly devices: readonly string[];
  /** The item in which most is sent, where items differ. */
  readonly item: string | undefined;
  /** bit/s of uplink that the text states. */
  readonly up: number | undefined;
  /** Share of a measured uplink that can be counted on. */
  readonly share: number;
  /** bit/s of measured uplink that the plan wants. */
  readonly wanted: number;
  /** bit/s of measured uplink below which not even the thinnest sound fits; nothing where no sound is sent. */
  readonly least: number;
  readonly steps: readonly Step[];
  /** How many steps the stated uplink asks for from the start. */
  readonly taken: number;
  readonly sound: boolean;
}

/** The stairs of every connection that carries anything, and of those that step in. */
export const stairsOf = (setup: Setup): Stair[] => fallbackTables(setup).map(stair);

function stair(table: FallbackTable): Stair {
  const { steps: sets, share, up } = table;
  const all = table.ladders.flat();
  const sounds = all.filter((ladder) => ladder.stream.what === "sound");
  const isOn = (set: FittingSet, ladder: Ladder): boolean => set.levels.get(ladder) !== undefined;
  const steps: Step[] = [];
  // What is turned down by itself, sound and moving slides, asks nobody to do anything.
  let below = Infinity;
  sets.forEach((set, i) => {
    const before = sets[i - 1];
    if (before === undefined) return;
    below = Math.min(below, before.cost / share);
    const turned = all.filter((ladder) => ladder.stream.what !== "sound").flatMap((ladder): Turned[] => {
      const [was, is] = [before.levels.get(ladder), set.levels.get(ladder)];
      if (was === is || (is !== undefined && ladder.stream.picture === undefined)) return [];
      return [{ device: ladder.stream.join.join.device, picture: ladder.stream.picture?.name ?? ladder.stream.what, to: is?.mode === undefined ? undefined : `${is.mode.height}p${is.mode.rate}` }];
    });
    if (turned.length > 0) steps.push({ below, turned, soundOnly: sounds.some((ladder) => isOn(set, ladder)) && all.every((ladder) => ladder.stream.what === "sound" || !isOn(set, ladder)) });
  });
  const last = sets.filter((set) => sounds.some((ladder) => isOn(set, ladder))).at(-1);
  return {
    internet: table.internet, insteadOf: table.insteadOf, item: table.item, devices: table.devices, up, share, steps, wanted: (sets[0]?.cost ?? 0) / share,
    least: (last?.cost ?? 0) / share, taken: up === undefined ? 0 : steps.filter((step) => up < step.below).length, sound: sounds.length > 0,
  };
}
