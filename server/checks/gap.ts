/** Checks that look for a gap in the plan: something that nobody has seen to yet, or that has been. */
import type { WayName } from "../model/ways";
import type { Where } from "../model/where";
import type { Check, Entry, Remedy, Scene, Settle } from "./check";

export interface Seen {
  /** Whether it is a gap. */
  readonly open: boolean;
  readonly subjects?: readonly string[];
  readonly where?: Where | undefined;
  /** As a sentence has it, open or not. */
  readonly because: string;
  readonly effect?: string;
  readonly summary: string;
  readonly chain?: readonly string[];
  /** What is measured, in what the limit is in. */
  readonly measured?: { readonly value: number; readonly limit: number; readonly unit: string };
  remedies?(): readonly Remedy[];
}

/** A check of severity `plan`: `look` says how it stands, and nothing where it does not come into question. */
export function gap(entry: Omit<Entry, "severity" | "settle"> & { readonly settle: Settle }, ways: readonly WayName[], look: (scene: Scene) => Seen | undefined, more: Pick<Check, "takesLimit"> = {}): Check {
  return {
    entry: { ...entry, severity: "plan" }, bearing: "beside", ...more,
    cases: (scene) => {
      const seen = look(scene);
      if (seen === undefined) return [];
      return [{
        key: `${entry.code} ${seen.summary}`, ways,
        measure: () => ({
          severity: seen.open ? "plan" : undefined, badness: seen.open ? 1 : -1,
          ...(seen.measured === undefined ? {} : { measured: { value: seen.measured.value, unit: seen.measured.unit }, limit: { value: seen.measured.limit, unit: seen.measured.unit } }),
          cause: { key: entry.code, subjects: seen.subjects ?? [], where: seen.where ?? scene.setup.titleWhere },
          say: () => ({ because: seen.because, effect: seen.effect ?? "", summary: seen.summary, chain: seen.chain ?? [] }),
        }),
        ...(seen.remedies === undefined ? {} : { remedies: () => seen.remedies?.() ?? [] }),
      }];
    },
  };
}
