/**
 * What the server understands beyond the standard protocol, and the names that server and client share. The client imports this
 * file and nothing else of the server; positions are those of the protocol, offsets count UTF-16 units.
 */
import type { Look, LookPlace } from "../features/looks";
import type { Verdict, WayName } from "../model/ways";

export type { Look, LookPlace } from "../features/looks";

/** Commands that the server puts into lenses; the client provides them. Each takes a document's URI, then an item where one is meant. */
export const COMMANDS = { showFlow: "bothways.showFlow", choose: "bothways.choose" } as const;

/** The scheme of what explains a finding: `bothways-explain:echo-path`. The client provides the document from `bothways/explain`. */
export const EXPLAIN_SCHEME = "bothways-explain";

/** Names of requests and of the one notification; the last two are asked by the server of a folder that lies on no disk of its own, and answered by the client. */
export const METHODS = {
  verdicts: "bothways/verdicts",
  choose: "bothways/choose",
  flow: "bothways/flow",
  plan: "bothways/plan",
  look: "bothways/look",
  move: "bothways/move",
  handout: "bothways/handout",
  explain: "bothways/explain",
  starter: "bothways/starter",
  readFolder: "bothways/readFolder",
  readFile: "bothways/readFile",
  alive: "bothways/alive",
} as const;

export interface SetupName {
  readonly uri: string;
  readonly title: string;
}

export interface ShownVerdict {
  readonly way: WayName;
  /** `The room hears the people online`. */
  readonly title: string;
  readonly verdict: Verdict;
  /** `cannot tell`. */
  readonly word: string;
  /** The weakest link, in a sentence. */
  readonly weakest: string;
  /** Open values that it hangs on. */
  readonly hangsOn: readonly string[];
  /** Set where items of the programme differ. */
  readonly item?: string;
}

/**
 * How a document's setup stands: sent whenever it changes, and the answer of the request of the same name (`{ uri }`).
 * For a room or a kit the setup in view is told; `setup` is absent where none uses it.
 */
export interface VerdictsOf {
  readonly uri: string;
  /** Which setup is judged: the document itself, or one that uses it. */
  readonly setup?: SetupName;
  readonly ways: readonly ShownVerdict[];
  readonly items: readonly string[];
  readonly errors: number;
  readonly warnings: number;
  readonly hints: number;
  readonly questions: number;
  /** All setups that use the document, the one in view among them; the document alone where it is a setup. */
  readonly setups: readonly SetupName[];
}

/** `bothways/choose`: the setup that is judged for a room or a kit; without `setup` the choice is given back to the server. Answers `VerdictsOf`. */
export interface Choose {
  readonly uri: string;
  readonly setup?: string;
}

export interface FlowAsked {
  readonly uri: string;
  readonly item?: string;
  readonly theme?: "light" | "dark" | "contrast" | "print";
  /** A drawing of its own where nothing is said; for a panel beside the text, without what stands around it. */
  readonly form?: "whole" | "panel";
  readonly width?: number;
}

/** `bothways/flow` answers this, or null where there is no setup to draw. */
export interface FlowOf {
  /** The setup that is drawn. */
  readonly setup: SetupName;
  readonly svg: string;
  /** The whole drawing in words. */
  readonly desc: string;
  readonly verdicts: readonly ShownVerdict[];
  readonly items: readonly string[];
  /** The item that is drawn, where items differ. */
  readonly item?: string;
  /** Elements of the drawing carry `data-path`, `data-start`, `data-end`: these are the documents that `data-path` means. */
  readonly files: readonly { readonly path: string; readonly uri: string }[];
  /** Version of the asked document that was drawn, where it is open. */
  readonly version?: number;
}

/** `bothways/plan`: the floor plan; `ask` puts a question to it. */
export interface PlanAsked extends FlowAsked {
  readonly ask?: string;
}

/** `bothways/plan` answers this, or null where there is no setup to draw. */
export interface PlanOf extends FlowOf {
  /** What can be asked, and what was. */
  readonly asks: readonly { readonly ask: string; readonly title: string }[];
  readonly ask?: string;
}

/** `bothways/look`: what a camera frames, what is seen from a seat or a talker's place, or the room from the side with a row's sight lines. */
export interface LookAsked extends FlowAsked {
  /** What a camera frames, where nothing is said. */
  readonly view?: Look;
  /** The camera, the seat, the talker or the row; one that tells most where nothing is said, or there is none of that name. */
  readonly of?: string;
}

/** `bothways/look` answers this, or null where there is no setup to draw. Its drawing is empty where there is nothing to look from, and `desc` says so. */
export interface LookOf extends FlowOf {
  readonly view: Look;
  readonly views: readonly { readonly view: Look; readonly title: string }[];
  readonly places: readonly LookPlace[];
  /** Where one looks from: a place, or a seat of one. */
  readonly of?: string;
}

/** `bothways/move`: something in the floor plan was put elsewhere; metres from the front wall and from the left one. */
export interface MoveAsked {
  readonly uri: string;
  readonly what: "place" | "aim" | "row";
  /** A device, somebody who speaks, seats, a thing of the room. */
  readonly name: string;
  readonly row?: number;
  readonly x: number;
  readonly y: number;
  /** Facts of the room may be changed. */
  readonly facts?: boolean;
}

/** What has to be written for that, or why it cannot be; null where there is no setup. Positions count UTF-16 units. */
export interface MoveOf {
  readonly edits: readonly { readonly uri: string; readonly start: number; readonly end: number; readonly newText: string }[];
  /** What was done, or why not, in a sentence. */
  readonly says: string;
  readonly refused: boolean;
}

/** `bothways/handout` takes `{ uri, item? }` and answers this, or null where there is no setup. */
export interface HandoutOf {
  readonly setup: SetupName;
  readonly html: string;
}

/** `bothways/explain` takes `{ code }` and answers this, or null where there is no such finding. */
export interface Explained {
  readonly code: string;
  readonly title: string;
  readonly markdown: string;
}

/** `bothways/starter`: answers as people give them; what is absent is assumed and listed. */
export interface StarterAsked {
  readonly title?: string;
  readonly talkers?: string;
  readonly audience?: boolean;
  readonly seats?: number;
  readonly online?: number;
  readonly size?: string;
  readonly own?: string;
}

export interface StarterOf {
  readonly text: string;
  /** What was assumed and what was not understood, in sentences. */
  readonly remarks: readonly string[];
  /** Set where an answer does not fit: what is wrong with the text that came of it. */
  readonly problem?: string;
}

/** `bothways/readFolder`: which files of the language lie in a folder and below it. */
export interface ReadFolder {
  /** A folder that is open, or the one that an open document lies in. */
  readonly uri: string;
}

/** Paths from the folder, parts joined by `/`. */
export interface FolderRead {
  readonly paths: readonly string[];
}

/** `bothways/readFile`: one file below such a folder. */
export interface ReadFile extends ReadFolder {
  readonly path: string;
}

/** What stands in it, or why it cannot be read, in a few words. */
export type FileRead = { readonly base64: string } | { readonly problem: string };
