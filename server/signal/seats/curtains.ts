/** What curtains would do to how clearly a seat hears. */
import type { Setup } from "../../model/setup";
import { bands, type Bands } from "../../physics/bands";
import { FINISHES } from "../../physics/finishes";
import { absorptionFromTime } from "../../physics/reverberation";
import { roomConstant } from "../../physics/soundField";
import { treatedTimes } from "../../physics/treatment";
import { FINISH_OF_WORD, type Acoustics } from "../acoustics";
import { clarityAt, hallOf } from "./clarity";
import type { Source } from "./sources";

export interface Curtains {
  /** m² of heavy curtain, draped to half its width, before bare wall. */
  readonly area: number;
  /** The index with them. */
  readonly sti: number;
}

/** A room is hung with no more than this share of its walls. Model choice. */
const SHARE = 0.6;

/** The room with so many m² of heavy curtains before its walls, and the sources in it. */
function hung(setup: Setup, room: Acoustics, sources: readonly Source[], area: number): { readonly room: Acoustics; readonly sources: readonly Source[] } {
  const { alpha } = FINISHES["curtain-heavy"];
  const walls = FINISHES[FINISH_OF_WORD[setup.room.walls.finish] ?? "plaster"].alpha;
  // What swallows more than a curtain by itself goes on doing so behind it.
  const covered = bands((k) => Math.min(alpha[k], walls[k]));
  const time = treatedTimes({ volume: room.volume, surface: room.surface, time: room.time, alpha, covered }, area);
  const constant = bands((k) => roomConstant(Math.min(absorptionFromTime(room.volume, time[k]), 0.95 * room.surface), room.surface));
  return { room: { ...room, time, constant }, sources: sources.map((source) => ({ ...source, field: { ...source.field, reverberant: dampened(source.field.reverberant, room.constant, constant) } })) };
}

/** v = 16π·REE/(Q·R). */
const dampened = (reverberant: Bands, before: Bands, after: Bands): Bands => bands((k) => (reverberant[k] * before[k]) / after[k]);

/** The least area, in round figures, that brings the index at a seat to `target`; nothing where no sensible area does. */
export function curtainsFor(setup: Setup, room: Acoustics, sources: readonly Source[], seat: number, target: number): Curtains | undefined {
  const { volume, surface } = room;
  if (!Number.isFinite(surface) || !(volume > 0) || room.time.some((t) => !(t > 0))) return undefined;
  const { length, width, height } = setup.room;
  const most = SHARE * 2 * (length.best + width.best) * height.best;
  const step = most > 100 ? 10 : most > 40 ? 5 : 2;
  for (let area = step; area <= most; area += step) {
    const with_ = hung(setup, room, sources, area);
    const sti = clarityAt(with_.sources, hallOf(with_.room), seat);
    if (sti >= target) return { area, sti };
  }
  return undefined;
}
