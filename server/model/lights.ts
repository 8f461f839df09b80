/** How much light there is in the room, and which lamps are on, for each item of the programme. */
import { valueOf, type Bound } from "./bound";
import { fromText } from "./make-ranged";
import { canonical } from "./names";
import type { Ranged } from "./ranged";
import type { Where } from "./where";

export type LitThing = "room" | "screen" | "faces" | "tables";

export interface Light {
  readonly on: LitThing;
  /** lx */
  readonly level: Ranged;
  /** In these items only; always where there are none. */
  readonly during: readonly string[];
  readonly where: Where;
}

export interface Lamps {
  readonly which: "all" | "front" | "back";
  readonly how: "on" | "dimmed" | "off";
  readonly during: readonly string[];
  readonly where: Where;
}

const itemsOf = (fact: Bound): string[] => fact.tails.during.map((name) => name.text);

export function readLights(facts: readonly Bound[]): { readonly lights: readonly Light[]; readonly lamps: readonly Lamps[] } {
  const lights: Light[] = [];
  const lamps: Lamps[] = [];
  for (const fact of facts) {
    if (fact.row.head === "light") {
      const on = (valueOf(fact, "on", "word")?.word ?? "room") as LitThing;
      const value = valueOf(fact, "level", "quantity");
      const during = itemsOf(fact);
      const id = ["room.light", on, ...during].join(".");
      if (value !== undefined && value.said !== "unknown") lights.push({ on, level: fromText(value, fact, id, on === "room" ? "the light in the room" : `the light on ${on}`, false), during, where: fact.where });
    } else if (fact.row.head === "lamps") {
      lamps.push({
        which: (valueOf(fact, "which", "word")?.word ?? "all") as Lamps["which"], how: (valueOf(fact, "how", "word")?.word ?? "on") as Lamps["how"], during: itemsOf(fact), where: fact.where,
      });
    }
  }
  return { lights, lamps };
}

/** What is said last wins, and what is said for the item before what is said for all. */
function holdingIn<T extends { readonly during: readonly string[] }>(all: readonly T[], item: string | undefined): T | undefined {
  const named = item === undefined ? undefined : all.findLast((one) => one.during.some((name) => canonical(name) === canonical(item)));
  return named ?? all.findLast((one) => one.during.length === 0);
}

/** The light that is stated on something in an item; nothing where the text does not say. */
export const lightOn = (room: { readonly lights: readonly Light[] }, on: LitThing, item?: string): Light | undefined => holdingIn(room.lights.filter((light) => light.on === on), item);

/** How the lamps at the front or the back are in an item: as said of them, else as said of all; nothing where the text does not say. */
export const lampsAt = (room: { readonly lamps: readonly Lamps[] }, which: "front" | "back", item?: string): Lamps | undefined =>
  holdingIn(room.lamps.filter((lamps) => lamps.which === which), item) ?? holdingIn(room.lamps.filter((lamps) => lamps.which === "all"), item);
