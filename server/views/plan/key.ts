/** What colours, edges and lines mean, and the bar that gives the scale. */
import type { Answer, GroundPlan } from "../../signal/ground-plan/plan";
import { widthOf } from "../svg/glyphs";
import { boxOf, type Text } from "../svg/text";
import type { KeyEntry, Scene } from "./scene";
import { TYPE } from "./sizes";

export const KEY_HEIGHT = 26;
/** Width of the sample before the words. */
export const SAMPLE = 30;

function stepWords(answer: Answer): string[] {
  const figure = (n: number): string => n.toFixed(answer.decimals).replace("-", "−");
  return answer.words.map((word, i) => {
    const [from, to] = [answer.bounds[i - 1], answer.bounds[i]];
    const range = answer.better === "less" ? (from === undefined ? `over ${figure(to ?? 0)}` : `up to ${figure(from)}`) : from === undefined ? `under ${figure(to ?? 0)}` : to === undefined ? `${figure(from)} or more` : `from ${figure(from)}`;
    return `${range}: ${word}`;
  });
}

const FIELD_WORDS = {
  camera: "what a camera sees", loudspeaker: "loudspeaker: within 6 dB of where it is aimed", display: "from where the picture can be looked at",
  cable: "cable", mains: "mains lead", radio: "by radio", aim: "where it points",
} as const;

/** Entries for what occurs in the plan, in rows of at most `width`. */
export function keyOf(plan: GroundPlan, routes: boolean, aims: boolean, x: number, y: number, width: number): { entries: KeyEntry[]; height: number } {
  const { answer } = plan;
  const wanted: { readonly kind: KeyEntry["kind"]; readonly text: string }[] = [];
  if (answer !== undefined) {
    stepWords(answer).forEach((text, i) => wanted.push({ kind: `step${i + 1}` as KeyEntry["kind"], text }));
    wanted.push({ kind: "short", text: "round: not enough" });
  }
  for (const kind of ["camera", "loudspeaker", "display"] as const) if (plan.fields.some((field) => field.kind === kind)) wanted.push({ kind, text: FIELD_WORDS[kind] });
  for (const kind of ["cable", "mains", "radio"] as const) if (routes && plan.routes.some((route) => route.kind === kind)) wanted.push({ kind, text: FIELD_WORDS[kind] });
  const seats = plan.rows.flatMap((row) => row.seats);
  if (answer === undefined && seats.some((seat) => seat.wheelchair)) wanted.push({ kind: "wheelchair", text: "wheelchair place" });
  if (seats.some((seat) => seat.offCamera)) wanted.push({ kind: "off-camera", text: "not to be in any picture" });
  if (aims) wanted.push({ kind: "aim", text: FIELD_WORDS.aim });
  const entries: KeyEntry[] = [];
  let at = x;
  let row = 0;
  for (const { kind, text } of wanted) {
    const needed = SAMPLE + 8 + widthOf(text, TYPE.note);
    if (at > x && at + needed > x + width) {
      row += 1;
      at = x;
    }
    const middle = y + row * KEY_HEIGHT + KEY_HEIGHT / 2;
    entries.push({ kind, x: at, y: middle, text: { x: at + SAMPLE + 8, y: middle + TYPE.note * 0.35, text, size: TYPE.note, bold: false, anchor: "start", rank: "ink2" } });
    at += needed + 20;
  }
  return { entries, height: wanted.length === 0 ? 0 : (row + 1) * KEY_HEIGHT };
}

/** A bar of a few whole metres. */
export function barOf(scale: number, x: number, y: number, width: number): Scene["bar"] {
  const metres = [0.25, 0.5, 1, 2, 5, 10, 20, 50].find((step) => step * scale >= 34) ?? 50;
  const count = Math.max(1, Math.min(5, Math.floor((width - 60) / (metres * scale))));
  const stops = Array.from({ length: count + 1 }, (_, i) => x + i * metres * scale);
  const label = (i: number): Text => ({
    x: stops[i] ?? x, y: y + 20, text: `${i * metres}${i === count ? " m" : ""}`, size: TYPE.wall, bold: false, anchor: i === 0 ? "start" : "middle", rank: "ink2",
  });
  const all = stops.map((_, i) => label(i));
  // Words that would stand on each other are left out, but for the last.
  const texts = all.filter((text, i) => i === count || i === 0 || boxOf(text).x > boxOf(all[i - 1] ?? text).x + boxOf(all[i - 1] ?? text).width + 2);
  return { y, stops, texts };
}
