/** From what somebody notices to where to look in this very setup. */
import { describe, expect, test } from "vitest";
import { CATALOGUE } from "../../server/checks/catalogue";
import { likeliest, suspectsOf } from "../../server/views/symptoms/chain";
import { SYMPTOMS } from "../../server/views/symptoms/families";
import { symptomLike } from "../../server/views/symptoms/like";
import { judged } from "../catalogue/harness";
import { PAIRS } from "../catalogue/pairs";
import { hall, IN_ORDER } from "./setups";

describe("from what somebody notices to where to look", () => {
  const look = (text: string, id: string): string[] => suspectsOf(judged(text), SYMPTOMS.find((s) => s.id === id) ?? expect.fail(id)).map((s) => s.name);

  test("an echo: a second device that should be silent before the one that plays", () => {
    const text = hall(`${IN_ORDER}place phone is phone, at (3 m, 6 m)\njoin phone { sends no sound, plays no sound }\n`);
    expect(look(text, "echo").slice(0, 2)).toEqual(["phone", "laptop"]);
    // What the study found comes before what is merely likely.
    const live = look(hall(`${IN_ORDER}place phone is phone, at (3 m, 6 m)\njoin phone\n`), "echo");
    expect(live[0]).toContain("phone");
  });

  test("nothing heard online: the computer's setting, then the microphone's battery, then its cable", () => {
    expect(look(hall(IN_ORDER), "silent-online").slice(0, 3)).toEqual(["laptop", "lapel", "the cable from lapel to laptop"]);
  });

  test("a black picture: a cable that is not there comes first", () => {
    const text = hall(IN_ORDER).replace("cable from laptop.hdmi to beamer.hdmi\n", "");
    expect(look(text, "black")[0]).toMatch(/laptop|beamer/);
    expect(suspectsOf(judged(text), SYMPTOMS.find((s) => s.id === "black") ?? expect.fail())[0]?.look).toMatch(/nothing connects/i);
  });

  test("voices break up: the camera of the device without sound is switched off first", () => {
    const text = hall(`${IN_ORDER}place phone is phone, at (3 m, 6 m)\njoin phone { sends no sound, plays no sound, sends picture }\n`);
    expect(look(text, "robot")[0]).toBe("phone.camera");
  });

  test.each([
    ["they hear themselves", "echo"], ["robot voice", "robot"], ["black picture", "black"], ["nobody hears the back row", "back-row"], ["it howls", "howl"], ["they can't hear us", "silent-online"],
  ])("“%s” is told as %s", (words, id) => expect(symptomLike(words)?.symptom.id).toBe(id));

  test("what is no symptom is none", () => expect(symptomLike("zzz qqq")).toBeUndefined());
});

describe("every symptom of the catalogue", () => {
  test("belongs to a family, and no family names a code that is none", () => {
    const known = new Set(SYMPTOMS.flatMap((symptom) => symptom.codes));
    expect(CATALOGUE.filter((entry) => !known.has(entry.code)).map((entry) => entry.code)).toEqual([]);
    expect([...known].filter((code) => !CATALOGUE.some((entry) => entry.code === code))).toEqual([]);
    expect(new Set(SYMPTOMS.map((symptom) => symptom.id)).size).toBe(SYMPTOMS.length);
  });

  const told = CATALOGUE.flatMap((entry) => entry.symptoms.map((words) => [words, entry.code] as const));
  test.each(told)("“%s” of %s leads to a family of that code", (words, code) => {
    const found = symptomLike(words);
    // Two codes may list the same words: then either will do.
    const listed = CATALOGUE.filter((entry) => entry.symptoms.includes(words)).map((entry) => entry.code);
    expect(found?.symptom.codes.some((one) => one === code || listed.includes(one)), found?.symptom.id).toBe(true);
  });

  const evening = judged(hall(`${IN_ORDER}place loop is hearing-loop-amplifier, at back\ncall { captions, records }\n`));
  test.each(SYMPTOMS.map((symptom) => [symptom.says, symptom] as const))("“%s” has a chain of this very setup", (_says, symptom) => {
    const chain = suspectsOf(evening, symptom);
    expect(chain.length).toBeGreaterThan(0);
    const names = [...evening.setup.devices.values()].map((device) => device.name).concat([...evening.setup.voices.keys()], ["venue", "Marit", "Teo", "Ute"]);
    expect(chain.some((one) => names.some((name) => `${one.name} ${one.look}`.toLowerCase().includes(name.toLowerCase()))), JSON.stringify(chain)).toBe(true);
  });

  test.each(PAIRS.filter((pair) => pair.severity !== "plan").map((pair) => [pair.code, pair.about, pair] as const).filter(([code], i, all) => all.findIndex(([other]) => other === code) === i).filter((_, i) => i % 6 === 0))("%s where it is raised (%s) is the first thing to look at", (code, _about, pair) => {
    const family = SYMPTOMS.find((symptom) => symptom.codes.includes(code)) ?? expect.fail(code);
    const study = judged(pair.raises, pair.beside);
    const finding = study.findings.flatMap((f) => [f, ...f.folded]).find((f) => f.code === code) ?? expect.fail(code);
    if (code === "uncovered-direction") return;
    expect(suspectsOf(study, family, code)[0]?.look).toBe(finding.message.replace(/\.$/, ""));
  });
});

describe("in somebody's own words", () => {
  test.each([
    ["grandma at home says she hears herself", "echo"], ["we can't hear them", "silent-room"], ["they can't hear us at all", "silent-online"], ["the wifi is bad and the video stutters", "robot"],
    ["the beamer shows no picture", "black"], ["letters on the slides are too small", "small"], ["somebody's head is in front of the screen", "hidden"], ["the loudspeaker whistles", "howl"], ["we don't see them", "black"], ["they don't see us", "unseen"],
    ["the battery of the microphone died", "dead"], ["the sound lags behind the picture", "out-of-step"], ["everybody was thrown out of the call", "cut-off"], ["the hearing loop is silent", "loop"], ["the subtitles are wrong", "captions"],
    ["people wait to be let in", "no-entry"], ["the choir vanishes online", "music"], ["it hurts my ears", "loud"], ["the faces are too dark", "badly-seen"],
  ])("“%s” is told as %s", (words, id) => expect(symptomLike(words)?.symptom.id).toBe(id));

  test("a word that every object has is no symptom", () => {
    expect(symptomLike("constructor")).toBeUndefined();
    expect(symptomLike("__proto__ toString")).toBeUndefined();
    expect(symptomLike("")).toBeUndefined();
  });
});

describe("the likeliest for a setup", () => {
  test("what the study warns of comes before what merely happens, and what is not there is left out", () => {
    const calm = likeliest(judged(hall(IN_ORDER))).map((symptom) => symptom.id);
    expect(calm[0]).toBe("echo");
    expect(calm).not.toContain("loop");
    const thin = likeliest(judged(hall(IN_ORDER, "internet venue { up 300 kb/s measured 2026-10-07 18:40, wired }")));
    expect(thin[0]?.id).toBe("robot");
    expect(likeliest(judged(hall("")))).toEqual([]);
  });
});
