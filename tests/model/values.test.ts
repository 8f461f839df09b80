import { describe, expect, it } from "vitest";
import { VOCABULARY } from "../../grammar/vocabulary";
import { isAssumed, type Ranged } from "../../server/model/ranged";
import { defaultOf } from "../../server/model/defaults";
import { Trial } from "../../server/model/trial";
import { readText, said } from "../language/folder";

const noise = (words: string): Ranged => readText(`room hall { noise ${words} }`).room.noise;

describe("a value keeps where it comes from", () => {
  it("stated, measured, guessed", () => {
    expect(noise("38 dBA")).toMatchObject({ low: 38, best: 38, high: 38, from: { how: "stated" } });
    expect(noise("38 dBA measured 2026-10-07 18:40")).toMatchObject({ low: 38, high: 38, from: { how: "measured", when: "2026-10-07 18:40" } });
    expect(noise("about 38 dBA")).toMatchObject({ low: 35, high: 41, from: { how: "guessed" } });
    expect(noise("36 to 40 dBA")).toMatchObject({ low: 36, best: 38, high: 40, from: { how: "stated" } });
  });

  it("guessed: five decibels or a quarter either way, never beyond what can be; a range of one's own stays", () => {
    expect(noise("38 dBA guessed")).toMatchObject({ low: 33, best: 38, high: 43, from: { how: "guessed" } });
    expect(noise("36 to 40 dBA guessed")).toMatchObject({ low: 36, high: 40, from: { how: "guessed" } });
    expect(noise("12 dBA guessed")).toMatchObject({ low: 10, high: 17 });
    expect(readText("room hall 8 m by 6 m guessed").room).toMatchObject({ length: { low: 6, high: 10 }, width: { low: 4.5, high: 7.5 } });
    const wide = readText("device eye is webcam { view 170 deg guessed }").devices.get("eye")?.parts.find((part) => part.id === "eye")?.view;
    expect(wide).toMatchObject({ best: 170, high: 180 });
  });

  it("points to the statement", () => {
    const text = "room hall { floor wood\nnoise 38 dBA }";
    const { from } = readText(text).room.noise;
    expect(text.slice(from.where?.start, from.where?.end)).toBe("noise 38 dBA");
  });

  it("of a typical kind: assumed, with its source and no place in the text", () => {
    const draws = readText("device l is laptop").devices.get("l")?.power.draws;
    expect(draws).toMatchObject({ from: { how: "kind", source: "measured means of 2006 and nameplate figures", where: undefined } });
    expect(draws && isAssumed(draws)).toBe(true);
  });
});

describe("what is not stated is what the vocabulary says of it, marked as assumed", () => {
  it("an empty setup has a room all the same", () => {
    const { room, online, reserve } = readText('setup "October"');
    for (const [value, by] of [
      [room.length, defaultOf("room", "file", "length")], [room.width, defaultOf("room", "file", "width")], [room.height, defaultOf("room", "file", "height")],
      [room.noise, defaultOf("noise", "room", "level")], [online, defaultOf("online", "meeting", "people")], [reserve, defaultOf("reserve", "meeting", "time")],
    ] as const) {
      expect(value).toMatchObject({ low: by.low, best: by.best, high: by.high, from: { how: "assumed", source: by.source } });
    }
    expect(room.where).toBeUndefined();
    expect(room.floor.assumed).toBe(true);
  });

  it("unknown is as if it were not said", () => {
    const silent = readText('setup "x"\nroom hall');
    const unknown = readText('setup "x"\nroom hall unknown by unknown by unknown { noise unknown, reverberation unknown }\nonline unknown\nmeeting { reserve unknown }\ninternet x { up unknown }');
    expect(said(unknown)).toEqual([]);
    for (const key of ["length", "width", "height", "noise"] as const) expect(unknown.room[key]).toEqual(silent.room[key]);
    expect(unknown.room.reverberation).toBeUndefined();
    expect(unknown.online).toEqual(silent.online);
    expect(unknown.reserve).toEqual(silent.reserve);
    expect(unknown.internets[0]?.up).toBeUndefined();
    expect(readText("device l is laptop { draws unknown }").devices.get("l")?.power.draws).toMatchObject({ best: 22, from: { how: "kind" } });
  });

  it("the size of a table is assumed where it is not stated, not taken for stated", () => {
    const { tables } = readText("room hall\ntable ring at middle\ntable desk at back, size 1.4 m by 0.7 m").room;
    expect(tables.get("ring")?.length).toMatchObject({ low: 1.2, best: 1.6, high: 2.4, from: { how: "assumed" } });
    expect(tables.get("desk")?.length).toMatchObject({ low: 1.4, high: 1.4, from: { how: "stated" } });
  });

  it("every default that the vocabulary gives to a slot that must be filled can be asked for", () => {
    const defaults = VOCABULARY.flatMap((row) => row.slots.filter((slot) => slot.default !== undefined).map((slot) => [row.head, row.within[0] ?? "file", slot.id] as const));
    expect(defaults.length).toBeGreaterThan(8);
    for (const [head, owner, slot] of defaults) expect(defaultOf(head, owner, slot).best).toBeGreaterThan(0);
    expect(() => defaultOf("room", "file", "colour")).toThrow(/no default/);
  });
});

describe("this evening", () => {
  const HALL = "room hall 9 m by 6 m { noise 38 dBA\nfloor wood\nchairs 24 in 4 rows\nspot stage at front\noutlet porch at back, sockets 2 }\n";

  it("what differs takes the place of what the room says, and all else stays", () => {
    const setup = readText(`${HALL}in hall { noise 44 dBA\nchairs 40 in 5 rows\nspot stage at left\ntable extra at middle }`);
    expect(said(setup)).toEqual([]);
    expect(setup.room.noise.best).toBe(44);
    expect(setup.room.floor).toEqual({ finish: "wood", assumed: false });
    expect(setup.room.seats.map(({ name, count, rows }) => [name, count, rows])).toEqual([["audience", 40, 5]]);
    expect(setup.room.spots.get("stage")?.place?.words).toBe("at left");
    expect([...setup.room.tables.keys()]).toEqual(["extra"]);
    expect(setup.room.outlets.size).toBe(1);
  });

  it("but the same thing twice in one room is a collision", () => {
    expect(said(readText("room hall { chairs 24 in 4 rows\nchairs 12 in 2 rows }"))[0]).toMatch(/^name-taken/);
  });

  it("of several rooms, the one that is meant", () => {
    const two = "room hall 9 m by 6 m\nroom barn 15 m by 8 m\n";
    expect(readText(two).problems.map((p) => [p.code, p.severity])).toEqual([["which-room", "warning"]]);
    const meant = readText(`${two}in hall { noise 40 dBA }`);
    expect(said(meant)).toEqual([]);
    expect(meant.room).toMatchObject({ name: "hall", noise: { best: 40 } });
  });

  it("a clap tells the reverberation, roughly; a figure counts more", () => {
    expect(readText("room hall { clap dies in 1 s }").room.reverberation).toMatchObject({ low: 0.75, best: 1, high: 1.3, from: { how: "guessed" } });
    expect(readText("room hall { clap dies in 1 s, reverberation 0.8 s }").room.reverberation).toMatchObject({ low: 0.8, high: 0.8 });
  });
});

describe("notes", () => {
  it("are kept wherever they stand, comments are not", () => {
    const setup = readText('note "one" # never\nroom hall { note "two" }\nplace l is laptop, note "three"\njoin l { note "four" }');
    expect(said(setup)).toEqual([]);
    expect(setup.notes.map((note) => note.text)).toEqual(["one", "two", "three", "four"]);
  });
});

describe("what the author has to say on risks", () => {
  it("is kept with its reason", () => {
    const setup = readText('place l is laptop\naccept one-device-carries-all of l at 3 dB because "it is new"\nlimit uplink-short 80 %\nplace s is laptop\nfallback s for l');
    expect(said(setup)).toEqual([]);
    expect(setup.accepts).toMatchObject([{ code: "one-device-carries-all", of: ["l"], at: 3, because: "it is new" }]);
    expect(setup.limits).toMatchObject([{ code: "uplink-short", value: 0.8 }]);
    expect(setup.fallbacks).toEqual([{ device: "s", for: "l" }]);
  });
});

describe("a trial", () => {
  const open: Ranged = { id: "a", label: "a", dimension: "length", low: 1, best: 2, high: 4, from: { how: "stated" } };
  const other: Ranged = { ...open, id: "b" };
  const closed: Ranged = { ...open, id: "c", low: 2, high: 2 };

  it("has every value at its best guess, but for those at one of their ends", () => {
    expect(new Trial().value(open)).toBe(2);
    expect(new Trial(new Map([["a", "low"]])).value(open)).toBe(1);
    expect(new Trial(new Map([["a", "high"]])).value(open)).toBe(4);
    expect(new Trial(new Map([["a", "high"]])).value(other)).toBe(2);
    expect(new Trial(new Map([["c", "high"]])).value(closed)).toBe(2);
    expect(new Trial().holds({ ...open, low: 0, best: 1, high: 1 })).toBe(true);
  });

  it("notes which open values were read, and only those", () => {
    const trial = new Trial();
    const { result, read } = trial.trace(() => trial.value(open) + trial.value(closed));
    expect(result).toBe(4);
    expect([...read.keys()]).toEqual(["a"]);
  });

  it("notes what an inner trace read for the outer one too, also where it threw", () => {
    const trial = new Trial();
    const { read } = trial.trace(() => {
      expect([...trial.trace(() => trial.value(other)).read.keys()]).toEqual(["b"]);
      expect(() => trial.trace(() => { trial.value(open); throw new Error("x"); })).toThrow("x");
    });
    expect([...read.keys()].sort()).toEqual(["a", "b"]);
  });

  it("keeps what was computed, once for each key, and everybody who asks has read what it read", () => {
    const trial = new Trial();
    let times = 0;
    const make = (): number => {
      times += 1;
      return trial.value(open);
    };
    expect(trial.keep("k", make)).toBe(2);
    const { result, read } = trial.trace(() => trial.keep("k", make) + trial.keep("outer", () => trial.keep("k", make)));
    expect(result).toBe(4);
    expect(times).toBe(1);
    expect([...read.keys()]).toEqual(["a"]);
    expect([...trial.trace(() => trial.keep("outer", () => 0)).read.keys()]).toEqual(["a"]);
  });
});
