/** Which seats fall short, in words. */
import type { Listener } from "../signal/air";
import { called } from "../signal/coverage";

/** `6 of 24 in the audience from row 3 on, worst audience.row-4.seat-6`. */
export function seatsShort(seats: readonly Listener[], short: readonly number[], worst: number): string {
  if (seats.length === 1) return seats[0]?.name ?? "";
  const failing = new Set(short);
  const groups = [...new Set(short.map((i) => seats[i]?.group ?? ""))];
  const asked = seats.map((_, i) => i).filter((i) => groups.includes(seats[i]?.group ?? ""));
  const rows = [...new Set(asked.map((i) => seats[i]?.row ?? 1))].sort((a, b) => a - b);
  const from = rows.length > 1 ? rows.find((row) => asked.every((i) => (seats[i]?.row ?? 1) < row || failing.has(i))) : undefined;
  const where = groups.length === 1 ? called(groups[0] ?? "") : "the seats";
  return `${short.length} of ${asked.length} in ${where}${from !== undefined && from > 1 ? ` from row ${from} on` : ""}, worst ${seats[worst]?.name ?? ""}`;
}

/** A seat as a sentence has it: `row 4`, or its name where there are no rows. */
export const rowOf = (seat: Listener | undefined): string => (seat === undefined ? "" : /\.row-\d/.test(seat.name) ? `row ${seat.row}` : seat.name);
