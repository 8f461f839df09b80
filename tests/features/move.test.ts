/** Moving things in the floor plan: what is written, what of the text stays, and where it leads. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { move, type Move } from "../../server/features/move";
import { applyEdits } from "../../server/model/edits";
import type { Texts } from "../../server/model/files";
import { readSetup } from "../../server/model/setup";
import { Trial } from "../../server/model/trial";
import { standOf } from "../../server/signal/stands";

const FILE = "evening.bothways";
const ROOM = `setup "Fern society"
room hall 9.2 m by 6.4 m by 3.1 m {
  chairs 24 in 4 rows { first 3.2 m, pitch 0.9 m }
  spot lectern at (1.0 m, 2.6 m)
  table desk at (7 m, 2 m), size 2 m by 1 m
  outlet plug at back
}
`;
const textsOf = (text: string): Texts => ({ read: (path) => (path === FILE ? { text } : { problem: "there is no such file" }) });

/** The text after a move; throws where it was refused. */
function after(lines: string, wanted: Move): string {
  const text = ROOM + lines;
  const done = move(textsOf(text), FILE, wanted);
  if ("refused" in done) throw new Error(done.refused);
  return applyEdits(text, done.edits).slice(ROOM.length);
}
const refusal = (lines: string, wanted: Move): string => {
  const done = move(textsOf(ROOM + lines), FILE, wanted);
  return "refused" in done ? done.refused : "moved";
};
const to = (name: string, x: number, y: number, more: Partial<Move> = {}): Move => ({ what: "place", name, x, y, ...more });

describe("a device that is dropped somewhere", () => {
  it.each([
    ["at a point gets another point", "place box is battery-loudspeaker, at (1.0 m, 5.0 m), aim audience   # mine\n", to("box", 2.04, 4.37), "place box is battery-loudspeaker, at (2.0 m, 4.4 m), aim audience   # mine\n"],
    ["keeps a stated height", "place box is battery-loudspeaker, at (1.0 m, 5.0 m, 2.25 m)\n", to("box", 2, 4), "place box is battery-loudspeaker, at (2.0 m, 4.0 m, 2.25 m)\n"],
    ["stays behind a row where it is behind it", "place cam is webcam, behind row 3, aim lectern\n", to("cam", 6.1, 3.2), "place cam is webcam, 1.1 m behind row 3, aim lectern\n"],
    ["takes another distance where one is stated", "place cam is webcam, 0.5 m behind row 3\n", to("cam", 6.2, 3.2), "place cam is webcam, 1.2 m behind row 3\n"],
    ["gets a point where the relation holds no longer", "place cam is webcam, behind row 3, aim lectern\n", to("cam", 6.1, 5.5), "place cam is webcam, at (6.1 m, 5.5 m), aim lectern\n"],
    ["stays on the table that it is still on", "place laptop is laptop, on desk\n", to("laptop", 7.5, 2.2), "place laptop is laptop, on desk at (7.5 m, 2.2 m)\n"],
    ["leaves the table that it is no longer on", "place laptop is laptop, on desk\n", to("laptop", 4, 2), "place laptop is laptop, at (4.0 m, 2.0 m)\n"],
    ["that had no place gets one", "place laptop is laptop\n", to("laptop", 4, 2), "place laptop is laptop, at (4.0 m, 2.0 m)\n"],
    ["is kept in the room", "place box is battery-loudspeaker, at (1.0 m, 5.0 m)\n", to("box", 99, -3), "place box is battery-loudspeaker, at (9.2 m, 0.0 m)\n"],
    ["is changed in its block", "place box is battery-loudspeaker, at (1.0 m, 5.0 m) {\n  aim audience   # all\n}\n", to("box", 3, 3), "place box is battery-loudspeaker, at (3.0 m, 3.0 m) {\n  aim audience   # all\n}\n"],
    ["may be somebody who speaks", "talker Ines at lectern, repeats audience\n", to("Ines", 2, 2), "talker Ines at (2.0 m, 2.0 m), repeats audience\n"],
  ])("%s", (_, before, wanted, expected) => expect(after(before, wanted)).toBe(expected));

  it("is not written where it hardly moves", () => expect(after("place box is battery-loudspeaker, at (1.0 m, 5.0 m)\n", to("box", 1.02, 5.01))).toBe("place box is battery-loudspeaker, at (1.0 m, 5.0 m)\n"));

  it.each([
    ["worn", "talker Ines at lectern\nplace lapel is lapel-microphone, on Ines\n", to("lapel", 2, 2), "goes with Ines"],
    ["one of a ring", "devices mic 1 to 4 is gooseneck-microphone\nplace each mic around desk\n", to("mic-2", 2, 2), "together with others"],
    ["a fact of the room", "", to("plug", 2, 2), "a fact of the room"],
    ["unknown", "", to("nobody", 2, 2), "no “nobody”"],
    ["nowhere", "place box is battery-loudspeaker, at left\n", to("box", NaN, 2), "no place"],
  ])("is refused where it is %s", (_, before, wanted, expected) => expect(refusal(before, wanted)).toContain(expected));

  it("may be a fact of the room where that is asked for", () => {
    const done = move(textsOf(ROOM), FILE, to("plug", 4, 0.1, { facts: true }));
    expect("edits" in done && applyEdits(ROOM, done.edits)).toBe(ROOM.replace("outlet plug at back", "outlet plug at (4.0 m, 0.1 m)"));
  });

  it("is always where it was dropped, and nothing else of the text changes", () => {
    const places = fc.constantFrom("behind row 2", "0.7 m before lectern", "beside front-screen", "near front", "at operator", "on desk", "at left front corner", "between lectern and front", "at (3 m, 3 m)");
    fc.assert(fc.property(places, fc.integer({ min: 1, max: 91 }), fc.integer({ min: 1, max: 63 }), (place, x, y) => {
      const text = `${ROOM}place cam is webcam, ${place}, aim lectern   # a note\nplace other is webcam, at left\n`;
      const done = move(textsOf(text), FILE, to("cam", x / 10, y / 10));
      if ("refused" in done) throw new Error(done.refused);
      const then = readSetup(textsOf(applyEdits(text, done.edits)), FILE);
      expect(then.problems).toEqual([]);
      const cam = then.devices.get("cam");
      const at = cam === undefined ? undefined : standOf(then, cam, new Trial());
      expect(Math.hypot((at?.x ?? NaN) - x / 10, (at?.y ?? NaN) - y / 10)).toBeLessThan(0.13);
      const written = applyEdits(text, done.edits);
      expect(written.startsWith(`${ROOM}place cam is webcam, `)).toBe(true);
      expect(written.endsWith(", aim lectern   # a note\nplace other is webcam, at left\n")).toBe(true);
    }), { numRuns: 60 });
  });
});

describe("what something points at", () => {
  const CAM = "talker Ines at lectern\nplace cam is webcam, at (5 m, 3 m), aim audience\n";
  it("is named where somebody or something is there", () => expect(after(CAM, to("cam", 1.2, 2.5, { what: "aim" }))).toBe(CAM.replace("aim audience", "aim Ines")));
  it("is a point elsewhere", () => expect(after(CAM, to("cam", 2, 6, { what: "aim" }))).toMatch(/aim (at )?\(2\.0 m, 6\.0 m, 1\.2 m\)\n$/u));
  it("is written where nothing was said", () => expect(after(CAM.replace(", aim audience", ""), to("cam", 1.2, 2.5, { what: "aim" }))).toMatch(/place cam is webcam, at \(5 m, 3 m\)(, aim Ines| \{ aim Ines \})\n$/u));
});

describe("a row of seats that is dropped somewhere", () => {
  const moved = (x: number, row: number): string => {
    const done = move(textsOf(ROOM), FILE, { what: "row", name: "audience", row, x, y: 3 });
    return "refused" in done ? done.refused : applyEdits(ROOM, done.edits);
  };
  it("takes all rows with it", () => expect(moved(4.5, 2)).toBe(ROOM.replace("first 3.2 m", "first 3.6 m")));
  it("does not leave the room", () => expect(moved(9.1, 1)).toContain("would not go into the room"));
  it("is refused where there are no such seats", () => {
    expect(refusal("", { what: "row", name: "balcony", row: 1, x: 3, y: 3 })).toContain("no seats “balcony”");
    expect(refusal("", { what: "row", name: "audience", row: 9, x: 3, y: 3 })).toContain("no row 9");
  });
});
