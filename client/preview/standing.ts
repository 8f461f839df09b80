/** Names of places that one looks from, and of the seats in them. */
import type { LookPlace } from "../../server/protocol/messages";

/** The place that a name means, and of a row which of its seats. */
export function standing(places: readonly LookPlace[], of: string | undefined): { readonly place: LookPlace; readonly seat: number | undefined } | undefined {
  for (const place of places) {
    if (place.of === of) return { place, seat: undefined };
    if (place.seats === undefined || of?.startsWith(`${place.of}.seat-`) !== true) continue;
    const seat = Number(of.slice(place.of.length + ".seat-".length));
    if (Number.isInteger(seat)) return { place, seat };
  }
  return undefined;
}

/** In another row one sits as far along as before; of a row that one comes to first, in the middle. */
export const seatIn = (place: LookPlace, seat: number | undefined): string =>
  (place.seats === undefined ? place.of : `${place.of}.seat-${Math.min(place.seats, seat ?? Math.ceil(place.seats / 2))}`);
