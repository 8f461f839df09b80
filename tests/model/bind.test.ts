import { describe, expect, it } from "vitest";
import { valueOf, type Bound } from "../../server/model/bound";
import { readText } from "../language/folder";

/** The problems of a text, each as its message and the words at which it stands. */
const problems = (text: string): { at: string; code: string; message: string }[] => {
  const setup = readText(text);
  const file = setup.files[0]?.text ?? "";
  return setup.problems.map(({ code, message, where }) => ({ at: file.slice(where.start, where.end), code, message }));
};
/** The one problem of a text. */
function problem(text: string): { at: string; code: string; message: string } {
  const found = problems(text);
  expect(found).toHaveLength(1);
  return found[0] ?? { at: "", code: "", message: "" };
}
const stated = (text: string): readonly Bound[] => readText(text).files[0]?.statements ?? [];

describe("a head that is not known", () => {
  it("the nearest that may stand there is proposed", () => {
    expect(problem("plcae box is battery-loudspeaker")).toEqual({
      at: "plcae", code: "unknown-statement", message: "No statement at the top of a file begins with “plcae”. Was “place” meant?",
    });
    expect(problem("room hall { niose 38 dBA }").message).toBe("No statement with “room” begins with “niose”. Was “noise” meant?");
  });

  it("where none is near and few may stand there, they are listed", () => {
    expect(problem("chairs 12, zzzzzz").message).toMatch(/^No statement with “chairs” begins with “zzzzzz”. What may stand here: [a-z, -]*first, pitch, /);
    expect(problem("xyzzy 3").message).toBe("No statement at the top of a file begins with “xyzzy”.");
  });

  it("a head that stands elsewhere says where", () => {
    expect(problem("noise 38 dBA")).toEqual({ at: "noise", code: "misplaced", message: "“noise” does not stand at the top of a file; it stands with “room”." });
    expect(problem("meeting { aim lectern }").message).toBe("“aim” does not stand with “meeting”; it stands with “place”.");
    expect(problem("device x is laptop { cable from a to b }").message).toBe("“cable” does not stand with “kind or device”; it stands at the top of a file.");
  });

  it("a very long one is cut short", () => {
    expect(problem("x".repeat(500)).message.length).toBeLessThan(120);
  });
});

describe("a value that does not fit", () => {
  it("of another dimension: what is wanted, and one", () => {
    expect(problem("room hall 9 m by 6 dBA")).toEqual({
      at: "6 dBA", code: "no-fit", message: "A length is wanted here, not a level in dB: write it like 3.2 m.",
    });
    expect(problem("online 8 m").at).toBe("m");
  });

  it("no quantity at all", () => {
    expect(problem("room hall { noise loud }").message).toBe("“loud” does not fit after “noise”. Wanted is A-weighted, with the people in: a level in dB, like 38 dBA.");
  });

  it("a word that is none of the list: the nearest, or all", () => {
    expect(problem("room hall { floor wod }").message).toMatch(/“wod” does not fit: wanted is what it is made of. Was “wood” meant\?/);
    expect(problem("place l is laptop\njoin l { sends smell }").message).toBe("“smell” does not fit: wanted is sound, picture, clip or content. It is one of sound, picture, clip, content.");
  });

  it("nothing where something is needed", () => {
    expect(problem("place l is laptop\nplace p is projector, fills").message).toBe("“fills” wants the surface: the name of surface or spot.");
    expect(problem("internet venue { up }").message).toBe("“up” wants as measured on a quiet line: a bit rate, like 4.0 Mb/s.");
    expect(problem("place l is laptop\ncable from l.hdmi").message).toBe("“cable” wants “to” and the other end: the name of port or device.");
    expect(problem("item talk from").message).toMatch(/After “from” belongs when it begins/);
  });

  it("a word of the language where a name is wanted", () => {
    expect(problem("spot to at front").message).toBe("“to” does not fit after “spot”. That word is part of the language and cannot be a name: choose another, like side-table.");
    expect(problem("item the from 18:30").at).toBe("the from 18:30");
    expect(problems("kind desk is a mixer { ports in 1 to 8 is xlr, port on is xlr }").map((p) => p.at)).toEqual([]);
  });

  it("more than is wanted", () => {
    expect(problem("online 8 people 9").message).toBe("“9” does not fit after “online”. Nothing more is wanted there: put another fact after a comma or on a line of its own.");
    expect(problem("internet x { wired fast }").at).toBe("fast");
  });

  it("an “and” with nothing behind it", () => {
    expect(problem("place l is laptop\njoin l { sends sound from l.microphone and }").message).toMatch(/^After “and” belongs another of the kind: from what/);
    expect(problem("item talk\nplace l is laptop\njoin l { plays no sound during talk and }").message).toMatch(/^After “and” belongs/);
  });

  it("a wrong number of figures", () => {
    expect(problem("kind x is a loudspeaker { directivity 1 2 3 }").message).toBe("“directivity” wants seven factors Q, for 125 Hz to 8 kHz; here are 3.");
    expect(problems("kind x is a loudspeaker { directivity 1 2 3 4 5 6 7 }")).toEqual([]);
  });

  it("a block where none may be", () => {
    expect(problem("online 8 people { date 2026-10-14 }").code).toBe("no-block");
  });
});

describe("what cannot be", () => {
  it.each([
    ["room hall { noise 300 dBA }", "300 dBA", "That cannot be: “noise”, A-weighted, with the people in, lies between 10 and 100 dBA."],
    ["room hall 9 km by 6 m", "9 km", "That cannot be: “room”, from the front wall to the back wall, lies between 0.001 and 0.2 km."],
    ["kind x is a loudspeaker { battery 99 kWh }", "99 kWh", "That cannot be: “battery”, as printed on it, lies between 0 and 11.1 kWh."],
    ["internet x { loss 0 to 200 % }", "0 to 200 %", "That cannot be: “loss”, of packets, lies between 0 and 100 %."],
    ["room hall, chairs 24 in 100000 rows", "100000 rows", "That cannot be: “chairs”, how many rows, lies between 1 and 400."],
    ["bothways 2", "2", "That cannot be: “bothways”, the version of the language, lies between 1 and 1."],
  ])("%s", (text, at, message) => {
    expect(problem(text)).toEqual({ at, code: "impossible", message });
  });

  it("a range is held by both its ends, a tolerance is cut where it would go beyond what can be", () => {
    expect(problem("room hall { noise 20 to 180 dBA }").code).toBe("impossible");
    const loss = stated("internet x { loss about 90 % }")[0]?.children[0];
    expect(loss && valueOf(loss, "share", "quantity")).toMatchObject({ best: 0.9, high: 1 });
  });

  it("days, times and pictures that are none", () => {
    expect(problem("date 2026-02-30").message).toBe("2026-02-30 is no day of the calendar: write it like 2026-10-04.");
    expect(problem("date 2026-1-5").message).toMatch(/write it like/);
    expect(problem("meeting { start 25:00 }").message).toBe("25:00 is no time of the day: write it like 18:30.");
    expect(problem("meeting { start 18:3 }").at).toBe("18:3");
    expect(problem("place l is laptop\njoin l { sends picture at 0p30 }").message).toMatch(/cannot be the size of a picture/);
    expect(problem("place l is laptop\njoin l { sends picture at 720p900 }").message).toMatch(/cannot be the size of a picture/);
    expect(problem("online 8 measured 2026-13-01").message).toMatch(/no day of the calendar/);
  });

  it("times that run backwards, but past midnight they do not", () => {
    expect(problem("meeting { start 22:00, end 00:15 }").message).toMatch(/“end” lies before “start”. If it is past midnight write end 00:15 next-day/);
    expect(problems("meeting { start 22:00, end 00:15 next-day }")).toEqual([]);
    expect(problem("item talk from 19:00 to 18:00").message).toMatch(/ends before it begins/);
  });

  it("sets that are none, or too large", () => {
    expect(problem("devices mic 5 to 1 is lapel-microphone").message).toBe("That cannot be: the last number of “devices” lies before the first.");
    expect(problem("devices mic 1 to 5000 is lapel-microphone").message).toBe("That cannot be: “devices” takes at most 1000 at once.");
    expect(problem("room hall, chairs 3 in 10 rows").message).toBe("That cannot be: 3 chairs in 10 rows.");
  });
});

describe("one mistake, one message", () => {
  it("what is wrong with the text of a line is all that is said of the line", () => {
    expect(problem("place box is battery-loudspeaker, near front ?").code).toBe("stray-sign");
    expect(problem("?").code).toBe("stray-sign");
    expect(problem("place l is laptop, at lectern\nplace box is battery-loudspeaker, at ?").code).toBe("stray-sign");
    expect(problem("room hall 9,5 m by 6 m").code).toBe("decimal-comma");
    expect(problem("room hall { noise 3,8 m }").code).toBe("decimal-comma");
    expect(problem('setup "October').code).toBe("unclosed-text");
    expect(problem("spot here at (2 m, 3 m").code).toBe("unclosed-point");
  });

  it("a line below one that is broken is still read", () => {
    expect(problems("room hall { noise ? }\nonline 8 m").map(({ code }) => code)).toEqual(["stray-sign", "no-fit"]);
  });

  it("a device of an unknown kind has a message for the kind, and none for what hangs on it", () => {
    const text = "device lap is lpatop\nplace lap at lectern\nplace box is battery-loudspeaker, near front\ncable from lap.hdmi to box.line\njoin lap { sends sound from lap.microphone }";
    expect(problem(text)).toEqual({ at: "lpatop", code: "unknown-name", message: "Nothing here is called “lpatop”. Was “laptop” meant?" });
  });

  it("a cable with one end has one message, and so has an unknown set", () => {
    expect(problem("place l is laptop\ncable from l.hdmi").code).toBe("incomplete");
    expect(problem("place desk is mixer\ncable from each mic.plug to desk.in-1").message).toBe("“each mic.plug” wants a numbered set, like: devices mic 1 to 4 is lapel-microphone.");
  });
});

describe("twice", () => {
  it.each([
    ["room hall { noise 38 dBA, noise 40 dBA }", "noise 40 dBA"],
    ["online 8\nonline 9", "online 9"],
    ["meeting { date 2026-10-14 }\nmeeting { start 18:30 }", "meeting"],
    ['setup "a"\nsetup "b"', 'setup "b"'],
    ["meeting { online 8 }\nonline 9", "online 9"],
  ])("%s", (text, at) => {
    expect(problem(text)).toMatchObject({ code: "said-twice", at });
  });

  it("but once for each item is not twice", () => {
    expect(problems("item talk\nplace l is laptop\njoin l { sends picture at 360p15\nsends picture at 720p30 during talk }")).toEqual([]);
  });
});

describe("commas", () => {
  it("a relation after a comma says more on the place, with its reason", () => {
    const [place] = stated('place box is battery-loudspeaker, near front because "it has no wheels"');
    expect(place && valueOf(place, "place", "place")?.words).toBe("near front");
    expect(place?.tails.because).toBe("it has no wheels");
    const [two] = stated("table desk at back\nplace box is battery-loudspeaker, on desk, beside lectern").slice(1);
    expect(two && valueOf(two, "place", "place")?.relations.map((r) => r.relation)).toEqual(["on", "beside"]);
  });

  it("two places that do not belong together are too many", () => {
    expect(problem("place box at lectern is battery-loudspeaker, near front").code).toBe("no-fit");
  });

  it("a fact of the block's owner, else a statement of its own", () => {
    const statements = stated("room about 13 steps by 9 steps, chairs 24 in 4 rows\nitem talk, online 8");
    expect(statements.map((s) => s.row.head)).toEqual(["room", "item", "online"]);
    expect(statements[0]?.children.map((s) => s.row.head)).toEqual(["chairs"]);
  });
});

describe("what follows any statement", () => {
  const tails = (words: string): Bound["tails"] | undefined => stated(`internet x { up 4 Mb/s ${words} }`)[0]?.children[0]?.tails;

  it("is kept", () => {
    expect(tails('measured 2026-10-07 18:40 because "it was quiet"')).toMatchObject({
      measured: { date: "2026-10-07", minutes: 1120, when: "2026-10-07 18:40" }, because: "it was quiet", guessed: false,
    });
    expect(tails("guessed")).toMatchObject({ guessed: true, measured: undefined });
    expect(tails("measured")).toMatchObject({ measured: { date: undefined, when: undefined } });
    expect(tails("because “the ‘quiet’ line”")?.because).toBe("the ‘quiet’ line");
  });

  it("“because” wants a text, “during” an item, and a statement that may differ", () => {
    expect(problem("online 8 because heating").message).toMatch(/^After “because” belongs a reason in quotation marks/);
    expect(problem("item talk\nonline 8 during talk").message).toBe("“online” cannot differ from item to item: leave “during” out.");
    expect(problem("place l is laptop\njoin l { plays no sound during }").message).toMatch(/^After “during” belongs an item/);
    expect(problem("place l is laptop\njoin l { plays no sound during coffee }").message).toBe("Nothing here is called “coffee”.");
  });
});
