import { describe, expect, test } from "vitest";
import { readSetup, type Setup } from "../../server/model/setup";

const read = (text: string): Setup => readSetup({ read: (path) => (path === "it.bothways" ? { text } : { problem: "none" }) }, "it.bothways");
const messages = (text: string): string[] => read(text).problems.map((p) => p.message);

const EVENING = `setup "N"
room hall 8 m by 6 m
place laptop is laptop, at lectern
place hub is access-point, at back
place up is powerline-adapter, at left
place low is powerline-adapter, at right
`;

describe("the network of a setup", () => {
  test("what a link allows, in bit/s, s, shares, dBm and dB", () => {
    const it = read(`${EVENING}radio from laptop.wifi to hub.wifi { rate 20 Mb/s measured 2026-10-07 18:40, delay 4 ms, loss 0.5 %, signal -63 dBm, margin 28 dB }\n`);
    expect(it.problems).toEqual([]);
    const facts = it.links[0]?.facts;
    expect([facts?.rate?.best, facts?.delay?.best, facts?.loss?.best, facts?.signal?.best, facts?.margin?.best]).toEqual([20e6, 0.004, 0.005, -63, 28]);
  });
  test("a powerline pair goes from adapter to adapter", () => {
    const it = read(`${EVENING}powerline from up to low, rate 18 Mb/s\n`);
    expect(it.problems).toEqual([]);
    expect(it.powerlines.map((pair) => [pair.from, pair.to, pair.facts.rate?.best])).toEqual([["up", "low", 18e6]]);
  });
  test("a connection's login, allowance, entry and version; 5 GB are 40 Gb", () => {
    const [it] = read(`${EVENING}internet venue { up 4 Mb/s, login for 90 min, allowance 5 GB, enters at hub, ipv6, shared, wired, loss 1 % }\n`).internets;
    expect([it?.login?.best, it?.allowance?.best, it?.entersAt, it?.ip, it?.shared === undefined, it?.loss?.best]).toEqual([5400, 40e9, "hub", 6, false, 0.01]);
    expect(read(`${EVENING}internet venue { allowance 40 Gb }\n`).internets[0]?.allowance?.best).toBe(40e9);
  });
  test("codec, packets and what is kept", () => {
    const it = read(`${EVENING}join laptop\ncall { codec vp9, packets 40 ms, keeps laptop.camera and laptop }\n`);
    expect(it.problems).toEqual([]);
    expect(it.traffic).toEqual({ codec: "vp9", packet: 0.04, keeps: ["laptop.camera", "laptop"] });
    expect(read(EVENING).traffic).toEqual({ codec: "vp8", packet: 0.02, keeps: [] });
  });
  test("one connection steps in for another", () => {
    const it = read(`${EVENING}internet venue { up 4 Mb/s }\ninternet mobile { up 2 Mb/s }\nfallback mobile for venue\n`);
    expect(it.problems).toEqual([]);
    expect(it.fallbacks).toEqual([{ device: "mobile", for: "venue" }]);
  });
  test("what cannot be is said in words", () => {
    expect(messages(`${EVENING}internet venue { allowance 5 }\n`)[0]).toContain("GB");
    expect(messages(`${EVENING}internet venue { login for 2 }\n`)).toHaveLength(1);
    expect(messages(`${EVENING}internet venue { enters at nowhere }\n`)[0]).toContain("nowhere");
    expect(messages(`${EVENING}powerline from up to desk\n`)[0]).toContain("desk");
    expect(messages(`${EVENING}radio from laptop.wifi to hub.wifi, signal 20 dBm\n`)[0]).toContain("0");
  });
});
