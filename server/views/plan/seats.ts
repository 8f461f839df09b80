/** Seats in the drawing: their step on the scale, the number on them, and the words of their row. */
import type { Answer, GroundPlan, SeatRow } from "../../signal/ground-plan/plan";
import { isEnough, shownAt } from "../../signal/ground-plan/enough";
import { widthOf } from "../svg/glyphs";
import { boxOf, type Text } from "../svg/text";
import { placeOf, type Frame } from "./frame";
import type { PlacedRow, PlacedSeat } from "./scene";
import { SEAT, TYPE } from "./sizes";
import type { Taken } from "../svg/taken";

/** The step of a value as it is shown, from 1; 0 for none. */
export function stepOf(answer: Answer, value: number): number {
  const shown = shownAt(answer, value);
  return Number.isNaN(value) ? 0 : 1 + answer.bounds.filter((bound) => (answer.better === "more" ? shown >= bound : shown <= bound)).length;
}

/** Side of a seat in pixels. */
export const sideOf = (plan: GroundPlan, frame: Frame): number => plan.seatSize * frame.scale;

/** Size of the numbers on seats that large. */
export const numberSize = (side: number, longest: number): number => Math.min(TYPE.seat, side * 0.62, (side * 0.9) / (0.58 * Math.max(1, longest)));

export function placeRows(plan: GroundPlan, frame: Frame, taken: Taken): PlacedRow[] {
  const { answer } = plan;
  const side = sideOf(plan, frame);
  const rows = plan.rows.map((row): PlacedRow => {
    const seats = row.seats.map((seat): PlacedSeat => {
      const at = placeOf(frame, seat);
      taken.add({ x: at.x - side / 2, y: at.y - side / 2, width: side, height: side });
      const value = answer === undefined ? NaN : answer.values[seat.index] ?? NaN;
      const shown = answer === undefined ? (seat.wheelchair ? "W" : String(seat.number)) : Number.isNaN(value) ? "–" : shownValue(value, answer);
      return {
        at, facing: { x: seat.facing.y, y: seat.facing.x }, step: answer === undefined ? 0 : stepOf(answer, value),
        offCamera: seat.offCamera,
        short: answer !== undefined && !Number.isNaN(value) && !isEnough(answer, value), number: side < SEAT.numbered ? "" : shown,
      };
    });
    return { row, seats, label: undefined, says: saying(row, answer) };
  });
  // The words of a row go to its left end, where there is room for them.
  return rows.map((placed) => ({ ...placed, label: rowLabel(placed, side, frame, taken) }));
}

function shownValue(value: number, answer: Answer): string {
  const text = shownAt(answer, value).toFixed(answer.decimals);
  return Number(text) === 0 && text.startsWith("-") ? text.slice(1) : text.replace("-", "−");
}

function rowLabel({ row, seats }: PlacedRow, side: number, frame: Frame, taken: Taken): Text | undefined {
  if (row.ring || seats.length < 2) return undefined;
  const left = seats.reduce((a, b) => (b.at.x < a.at.x ? b : a));
  const right = seats.reduce((a, b) => (b.at.x > a.at.x ? b : a));
  const text = String(row.row);
  const y = (at: number): number => at + TYPE.row * 0.35;
  const labels: Text[] = [
    { x: left.at.x - side / 2 - 6, y: y(left.at.y), text, size: TYPE.row, bold: true, anchor: "end", rank: "ink2" },
    { x: right.at.x + side / 2 + 6, y: y(right.at.y), text, size: TYPE.row, bold: true, anchor: "start", rank: "ink2" },
  ];
  const free = labels.find((label) => boxOf(label).x > frame.left + 6 && taken.isFree(boxOf(label)));
  if (free !== undefined) taken.add(boxOf(free));
  return free;
}

function saying(row: SeatRow, answer: Answer | undefined): string {
  const name = row.ring ? row.group : `row ${row.row} of ${row.group}`;
  const seats = `${row.seats.length} ${row.seats.length === 1 ? "seat" : "seats"}`;
  if (answer === undefined) return `${name}: ${seats}`;
  const values = row.seats.map((seat) => answer.values[seat.index] ?? NaN).filter((value) => !Number.isNaN(value));
  if (values.length === 0) return `${name}: ${seats}; ${answer.none}`;
  const [least, most] = [Math.min(...values), Math.max(...values)].map((value) => shownValue(value, answer));
  return `${name}: ${seats}, ${least === most ? String(least) : `${String(least)} to ${String(most)}`} ${answer.unit}${values.length < row.seats.length ? `; ${row.seats.length - values.length} without` : ""}`;
}

/** Whether the longest number fits on a seat, in characters. */
export const longestNumber = (rows: readonly PlacedRow[]): number =>
  rows.reduce((most, { seats }) => seats.reduce((so, seat) => Math.max(so, widthOf(seat.number, 1) / widthOf("0", 1)), most), 0);
