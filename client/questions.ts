/** The five questions of a first setup: what is asked, and how an answer is read. */
import type { StarterAsked } from "../server/protocol/messages";

/** Answers as they were given, so that nothing is lost when somebody stops in the middle. */
export interface Given {
  readonly talkers?: string;
  readonly audience?: boolean;
  readonly people?: string;
  readonly size?: string;
  readonly own?: string;
}

export const QUESTIONS = {
  talkers: {
    title: "Who talks?", example: "Ines at lectern, Teo at table",
    help: "Names with commas between, and from where if it is not the lectern. Empty: one person at the lectern.",
  },
  audience: { title: "Who must hear and see whom?" },
  people: {
    title: "How many are in the room, and how many online?", example: "24 in the room, 8 online",
    help: "Two numbers: in the room, online. Empty: 20 and 6.",
  },
  size: {
    title: "About how large is the room?", example: "about 13 steps by 9 steps",
    help: "Length by width, in metres, feet or steps. Empty: left open, and asked for later.",
  },
  own: {
    title: "What do you own, or can you borrow?", example: "laptop, battery loudspeaker, webcam, 2 phones",
    help: "Things with commas between. Empty: somebody brings a laptop.",
  },
} as const;

export const AUDIENCE_CHOICES = [
  { value: true, label: "Everybody hears and sees everybody", detail: "people in the audience speak, too, and those online hear and see them" },
  { value: false, label: "Everybody hears and sees whoever talks", detail: "the audience only listens" },
] as const;

/** Seats and people online from words that hold two numbers; a lone number is the room, unless `online` stands behind it. */
export function peopleOf(words: string): { seats?: number; online?: number } | { problem: string } {
  const text = words.trim();
  if (text === "") return {};
  const found = [...text.matchAll(/(?<!\d)(\d{1,4})(?!\d)\s*(?:people\s+|are\s+)?([\p{L}]*)/gu)].map(([, number = "", word = ""]) => ({ count: Number(number), online: /^online/iu.test(word) }));
  if (found.length === 0 || found.length > 2 || /\d[.,]\d/u.test(text)) return { problem: "Two numbers are wanted, such as: 24 in the room, 8 online" };
  const [first, second] = found;
  if (first === undefined) return {};
  if (second === undefined) return first.online ? { online: first.count } : { seats: first.count };
  return first.online && !second.online ? { seats: second.count, online: first.count } : { seats: first.count, online: second.count };
}

const kept = (words: string | undefined): string | undefined => (words === undefined || words.trim() === "" ? undefined : words.trim());

/** What the server is asked for; answers that were left empty are left to it. */
export function askedOf(given: Given): StarterAsked {
  const people = peopleOf(given.people ?? "");
  const [talkers, size, own] = [kept(given.talkers), kept(given.size), kept(given.own)];
  return {
    ...(talkers === undefined ? {} : { talkers }),
    ...(given.audience === undefined ? {} : { audience: given.audience }),
    ...("problem" in people ? {} : people),
    ...(size === undefined ? {} : { size }),
    ...(own === undefined ? {} : { own }),
  };
}
