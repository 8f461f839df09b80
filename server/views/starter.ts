/** A first setup from a handful of answers: as short as it can be, with the obvious places and nothing that was not said. */
import { format } from "../../grammar/printer";
import { list } from "../model/show";

export interface Answers {
  readonly title?: string | undefined;
  /** `Ines at lectern, Teo`. */
  readonly talkers?: string | undefined;
  /** Whether people in the audience speak too. */
  readonly audience?: boolean | undefined;
  readonly seats?: number | undefined;
  readonly online?: number | undefined;
  /** `9 m by 6 m`, `about 13 steps by 9 steps`. */
  readonly size?: string | undefined;
  /** `laptop, battery loudspeaker, 2 phones`. */
  readonly own?: string | undefined;
}

export interface Started {
  readonly text: string;
  /** What nobody said and was therefore taken, a clause each. */
  readonly assumed: readonly string[];
  /** Things that are not among the typical equipment. */
  readonly unknown: readonly string[];
}

/** A typical device: its kind, the name it gets, the words people use for it, and where it obviously stands. */
interface Thing {
  readonly kind: string;
  readonly name: string;
  readonly words: readonly string[];
  readonly place?: string;
}

const THINGS: readonly Thing[] = [
  { kind: "laptop", name: "laptop", words: ["laptop", "notebook", "computer", "pc"], place: "beside lectern" },
  { kind: "phone", name: "phone", words: ["phone", "smartphone", "mobile phone", "mobile", "telephone"] },
  { kind: "tablet", name: "tablet", words: ["tablet"] },
  { kind: "webcam", name: "camera", words: ["webcam", "web camera", "usb camera", "camera"], place: "behind row 2, aim lectern" },
  { kind: "still-camera", name: "still-camera", words: ["still camera", "photo camera"] },
  { kind: "lapel-microphone", name: "lapel", words: ["lapel microphone", "lapel mic", "lapel", "clip microphone", "tie microphone", "microphone", "mic"], place: "on TALKER" },
  { kind: "handheld-microphone", name: "handheld", words: ["handheld microphone", "hand-held microphone", "hand held microphone", "handheld", "handheld mic"] },
  { kind: "boundary-microphone", name: "boundary", words: ["boundary microphone", "table microphone", "boundary mic"] },
  { kind: "gooseneck-microphone", name: "gooseneck", words: ["gooseneck microphone", "gooseneck", "gooseneck mic", "desk microphone"] },
  { kind: "conference-speakerphone", name: "speakerphone", words: ["speakerphone", "conference phone"] },
  { kind: "wired-headset", name: "headset", words: ["headset"] },
  {
    kind: "battery-loudspeaker", name: "box", place: "near front, aim audience",
    words: ["battery loudspeaker", "portable loudspeaker", "bluetooth loudspeaker", "wireless loudspeaker", "battery speaker", "bluetooth speaker", "portable speaker"],
  },
  {
    kind: "mains-loudspeaker", name: "loudspeaker", place: "near front, aim audience",
    words: ["mains loudspeaker", "loudspeaker", "active loudspeaker", "speaker", "active speaker"],
  },
  { kind: "column-loudspeaker", name: "column", words: ["column speaker", "line array"], place: "near front, aim audience" },
  { kind: "mixer", name: "desk", words: ["mixer", "mixing desk", "sound desk"] },
  { kind: "sound-interface", name: "interface", words: ["sound interface", "audio interface", "interface"] },
  { kind: "projector", name: "projector", words: ["projector", "beamer"], place: "on table at middle" },
  { kind: "flat-display", name: "display", words: ["flat display", "display", "television", "tv", "monitor"], place: "at front" },
  { kind: "usb-hub", name: "hub", words: ["usb hub", "hub"] },
  { kind: "picture-grabber", name: "grabber", words: ["grabber", "hdmi grabber", "capture device"] },
  { kind: "hearing-loop-amplifier", name: "loop", words: ["hearing loop", "induction loop", "loop"] },
  { kind: "assistive-transmitter", name: "transmitter", words: ["assistive transmitter", "pocket receivers", "listening receivers", "assistive listening"] },
  { kind: "sound-recorder", name: "recorder", words: ["sound recorder", "recorder"] },
  { kind: "network-switch", name: "switch", words: ["switch"] },
  { kind: "access-point", name: "access-point", words: ["access point"] },
  { kind: "powerline-adapter", name: "powerline", words: ["powerline", "powerline pair"] },
  { kind: "mobile-router", name: "router", words: ["mobile router", "router"] },
  { kind: "power-bank", name: "power-bank", words: ["power bank", "powerbank"] },
  { kind: "extension-lead", name: "lead", words: ["extension lead", "extension cable", "extension cord", "lead", "power strip"] },
];

/** Every kind that a first setup can name; they are all among the typical equipment. */
export const STARTER_KINDS: readonly string[] = THINGS.map((thing) => thing.kind);

const parts = (text: string): string[] => text.split(/,|;|\band\b/u).map((part) => part.trim()).filter((part) => part !== "");

const plainWord = (text: string): string => text.toLowerCase().replace(/[-_\s]+/gu, " ").replace(/^(?:an?|the|my|our|one) /u, "").trim();

const thingFor = (words: string): Thing | undefined => {
  const sought = plainWord(words);
  const forms = new Set([sought, sought.replace(/s$/u, ""), sought.replace(/es$/u, "")]);
  return THINGS.find((thing) => [thing.kind, ...thing.words].some((known) => forms.has(known.replaceAll("-", " "))));
};

/** A name as the language takes it: blanks become hyphens, signs that no name has are left out. */
export const asName = (words: string): string =>
  words.trim().replace(/\s+/gu, "-").replace(/[^\p{L}\p{M}\p{N}_-]/gu, "").replace(/-{2,}/gu, "-").replace(/^[^\p{L}]+/u, "").slice(0, 40).replace(/-+$/u, "");

const asText = (words: string): string => words.replace(/["“”\\]/gu, "'").replace(/[\p{Cc}\p{Cf}]+/gu, " ").trim().slice(0, 120);

interface Talker { readonly name: string; readonly place: string }

const talkersOf = (words: string): Talker[] => parts(words).map((part) => {
  const [, who = part, where] = /^(.*?)\s+((?:at|beside|near|behind|before|on)\s+.+)$/u.exec(part) ?? [];
  return { name: asName(who), place: where ?? "at lectern" };
}).filter((talker) => talker.name !== "");

interface Owned { readonly name: string; readonly thing: Thing }

const ownedOf = (words: string): { owned: Owned[]; unknown: string[] } => {
  const owned: Owned[] = [];
  const unknown: string[] = [];
  const used = new Map<string, number>();
  for (const part of parts(words)) {
    const [, number, what = part] = /^(\d{1,2}|two|three|four)\s+(.+)$/iu.exec(part) ?? [];
    const count = number === undefined ? 1 : ({ two: 2, three: 3, four: 4 }[number.toLowerCase()] ?? Number(number));
    const thing = thingFor(what);
    if (thing === undefined) {
      unknown.push(part);
      continue;
    }
    for (let i = 0; i < Math.min(count, 12); i++) {
      const n = (used.get(thing.name) ?? 0) + 1;
      used.set(thing.name, n);
      owned.push({ name: n === 1 ? thing.name : `${thing.name}-${n}`, thing });
    }
  }
  return { owned, unknown };
};

/** Rows of about six chairs, as a small hall is set. */
const rowsFor = (seats: number): number => Math.max(1, Math.round(seats / 6));

/**
 * The text of a setup from answers; whatever was not answered is taken as for a small association's evening and listed.
 * Things that are owned and obviously stand somewhere are placed, the others are owned and not in use.
 */
export function starter(answers: Answers): Started {
  const assumed: string[] = [];
  const take = <T>(given: T | undefined, otherwise: T, words: string): T => {
    if (given !== undefined) return given;
    assumed.push(words);
    return otherwise;
  };
  const title = asText(answers.title ?? "") || "Our meeting";
  const seats = take(answers.seats, 20, "20 seats in the room");
  const online = take(answers.online, 6, "6 people online");
  if (answers.size === undefined) assumed.push("a room of a common size (what size it has is left open)");
  const named = talkersOf(answers.talkers ?? "");
  const talkers = named.length > 0 ? named : take<Talker[]>(undefined, [{ name: "presenter", place: "at lectern" }], "one person who talks, at the lectern");
  const audience = take(answers.audience, true, "people in the audience speak too");
  const { owned, unknown } = ownedOf(answers.own ?? "");
  const joins = (one: Owned): boolean => ["laptop", "tablet", "phone"].includes(one.thing.kind);
  // The device that joins the call: a laptop before a tablet before a phone.
  let host = ["laptop", "tablet", "phone"].map((kind) => owned.find((one) => one.thing.kind === kind)).find((one) => one !== undefined);
  if (host === undefined) {
    const laptop = THINGS[0] as Thing;
    host = { name: laptop.name, thing: laptop };
    owned.unshift(host);
    assumed.push("somebody brings a laptop that joins the call");
  }

  const size = answers.size === undefined ? "" : ` ${answers.size.trim()}`;
  const rows = rowsFor(seats);
  const lines = [
    `setup "${title}"`,
    `room hall${size}, chairs ${seats} in ${rows} ${rows === 1 ? "row" : "rows"}`,
    `online ${online} people`,
    ...talkers.map((talker) => `talker ${talker.name} ${talker.place}`),
  ];
  if (audience) lines.push("talker anybody at audience");

  let microphone: string | undefined;
  let loudspeaker: string | undefined;
  for (const one of owned) {
    const { thing, name } = one;
    const first = thing.name === name;
    let place = one === host ? "beside lectern" : joins(one) ? undefined : thing.place;
    if (thing.kind === "lapel-microphone") {
      const wearer = talkers[owned.filter((o) => o.thing === thing).indexOf(one)];
      place = wearer === undefined ? undefined : `on ${wearer.name}`;
      if (wearer !== undefined) microphone ??= name;
    } else if (thing.kind.endsWith("-loudspeaker")) {
      loudspeaker ??= name;
      if (loudspeaker !== name) place = undefined;
    } else if (!first) {
      place = undefined;
    }
    if (thing.kind === "conference-speakerphone" && first) {
      place = "near front";
      loudspeaker ??= name;
      microphone ??= name;
    }
    lines.push(place === undefined ? `device ${name} is ${thing.kind}` : `place ${name} is ${thing.kind}, ${place}`);
  }
  const joined = [
    ...(microphone === undefined ? [] : [`sends sound from ${microphone}`]),
    ...(loudspeaker === undefined ? [] : [`plays sound on ${loudspeaker}`]),
  ];
  if (joined.length === 0) lines.push(`join ${host.name}`);
  else if (joined.length === 1) lines.push(`join ${host.name} { ${joined[0] ?? ""} }`);
  else lines.push(`join ${host.name} {`, ...joined.map((line) => `  ${line}`), "}");
  // An answer such as `9m by 6m` is written as the common form has it.
  const text = `${lines.join("\n")}\n`;
  const tidy = format(text);
  return { text: "text" in tidy ? tidy.text : text, assumed, unknown };
}

/** What was assumed and what was not understood, in sentences. */
export const remarks = ({ assumed, unknown }: Started): string[] => [
  ...(assumed.length === 0 ? [] : [`Taken, because nothing was said: ${list(assumed, Infinity)}.`]),
  ...(unknown.length === 0 ? [] : [
    `Left out, because ${unknown.length === 1 ? "it is" : "they are"} not among the typical equipment: ${list(unknown, Infinity)} ` +
    `(${STARTER_KINDS.length} kinds are: ${STARTER_KINDS.join(", ")}).`,
  ]),
];
