import { describe, expect, it } from "vitest";
import { editDistance, nearest } from "../../server/model/near";
import { canonical } from "../../server/model/names";
import { readSetup } from "../../server/model/setup";
import { inMemory, readText, said } from "../language/folder";

const read = (files: Readonly<Record<string, string>>, root = "evening.bothways"): ReturnType<typeof readSetup> => readSetup(inMemory(new Map(Object.entries(files))), root);

describe("a name that is not known", () => {
  it("the nearest that would fit is proposed", () => {
    expect(said(readText("talker Ines at lectren"))).toEqual(["unknown-name at “lectren”: Nothing here is called “lectren”. Was “lectern” meant?"]);
    expect(said(readText("place box is batery-loudspeaker"))).toEqual([
      "unknown-name at “batery-loudspeaker”: Nothing here is called “batery-loudspeaker”. Was “battery-loudspeaker” meant?",
    ]);
    expect(said(readText("place l is laptop\nplace p is projector\ncable from l.hdim to p.hdmi"))).toEqual([
      "unknown-name at “l.hdim”: Nothing here is called “l.hdim”. Was “l.hdmi” meant?",
    ]);
  });

  it("where none is near, some that would fit are named", () => {
    expect(said(readText("place l is laptop\njoin wurlitzer"))).toEqual(["unknown-name at “wurlitzer”: Nothing here is called “wurlitzer”. There is l."]);
    expect(said(readText("place p is projector\nplace l is laptop\ncable from p.hdmi to l.subwoofer-out"))[0]).toMatch(/There are l\.headset, l\.hdmi, .* …\.$/);
  });

  it("a row that is not there, and rows without chairs", () => {
    expect(said(readText("room hall, chairs 24 in 4 rows\nplace c is webcam, behind row 9"))).toEqual(["unknown-name at “behind row 9”: There is no row 9: audience has rows 1 to 4."]);
    expect(said(readText("room hall, chairs 24 in 4 rows\nplace c is webcam, behind row 0"))).toHaveLength(1);
    expect(said(readText("room hall, chairs stalls 24 in 4 rows\nplace c is webcam, behind row 4 of stalls"))).toEqual([]);
    expect(said(readText("place c is webcam, behind row 2"))).toEqual(["unknown-name at “behind row 2”: “row 2” wants chairs, like: chairs 24 in 4 rows."]);
  });

  it("a channel that the mixer does not have", () => {
    expect(said(readText("place desk is mixer\nmixer desk { channel voice from desk.in-1\nbus out to desk.aux-1 { holds all\nholds no vioce } }"))).toEqual([
      "unknown-name at “vioce”: This mixer has no channel “vioce”. It has voice.",
    ]);
  });
});

describe("a name of the wrong kind", () => {
  it("says what it is and what is wanted", () => {
    expect(said(readText("talker Ines at lectern\njoin Ines"))).toEqual(["wrong-name at “Ines”: “Ines” is a talker; wanted is a device."]);
    expect(said(readText("outlet porch at back\nplace l is laptop\ncable from porch to l.usb-1"))).toEqual([
      "wrong-name at “porch”: “porch” is an outlet; wanted is a port or a device. There is l.",
    ]);
  });

  it("what joins a call is a computer", () => {
    expect(said(readText("place box is battery-loudspeaker\njoin box"))).toEqual([
      "cannot-join at “box”: “box” is a loudspeaker: only a computer, a tablet or a telephone joins a call.",
    ]);
    expect(said(readText("place face is sound-interface\njoin face"))[0]).toMatch(/is an interface:/);
  });
});

describe("names are equal in any case and composition", () => {
  it("so that one may write as one speaks", () => {
    expect(said(readText("spot Pódium at front\ntalker inès at po\u0301dium\nplace lapel is lapel-microphone, on Ine\u0300s"))).toEqual([]);
    expect(canonical("Ine\u0300s")).toBe(canonical("INÈS"));
    expect(said(readText("spot Stage at front\nspot stage at back"))[0]).toMatch(/^name-taken/);
  });

  it("kinds have a space of their own, all others share one", () => {
    expect(said(readText("device laptop is laptop\nplace laptop at lectern"))).toEqual([]);
    expect(said(readText("device Ines is laptop\ntalker Ines"))).toEqual(["name-taken at “talker Ines”: The name “Ines” is taken: a device has it. Choose another."]);
    expect(said(readText("table desk at back\nspot desk at front"))).toEqual(["name-taken at “spot desk at front”: The name “desk” is taken: a table has it. Choose another."]);
    expect(said(readText("place desk is mixer\nmixer desk { channel out from desk.in-1\nbus out to desk.aux-1 }"))[0]).toMatch(/The name “out” is taken: a channel has it/);
  });
});

describe("collisions across files", () => {
  const KIT = "device box is battery-loudspeaker\n";

  it("are told where both stand, and “as” parts them", () => {
    const files = { "kit/a.bothways": KIT, "kit/b.bothways": KIT, "evening.bothways": 'use "kit/a.bothways"\nuse "kit/b.bothways"\nplace box at front' };
    const setup = read(files);
    expect(said(setup)).toEqual([
      "name-taken at “device box is battery-loudspeaker”: The name “box” is taken by a device in kit/a.bothways: choose another, or take that file in with “use … as other”.",
    ]);
    expect(setup.problems[0]?.where.path).toBe("kit/b.bothways");
    expect(setup.problems[0]?.related).toEqual([{ where: { path: "kit/a.bothways", start: 0, end: KIT.length - 1 }, message: "“box” is stated here" }]);
    const parted = read({ ...files, "evening.bothways": 'use "kit/a.bothways"\nuse "kit/b.bothways" as theirs\nplace box at front\nplace theirs.box at back' });
    expect(said(parted)).toEqual([]);
    expect([...parted.devices.keys()]).toEqual(["box", "theirs.box"]);
    expect([...parted.devices.values()].map((device) => device.place?.words)).toEqual(["at front", "at back"]);
  });

  it("a file taken in “as” finds its own names first, then those of others", () => {
    const setup = read({
      "kit/b.bothways": "kind ours is a loudspeaker { port line is xlr, takes sound }\ndevice box is ours\nplace box at stage",
      "evening.bothways": 'use "kit/b.bothways" as theirs\nspot stage at front\ndevice box is battery-loudspeaker\nplace box at back',
    });
    expect(said(setup)).toEqual([]);
    expect(setup.devices.get("theirs.box")).toMatchObject({ kind: "ours", typical: false });
    expect(setup.devices.get("theirs.box")?.place?.words).toBe("at stage");
    expect(setup.devices.get("box")?.place?.words).toBe("at back");
  });

  it("a file may place what another states", () => {
    const setup = read({
      "kit/a.bothways": KIT, "stand.bothways": "place box at front", "evening.bothways": 'use "kit/a.bothways"\nuse "stand.bothways" as there',
    });
    expect(said(setup)).toEqual([]);
    expect(setup.devices.get("box")?.place?.words).toBe("at front");
  });

  it("a kit may state a typical kind anew", () => {
    const setup = read({
      "kit.bothways": "kind webcam is a camera { view 90 deg\nport usb is usb-b, gives picture }", "evening.bothways": 'use "kit.bothways"\nplace eye is webcam, at back',
    });
    expect(said(setup)).toEqual([]);
    expect(setup.devices.get("eye")).toMatchObject({ typical: false });
    expect(setup.devices.get("eye")?.parts.find((part) => part.id === "eye")?.view).toMatchObject({ best: 90, low: 90, high: 90, from: { how: "stated" } });
  });

  it("a thing stands in one place, and joins once", () => {
    expect(said(readText("place box is battery-loudspeaker, at front\nplace box at back"))).toEqual(["placed-twice at “place box at back”: “box” is placed twice; a thing stands in one place."]);
    expect(said(readText("place l is laptop\njoin l { sends no sound }\njoin L { plays no sound }"))[0]).toMatch(/^joins-twice/);
  });
});

describe("the nearest word", () => {
  it.each([["ab", "ba", 1], ["kitten", "sitting", 3], ["", "abc", 3], ["same", "same", 0], ["place", "plcae", 1]])("%s and %s are %d apart", (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
    expect(editDistance(b, a)).toBe(distance);
  });

  it("is near enough to be meant, or there is none", () => {
    expect(nearest("nosie", ["room", "noise"])).toBe("noise");
    expect(nearest("xyz", ["room", "noise"])).toBeUndefined();
    expect(nearest("", ["a"])).toBeUndefined();
    expect(nearest("z".repeat(1000), ["z".repeat(999)])).toBeUndefined();
  });
});
