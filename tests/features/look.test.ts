/** From where one can look at a setup, and what comes of a name that is none. */
import { describe, expect, test } from "vitest";
import { lookFrom, placesOf } from "../../server/features/look";
import { study, type Study } from "../../server/study";
import { bothwaysFiles, inMemory } from "../language/folder";
import { studyOf } from "../views/plans";

const TEXTS = inMemory(bothwaysFiles("samples"));
const theatre: Study = study(TEXTS, "samples/theatre/reading.bothways");
const council: Study = study(TEXTS, "samples/round-table/allotments.bothways");

describe("where one can look from", () => {
  test("cameras, those that are nothing else first", () => {
    expect(placesOf(theatre.setup, "camera").map(({ of }) => of)).toEqual(["stage-eye", "house-eye", "laptop.camera", "house-laptop.camera", "phone.camera", "phone.front-camera"]);
  });

  test("whoever speaks, then rows with so many seats", () => {
    const places = placesOf(theatre.setup, "seat");
    expect(places.slice(0, 4)).toEqual([{ of: "Anselm", title: "Anselm" }, { of: "Brisa", title: "Brisa" }, { of: "Wenke", title: "Wenke" }, { of: "stalls.row-1", title: "stalls, row 1", seats: 10 }]);
    expect(places).toHaveLength(12);
  });

  test("around a table the seats of the ring, and no row from the side", () => {
    expect(placesOf(council.setup, "seat").filter(({ seats }) => seats !== undefined)).toEqual([{ of: "audience", title: "audience", seats: 12 }]);
    expect(placesOf(council.setup, "side")).toEqual([]);
  });

  test("every seat of every place is one that can be looked from", () => {
    for (const one of [theatre, council]) {
      for (const { of, seats } of placesOf(one.setup, "seat")) {
        for (const name of seats === undefined ? [of] : [`${of}.seat-1`, `${of}.seat-${seats}`]) expect(lookFrom(one, "seat", name, undefined).of).toBe(name);
      }
    }
  });
});

describe("a look", () => {
  test("is from where it is asked for, written as anybody writes it", () => {
    expect(lookFrom(theatre, "seat", "Stalls.Row-3.Seat-4", undefined)).toMatchObject({ of: "stalls.row-3.seat-4", seen: { view: "seat" } });
    expect(lookFrom(theatre, "camera", "house-eye", "talk-back")).toMatchObject({ of: "house-eye", seen: { item: "talk-back" } });
    expect(lookFrom(theatre, "side", "stalls.row-2", undefined)).toMatchObject({ of: "stalls.row-2" });
  });

  test("is from the place that tells most where none is named or the name has gone", () => {
    for (const name of [undefined, "nobody", "stalls.row-99.seat-1", ""]) {
      expect(lookFrom(theatre, "camera", name, undefined).of).toBe("stage-eye");
      expect(lookFrom(theatre, "seat", name, undefined).of).toBe("stalls.row-9.seat-5");
      expect(lookFrom(theatre, "side", name, undefined).of).toMatch(/^stalls\.row-\d$/);
    }
  });

  test("says why there is none", () => {
    const bare = studyOf('setup "Talk"\nroom hall 9 m by 6 m by 3 m { chairs 12 in 3 rows }\nonline 3 people\n');
    const looked = lookFrom(bare, "camera", undefined, undefined);
    expect(looked).toEqual({ places: [], of: undefined, seen: { nothing: "There is nothing to look from: this setup has no camera." } });
    expect(lookFrom(bare, "seat", undefined, undefined).of).toBe("audience.row-3.seat-2");
  });
});
