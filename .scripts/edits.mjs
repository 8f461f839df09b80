// What one does to a text of the bench in one go, each by what hangs on it. All texts of the bench have what is changed here.

const once = (text, what, by) => {
  if (!what.test(text)) throw new Error(`no ${what} in this text`);
  return text.replace(what, by);
};
const more = (by) => (_all, head, value) => `${head}${(Number(value) + by).toFixed(1)}`;

/** By name, the text after the edit; `turn` makes each another text. Nothing where the text has no such thing. */
export const EDITS = {
  "a comment put in": (text, turn) => text.replace("\n", `\n# turn ${turn}\n`),
  "the title": (text, turn) => once(text, /setup "/, `setup "${turn} `),
  "the uplink": (text, turn) => once(text, /(up )(\d+)/, more(turn)),
  "how high a camera stands": (text, turn) => (/camera is /.test(text) ? once(text, /(camera is [^\n]*height )(\d+(?:\.\d+)?)/, more(turn / 10)) : undefined),
  "where a microphone stands": (text, turn) => (/place mic-2 /.test(text) ? once(text, /(place mic-2 [^\n]*?)(\d+\.\d)/, more(turn / 10)) : undefined),
  "the noise in the room": (text, turn) => once(text, /(noise )(\d+)/, more(turn / 10)),
};
