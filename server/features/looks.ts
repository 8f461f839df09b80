/** The ways of looking at a setup from somewhere in it. */
export const LOOKS = ["camera", "seat", "side"] as const;
export type Look = (typeof LOOKS)[number];

export const LOOK_TITLES: Readonly<Record<Look, string>> = {
  camera: "What a camera frames", seat: "What is seen from a seat", side: "The room from the side",
};

/** Where one can look from. With `seats` it is a row, or a ring, of so many: `OF.seat-1` and on. */
export interface LookPlace {
  readonly of: string;
  readonly title: string;
  readonly seats?: number;
}
