/** How much two ways of saying something have in common, and who it is that notices. */

const EMPTY = new Set((
  "a an and are as at be been but by can could do does for from get gets has have how i if in into is it its just like my no not of " +
  "off on only or our out own so some such than that the their them then there they this those to too up us very was we were what " +
  "when where which who why will with would you your all any each every one people person somebody someone anybody nobody everybody " +
  "cannot cant dont doesnt isnt arent wont"
).split(" "));

/** Other words for the same, as one says them. */
const SAME: ReadonlyMap<string, string> = new Map(Object.entries({
  mic: "microphone", mics: "microphone", mike: "microphone", wifi: "wireless", wlan: "wireless", tv: "screen", telly: "screen", display: "screen", monitor: "screen", beamer: "projector", image: "picture", video: "picture", audio: "sound", volume: "sound",
  mobile: "phone", telephone: "phone", smartphone: "phone", cellphone: "phone", pc: "computer", laptop: "computer", notebook: "computer", web: "internet", network: "internet", net: "internet",
  quiet: "soft", faint: "soft", subtitles: "captions", screeches: "squeal", screech: "squeal", squeals: "squeal", lag: "delay", laggy: "delay", lags: "delay", stuttering: "stutters", blurry: "grainy", blurred: "grainy",
  presenter: "speaker", lecturer: "speaker", listening: "hear", hearing: "hear", hears: "hear", heard: "hear", sees: "see", seeing: "see", seen: "see", reads: "read", dies: "dead", died: "dead", crashed: "gone", dropped: "gone",
}));

/** Lower case, without accents, apostrophes and signs. Words that every sentence has are dropped, unless nothing else is left. */
export function wordsIn(text: string): string[] {
  const all = text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/['’]s\b/gu, "").replace(/['’]/gu, "").match(/[\p{L}\p{N}]+/gu) ?? [];
  const telling = all.filter((word) => !EMPTY.has(word));
  return (telling.length > 0 ? telling : all).map((word) => SAME.get(word) ?? word);
}

/** 1 for the same word, less where one begins as the other does (`echo`, `echoes`), 0 for others. */
export const likeness = (a: string, b: string): number => {
  if (a === b) return 1;
  const [short, long] = a.length < b.length ? [a, b] : [b, a];
  return short.length >= 4 && long.startsWith(short) && long.length - short.length <= 3 ? 0.8 : 0;
};

/** Share of `sought` that `text` has too; each word of the text is worth less the more words it has beside. */
export const overlap = (sought: readonly string[], text: string): number => {
  const there = wordsIn(text);
  if (sought.length === 0 || there.length === 0) return 0;
  let found = 0;
  for (const word of sought) found += Math.max(0, ...there.map((other) => likeness(word, other)));
  const share = found / sought.length;
  return share * (0.7 + 0.3 * Math.min(1, found / there.length));
};

const ONLINE = /\b(?:they|people online|online|remote|callers?|those at home|at home|far end|other side)\b/u;
const ROOM = /\b(?:we|i|us here|in the room|the room|audience|back|rows?|guests|visitors|hall)\b/u;

/** Who is said to hear, see or read, or not to: the one named before the verb. Nothing where nobody is. */
export function whoNotices(text: string): "online" | "room" | undefined {
  const [before] = text.toLowerCase().split(/\b(?:hears?|hearing|heard|sees?|seeing|seen|reads?|follow|understand)\b/u);
  if (before === undefined || before.length === text.length) return undefined;
  const [online, room] = [ONLINE.test(before), ROOM.test(before)];
  return online === room ? undefined : online ? "online" : "room";
}
