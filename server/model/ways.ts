/** The six jobs of a meeting held in a room and online at once, in the order in which they are always shown. */
export const WAYS = [
  "room-hears-online", "online-hears-room", "room-sees-online", "online-sees-room", "call", "internet",
] as const;
export type WayName = (typeof WAYS)[number];

/** From best to worst. `cannot-tell`: what would decide it is not in the text. */
export const VERDICTS = ["works", "doubtful", "cannot-tell", "fails"] as const;
export type Verdict = (typeof VERDICTS)[number];

/** In words, as the terminal, the drawing and the hand-out show them. */
export const WAY_TITLES: Readonly<Record<WayName, string>> = {
  "room-hears-online": "The room hears the people online",
  "online-hears-room": "The people online hear the room",
  "room-sees-online": "The room sees the people online",
  "online-sees-room": "The people online see the room",
  call: "The call",
  internet: "The internet",
};
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  works: "works", doubtful: "doubtful", "cannot-tell": "cannot tell", fails: "fails",
};
