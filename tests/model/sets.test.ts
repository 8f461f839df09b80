import { describe, expect, it } from "vitest";
import { readText, said } from "../language/folder";

const MICS = "devices mic 1 to 3 is gooseneck-microphone\ndevice desk is mixer { ports in 1 to 3 is xlr, takes sound, phantom }\nplace each mic at lectern\nplace desk at operator\n";

describe("numbered devices", () => {
  it("are things of their own", () => {
    const setup = readText(`${MICS}place box is battery-loudspeaker`);
    expect(said(setup)).toEqual([]);
    expect([...setup.devices.keys()]).toEqual(["desk", "mic-1", "mic-2", "mic-3", "box"]);
    expect(setup.devices.get("mic-2")).toMatchObject({ kind: "gooseneck-microphone", type: "microphone", typical: true });
    expect(setup.devices.get("mic-2")?.place?.words).toBe("at lectern");
  });

  it("need not begin with one, and may be one", () => {
    expect([...readText("devices tv 4 to 6 is flat-display").devices.keys()]).toEqual(["tv-4", "tv-5", "tv-6"]);
    expect([...readText("devices tv 7 to 7 is flat-display").devices.keys()]).toEqual(["tv-7"]);
    expect(readText("devices mic 1 to 1000 is lapel-microphone").devices.size).toBe(1000);
  });

  it("may be named one by one", () => {
    expect(said(readText(`${MICS}cable from mic-2.plug to desk.in-1`))).toEqual([]);
    expect(said(readText(`${MICS}cable from mic-4.plug to desk.in-1`))).toEqual(["unknown-name at “mic-4.plug”: Nothing here is called “mic-4.plug”. Was “mic-1.plug” meant?"]);
  });

  it("a member that is stated by itself too is a collision", () => {
    expect(said(readText("devices mic 1 to 3 is gooseneck-microphone\ndevice mic-2 is lapel-microphone"))[0]).toMatch(/^name-taken/);
  });
});

describe("each", () => {
  it("plugs in a whole set, one to one", () => {
    const setup = readText(`${MICS}cable from each mic.plug to each desk.in`);
    expect(said(setup)).toEqual([]);
    expect(setup.links.map(({ from, to }) => `${from} ${to}`)).toEqual(["mic-1.plug desk.in-1", "mic-2.plug desk.in-2", "mic-3.plug desk.in-3"]);
  });

  it("or ends that are named", () => {
    const setup = readText(`${MICS}cable from each mic.plug to desk.in-3 and desk.in-1 and desk.in-2`);
    expect(setup.links.map(({ to }) => to)).toEqual(["desk.in-3", "desk.in-1", "desk.in-2"]);
  });

  it("unequal counts are an error, and no cable is laid", () => {
    const setup = readText(`${MICS}cable from each mic.plug to desk.in-1 and desk.in-2`);
    expect(said(setup)).toEqual(["unequal-sets at “cable from each mic.plug to desk.in-1 and desk.in-2”: There are 3 ends on one side and 2 on the other: each cable has two."]);
    expect(setup.links).toEqual([]);
  });

  it("a member without such a port", () => {
    expect(said(readText(`${MICS}cable from each mic.plgu to each desk.in`))).toEqual(["unknown-name at “mic.plgu”: There is no “mic-1.plgu”. Was “mic-1.plug” meant?"]);
  });

  it("what is no set", () => {
    expect(said(readText(`${MICS}place spare is gooseneck-microphone\ncable from each spare to desk.in-1`))[0]).toMatch(/wants a numbered set, like: devices spare 1 to 4/);
  });

  it("powers a whole set, and places it around a table", () => {
    const setup = readText(`room hall 9 m by 6 m\ntable ring at middle\n${MICS.replace("at lectern", "around ring")}outlet porch at back\nmains from porch to each mic`);
    expect(said(setup)).toEqual([]);
    expect(setup.mains.map(({ to }) => to)).toEqual(["mic-1", "mic-2", "mic-3"]);
    expect([...setup.devices.values()].flatMap((device) => (device.ring === undefined ? [] : [device.ring]))).toEqual([
      { index: 0, count: 3 }, { index: 1, count: 3 }, { index: 2, count: 3 },
    ]);
  });
});

describe("devices are described from their kind to their place, the most special last", () => {
  it("a device's own figures count more than those of its kind, and what it does not say stays", () => {
    const setup = readText("device box is battery-loudspeaker { battery 80 Wh }\nplace box at front, height 1.4 m");
    const box = setup.devices.get("box");
    expect(box?.power.battery).toMatchObject({ best: 288000, low: 288000, high: 288000, from: { how: "stated" } });
    expect(box?.power.draws).toMatchObject({ best: 8, low: 4, high: 15, from: { how: "kind" } });
    expect(box?.height).toMatchObject({ best: 1.4 });
  });

  it("a part is described anew without losing what the kind says of it", () => {
    const setup = readText("device l is laptop { part camera is a camera { view 80 deg } }");
    expect(said(setup)).toEqual([]);
    const parts = setup.devices.get("l")?.parts ?? [];
    expect(parts.map((part) => part.id)).toEqual(["l.screen", "l.camera", "l.microphone", "l.loudspeaker"]);
    expect(parts.find((part) => part.id === "l.camera")?.view).toMatchObject({ best: 80, from: { how: "stated" } });
    expect(parts.find((part) => part.id === "l.screen")?.diagonal).toMatchObject({ best: 14 * 0.0254, from: { how: "kind" } });
  });

  it("a port is described anew whole", () => {
    const setup = readText("device desk is mixer { ports in 1 to 12 is jack-6, takes sound }");
    const inputs = setup.devices.get("desk")?.ports.filter((port) => port.name.startsWith("in-")) ?? [];
    expect(inputs.map((port) => [port.name, port.connector, port.phantom])).toEqual(Array.from({ length: 12 }, (_, i) => [`in-${i + 1}`, "jack-6", false]));
  });

  it("a set of ports that is stated anew is the whole set; two that make one up stand side by side", () => {
    const names = (text: string): string[] => (readText(text).devices.get("desk")?.ports ?? []).map((port) => port.name).filter((name) => name.startsWith("in-"));
    expect(names("device desk is mixer { ports in 1 to 2 is xlr, takes sound }")).toEqual(["in-1", "in-2"]);
    expect(names("device desk is mixer")).toHaveLength(8);
    expect(names("device desk is mixer { ports in 1 to 2 is xlr, takes sound\nports in 3 to 4 is jack-6, takes sound }")).toEqual(["in-1", "in-2", "in-3", "in-4"]);
    expect(names("device desk is mixer { port in-3 is jack-6, takes sound }")).toHaveLength(8);
  });

  it("what a port gives and takes follows from its words, else from its connector; a host takes what others give", () => {
    const setup = readText("kind thing is a computer { port one is usb-c, gives picture and power at 15 W\nport two is usb-a, host\nport three is ethernet }\ndevice t is thing");
    expect(said(setup)).toEqual([]);
    const port = (name: string): [string[], string[]] => {
      const found = setup.devices.get("t")?.ports.find((one) => one.name === name);
      return [[...(found?.gives ?? [])], [...(found?.takes ?? [])]];
    };
    expect(port("one")).toEqual([["picture", "power"], []]);
    expect(port("two")).toEqual([["sound", "picture", "network"], ["sound", "picture", "network"]]);
    expect(port("three")).toEqual([["network"], ["network"]]);
    expect(setup.devices.get("t")?.ports[0]?.givesPower).toMatchObject({ best: 15 });
  });

  it("an owner, and what it runs on", () => {
    const setup = readText('device box is battery-loudspeaker, owned by "the choir"\ndevice cam is webcam, borrowed from Teo');
    expect(setup.devices.get("box")).toMatchObject({ owner: "the choir" });
    expect(setup.devices.get("cam")).toMatchObject({ owner: "Teo" });
    expect([...(setup.devices.get("box")?.power.on ?? [])]).toEqual(["battery", "mains"]);
  });
});
