/** What the people online get to see in an item of the programme: which pictures come to them, and which of them is large. */
import { valueOf, valuesOf } from "../model/bound";
import { holding } from "../model/during";
import { canonical } from "../model/names";
import type { Setup } from "../model/setup";
import { callState, type JoinState } from "./call-state";

/** A picture as it reaches those online. */
export interface SeenOnline {
  readonly join: JoinState;
  /** A camera of the room, or what is presented. */
  readonly what: "picture" | "content";
  /** The camera or the display: `stage-camera`, `laptop.screen`. */
  readonly name: string;
  /** As sent, pixels and frames a second; nothing for what is presented. */
  readonly mode: { readonly width: number; readonly height: number; readonly rate: number } | undefined;
  readonly large: boolean;
}

export interface OnlineView {
  readonly seen: readonly SeenOnline[];
  /** The text does not say which picture is large; it is what a call shows when left alone. */
  readonly assumed: boolean;
}

/**
 * What is presented is large where something is, else the picture of the device that sends the sound, else the first; the text
 * may say otherwise. `alike`: all are of one size, and none is large where there are several.
 */
export function onlineView(setup: Setup, item: string | undefined, joins: readonly JoinState[] = callState(setup, item)): OnlineView {
  const all = joins.flatMap((join) => [
    ...join.content.map((sent) => ({ join, what: "content" as const, name: sent.name, mode: undefined })),
    ...join.pictures.map((sent) => ({ join, what: "picture" as const, name: sent.name, mode: { width: sent.width, height: sent.height, rate: sent.rate } })),
  ]);
  const stated = holding(setup.call, "large", item).at(-1);
  const word = stated && valueOf(stated, "what", "word")?.word;
  const names = stated === undefined ? [] : valuesOf(stated, "of", "name").map((n) => canonical(n.text));
  const named = all.filter((one) => names.some((name) => canonical(one.name) === name || canonical(one.name).startsWith(`${name}.`)));
  const content = all.filter((one) => one.what === "content");
  const pictures = all.filter((one) => one.what === "picture");
  const speaking = pictures.find((one) => one.join.sound.length > 0) ?? pictures[0];
  const large = names.length > 0 ? named : word === "content" ? content : word === "alike" ? (all.length === 1 ? all : [])
    : word === "speaker" ? pictures.filter((one) => one === speaking) : content.length > 0 ? content.slice(0, 1) : pictures.filter((one) => one === speaking);
  return { seen: all.map((one) => ({ ...one, large: large.includes(one) })), assumed: stated === undefined };
}
