import { describe, expect, it } from "vitest";
import { callState } from "../../server/signal/call-state";
import { onlineView } from "../../server/signal/online-view";
import { readText, said } from "../language/folder";

const evening = (lines: string) => readText(`setup "Evening"\nroom 8 m by 6 m\ntalker Ines at lectern\nitem talk, talkers Ines\nitem questions\nplace laptop is laptop, at lectern\nplace phone is phone, at front\n${lines}\n`);

describe("the service that the call runs on", () => {
  it("is read as stated", () => {
    const setup = evening("service {\n  ends after 40 min\n  capacity 25 people\n  devices-per-account 1\n  admission gated\n  run-by named\n  enters muted\n  sends picture at 720p30 of 1.7 Mb/s\n  dial-in offered\n  reopens at 19:30\n  reopens at 19:00\n}");
    expect(said(setup)).toEqual([]);
    const { service } = setup;
    expect([service.endsAfter?.best, service.capacity.best, service.devicesPerAccount?.best, service.sends?.most?.best]).toEqual([2400, 25, 1, 1.7e6]);
    expect([service.admission, service.runBy, service.enters, service.dialIn, service.captions]).toEqual(["gated", "named", "muted", "offered", undefined]);
    expect(service.reopens).toEqual([19 * 60, 19 * 60 + 30]);
    expect(service.capacity.from.how).toBe("stated");
  });

  it("is taken as most have it where nothing is said, and that is marked", () => {
    const { service } = evening("");
    expect(service.where).toBeUndefined();
    expect(service.capacity).toMatchObject({ low: 50, best: 100, high: 500, from: { how: "assumed" } });
    expect([service.endsAfter, service.devicesPerAccount]).toEqual([undefined, undefined]);
  });

  it("stands once", () => {
    expect(said(evening("service { enters live }\nservice { enters muted }"))).toEqual(["said-twice at “service”: “service” is stated twice here; keep one."]);
  });

  it("cuts a picture down to what it takes, and cancels on every device that does not say otherwise", () => {
    const state = (lines: string) => callState(evening(`service { sends picture at 360p15, cancels no echo }\njoin laptop { ${lines} }`), "talk")[0];
    expect(state("sends picture from laptop.camera at 1080p30")?.pictures).toMatchObject([{ width: 640, height: 360, rate: 15 }]);
    expect(state("sends picture from laptop.camera at 180p5")?.pictures).toMatchObject([{ height: 180, rate: 5 }]);
    expect(state("plays sound")?.cancels).toMatchObject({ low: 0, best: 0, high: 0 });
    expect(state("cancels echo")?.cancels).toMatchObject({ low: 1, best: 1, high: 1 });
  });
});

describe("what the people online see, item by item", () => {
  const view = (lines: string, item = "talk") => {
    const setup = evening(lines);
    expect(said(setup)).toEqual([]);
    const { seen, assumed } = onlineView(setup, item);
    return { seen: seen.map((one) => `${one.what} ${one.name}${one.large ? " large" : ""}`), assumed };
  };
  const TWO = "join laptop { sends sound, sends picture from laptop.camera, shows slides on laptop.screen during talk }\njoin phone { sends no sound, plays no sound, sends picture from phone.camera }\n";

  it("what is presented is large, else the picture of the device that sends the sound", () => {
    expect(view(TWO)).toEqual({ seen: ["content laptop.screen large", "picture laptop.camera", "picture phone.camera"], assumed: true });
    expect(view(TWO, "questions")).toEqual({ seen: ["picture laptop.camera large", "picture phone.camera"], assumed: true });
  });

  it("unless the text says otherwise, for all items or for some", () => {
    expect(view(`${TWO}call { large phone during questions }`, "questions")).toEqual({ seen: ["picture laptop.camera", "picture phone.camera large"], assumed: false });
    expect(view(`${TWO}call { large phone during questions }`)).toMatchObject({ assumed: true });
    expect(view(`${TWO}call { large alike }`).seen).toEqual(["content laptop.screen", "picture laptop.camera", "picture phone.camera"]);
    expect(view(`${TWO}call { large speaker }`).seen).toEqual(["content laptop.screen", "picture laptop.camera large", "picture phone.camera"]);
  });

  it("content is sent from a display of its own, and is not where the text takes it back", () => {
    expect(view("join laptop { sends content from laptop.screen }").seen[0]).toBe("content laptop.screen large");
    expect(view("join laptop { shows slides on laptop.screen, sends no content }").seen).toEqual(["picture laptop.camera large"]);
  });
});
