/** What hangs on the mains, added up and asked for. Names are invented. */
import { describe, expect, test } from "vitest";
import { judged, raised } from "../catalogue/harness";
import { BEAMER, BOX, hall, LAPEL } from "./setups";

const SHOW = "join laptop {\n  sends sound from lapel\n  plays sound on box\n  shows call on beamer, faces 4\n}\n";
const evening = (beamer: string, laptop: string, more = ""): string => hall(`${BOX + LAPEL + BEAMER}${SHOW}${more}`)
  .replace("place beamer is projector", `place beamer is projector, draws ${beamer}`).replace("place laptop is laptop", `place laptop is laptop, draws ${laptop}`);
const figure = (text: string, name: string, of: string): number | undefined => judged(text).figures().find((f) => f.name === name && f.of.includes(of))?.value;

describe("loads", () => {
  test("arithmetic: what is plugged into a lead counts at the lead, at its outlet and at the breaker, once at each", () => {
    const text = evening("300 W", "60 W", "device long is extension-lead, sockets 4, rated 10 A\n").replace("mains from back-wall to beamer", "mains from back-wall to long\nmains from long to beamer")
      .replace("  outlet left-wall at left, sockets 4\n  outlet back-wall at back, sockets 4\n", "  voltage 230 V\n  circuit stage, rated 16 A, draws 500 W\n  outlet left-wall at left, sockets 4, fed-by stage\n  outlet back-wall at back, sockets 4, fed-by stage\n");
    for (const [of, watts] of [["long", 300], ["back-wall", 300], ["left-wall", 60], ["stage", 860]] as const) expect(figure(text, "load on the mains", of), of).toBe(watts);
    // 10 A and 16 A at 230 V: arithmetic.
    expect(figure(text, "what it may carry", "long")).toBe(2300);
    expect(figure(text, "what it may carry", "stage")).toBe(3680);
  });

  test("a lead that is fed in a circle ends the sum", () => {
    const text = evening("300 W", "60 W", "device lead-a is extension-lead\ndevice lead-b is extension-lead\nmains from lead-a to lead-b\nmains from lead-b to lead-a\n").replace("mains from back-wall to beamer", "mains from lead-a to beamer");
    expect(figure(text, "load on the mains", "lead-a")).toBe(300);
  });

  test("outlets of which nobody says behind which breaker they are: never a finding, and a question only where it could be too much", () => {
    const asks = (text: string): string[] => judged(text).questions.map((q) => q.ask).filter((ask) => ask.includes("breaker"));
    expect(asks(evening("250 W", "60 W"))).toEqual([]);
    const much = judged(evening("4000 W", "60 W"));
    expect(raised(much, "circuit-overload")).toEqual([]);
    expect(much.questions.map((q) => q.ask)).toContain("Are left-wall and back-wall behind one breaker, and what may it carry?");
  });

  test("the plan asked for cables and the hand-out say what hangs on what", () => {
    const text = evening("300 W", "60 W").replace("outlet back-wall at back, sockets 4", "outlet back-wall at back, sockets 4, rated 10 A");
    const outlet = judged(text).plan(undefined, "cables").outlets.find((one) => one.name === "back-wall");
    expect(outlet?.kind).toContain("rated 10 A, carries 300 W of 2300 W");
    const fed = evening("300 W", "60 W").replace("outlet back-wall at back, sockets 4", "voltage 230 V\n  circuit stage, rated 10 A\n  outlet back-wall at back, sockets 4, fed-by stage");
    const plan = judged(fed).plan(undefined, "cables");
    expect(plan.outlets.find((one) => one.name === "back-wall")?.kind).toContain("circuit stage");
    expect(plan.asked?.result).toContain("Circuits: stage carries 300 W of 2300 W.");
  });
});
