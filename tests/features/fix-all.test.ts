/** What is set right at one go: settings that have one remedy, and nothing that somebody must think about. */
import { describe, expect, it } from "vitest";
import { documentation } from "../../server/features/completion-resolve";
import { completion } from "../../server/features/completion";
import { isSetting, MOST_STUDIES, settingsMended } from "../../server/features/fix-all";
import { applyEdits } from "../../server/model/edits";
import { study } from "../../server/study";
import { inMemory } from "../language/folder";
import { hall, IN_ORDER } from "../study/setups";
import { asked, marked } from "./marked";

const FILE = "evening.bothways";

/** The text after it, and how many pieces that took. */
function mended(text: string, most?: number): string {
  const texts = inMemory(new Map([[FILE, text]]));
  const work = settingsMended(texts, study(texts, FILE), most);
  for (; ;) {
    const step = work.next();
    if (step.done === true) return applyEdits(text, step.value);
  }
}
const codes = (text: string): string[] => study(inMemory(new Map([[FILE, text]])), FILE).findings.map((one) => one.code);

const phone = (place: string): string => hall(`${IN_ORDER}place phone is phone, at (3 m, 6 m), aim audience${place}\njoin phone { sends no sound, plays no sound, sends picture }\n`);
const TWO = phone(", calls on").replace("lapel-microphone, on Ines", "lapel-microphone, on Ines { gain automatic }");

describe("setting everything right", () => {
  it("takes one setting after the other, until nothing is left", () => {
    expect(codes(TWO)).toEqual(expect.arrayContaining(["phone-interrupted", "canceller-moving"]));
    const after = mended(TWO);
    expect(after).toBe(TWO.replace("calls on", "calls off").replace("gain automatic", "gain fixed"));
    expect(mended(after)).toBe(after);
  });

  it("studies so many copies and no more, and leaves the text right as far as it came", () => {
    const first = TWO.replace("calls on", "calls off");
    const second = TWO.replace("gain automatic", "gain fixed");
    const after = Array.from({ length: MOST_STUDIES + 1 }, (_, most) => mended(TWO, most));
    expect(after[1]).toBe(TWO);
    expect(after.at(-1)).toBe(mended(TWO));
    // With little more than the first setting asks for, that one is set, and the other left.
    const half = after.filter((text) => text === first || text === second);
    expect(half.length).toBeGreaterThan(0);
    expect(new Set(half).size).toBe(1);
    const order = after.map((text) => (text === TWO ? 0 : half.includes(text) ? 1 : 2));
    expect([...order].sort((a, b) => a - b)).toEqual(order);
  }, 60_000);

  it("leaves a reason alone that somebody gave, and what was measured", () => {
    const meant = phone(', calls on because "the caretaker rings"');
    expect(mended(meant)).toBe(meant);
  });

  it("leaves cables, places and people to the author", () => {
    const unplugged = hall(IN_ORDER.replace(/^mains .*\n/gmu, ""));
    expect(mended(unplugged)).toBe(unplugged);
    const idle = hall(IN_ORDER);
    expect(mended(idle)).toBe(idle);
  });

  it("does nothing in a text with a mistake", () => {
    const broken = `${TWO}plaice phone\n`;
    expect(mended(broken)).toBe(broken);
  });

  it("tells a setting from everything else by what the edits change", () => {
    const texts = inMemory(new Map([[FILE, TWO]]));
    const judged = study(texts, FILE);
    const changed = (sought: string, newText: string): boolean => {
      const start = TWO.indexOf(sought);
      expect(start, sought).toBeGreaterThanOrEqual(0);
      return isSetting(judged, [{ path: FILE, start, end: start + sought.length, newText }]);
    };
    expect(changed("calls on", "calls off")).toBe(true);
    expect(changed("sends picture", "sends no picture")).toBe(true);
    expect(changed("at (3 m, 6 m)", "at (4 m, 6 m)")).toBe(false);
    expect(changed("aim audience", "aim Ines")).toBe(false);
    expect(changed("calls on", "calls off, windshield")).toBe(false);
    expect(isSetting(judged, [{ path: FILE, start: TWO.length, end: TWO.length, newText: "mains from left-wall to phone\n" }])).toBe(false);
    expect(isSetting(judged, [{ path: "kit.bothways", start: 0, end: 0, newText: "x" }])).toBe(false);
    expect(isSetting(judged, [])).toBe(false);
  });
});

describe("what is said of an offer", () => {
  const said = (text: string, label: string): string => {
    const of = asked(marked(text));
    const offer = completion(of, marked(text).cursor).find((one) => one.label === label);
    expect(offer, label).toBeDefined();
    return offer === undefined ? "" : documentation(of, offer);
  };
  it("of a device is what it is, with its figures", () => {
    expect(said('setup "a"\nroom hall 9 m by 6 m\nplace wall is projector, at middle\nplace laptop is laptop, at front\njoin laptop { shows call on ⟨⟩ }\n', "wall")).toMatch(/projector/u);
    expect(said('setup "a"\ndevice wall is projector\nplace ⟨⟩\n', "wall")).toMatch(/projector/u);
  });
  it("of a finding is what one notices, and what to do", () => {
    expect(said('setup "a"\naccept ⟨⟩\n', "echo-path")).toMatch(/\n- /u);
  });
  it("of a statement is its meaning", () => {
    expect(said('setup "a"\npla⟨⟩\n', "place").length).toBeGreaterThan(10);
  });
});
