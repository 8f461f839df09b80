/**
 * What the signal-flow drawing draws: the ways across, the devices that serve them, where a way breaks and where an echo turns.
 * Plain data, taken from the signal graph for one item of the programme.
 */
import type { Where } from "../../model/where";
import type { Verdict, WayName } from "../../model/ways";

/** How one hop is made; what some wear or hold picks it up where it is `worn`. */
export type Via = "air" | "cable" | "radio" | "inside" | "call" | "sight" | "worn";

/** Something that stands across the bands it serves. */
export interface Post {
  readonly id: string;
  /** As the text names it. */
  readonly name: string;
  /** What it is, in a word or two: `laptop`, `24 seats`. */
  readonly detail?: string | undefined;
  readonly role: "room-people" | "device" | "call" | "online-people";
  /** Set where something ails the device itself: `no power`. */
  readonly trouble?: string | undefined;
  readonly where?: Where | undefined;
}

/** From one post to another. */
export interface Hop {
  readonly from: string;
  readonly to: string;
  /** Names of ports or parts at the ends of the line, where there are any: `hdmi`, `usb-1`, `camera`. */
  readonly fromPort?: string | undefined;
  readonly toPort?: string | undefined;
  readonly via: Via;
  /** A short remark on the line: `2.3 m`, `360p15`. */
  readonly remark?: string | undefined;
  /** Set where the hop does not exist or does not work: what is missing, in a few words: `no cable`. */
  readonly gap?: string | undefined;
  readonly where?: Where | undefined;
}

/** One path across, from a source to a sink; the hops follow one another. */
export interface Run {
  readonly id: string;
  /** In words: `Ines to the people online`. */
  readonly title: string;
  readonly hops: readonly Hop[];
  readonly complete: boolean;
  /** An echo goes out from the people it starts at, turns round in the room and comes back: index of the hop that turns. */
  readonly turnsAt?: number | undefined;
  /** What goes round and round in a closed loop is a howl; what comes back to those that it started from, an echo. */
  readonly kind?: "echo" | "howl" | undefined;
}

/** One of the four ways that sound or picture go across. */
export interface Band {
  readonly way: Exclude<WayName, "call" | "internet">;
  readonly verdict: Verdict;
  /** The weakest link, in a sentence. */
  readonly sentence: string;
  readonly runs: readonly Run[];
}

export interface Flow {
  readonly title: string;
  /** The item of the programme that is drawn, where items differ. */
  readonly item?: string | undefined;
  readonly bands: readonly Band[];
  readonly posts: readonly Post[];
  readonly echoes: readonly Run[];
  /** The two verdicts that have no band of their own. */
  readonly call: { readonly verdict: Verdict; readonly sentence: string };
  readonly internet: { readonly verdict: Verdict; readonly sentence: string };
}
