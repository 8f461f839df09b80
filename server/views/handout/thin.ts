/** What is given up first when the internet is thin, with what each step leaves to be sent: pictures first, sound last. */
import { uplinkShort } from "../../checks/uplink-short";
import type { Remedy, Scene } from "../../checks/check";
import { applyEdits, type Edit } from "../../model/edits";
import { readSetup, type Internet, type Setup } from "../../model/setup";
import { canonical } from "../../model/names";
import { Trial } from "../../model/trial";
import { makeGraph } from "../../signal/graph";
import { modeWords, streamsOver, total, usableUp, type Stream } from "../../signal/streams";

export interface Step {
  /** What changes, one a picture: `phone.camera at 360p15`, `no picture of phone.camera`. */
  readonly changes: readonly string[];
  /** bit/s in all after it. */
  readonly sent: number;
  /** Whether that is within what can be counted on; nothing where the uplink is not known. */
  readonly fits: boolean | undefined;
}

export interface Ladder {
  readonly internet: string;
  /** The item in which most is sent, where items differ. */
  readonly item: string | undefined;
  /** bit/s planned, and what can be counted on. */
  readonly sent: number;
  readonly usable: number | undefined;
  readonly steps: readonly Step[];
  /** Whether any sound is sent over it: what is kept to the end. */
  readonly sound: boolean;
}

/** More connections and items than any evening has. */
const MOST_INTERNETS = 3;
const MOST_ITEMS = 30;

/**
 * One ladder for each connection over which anything is sent. Its steps are the remedies of `uplink-short`, each tried on a copy of
 * the text; they are there on a good line too, since the line of the evening may be another one.
 */
export function laddersOf(setup: Setup): Ladder[] {
  const items: readonly (string | undefined)[] = setup.items.length === 0 ? [undefined] : setup.items.slice(0, MOST_ITEMS).map((item) => item.name);
  const scenes = items.map((item): Scene => ({ setup, item, graph: makeGraph(setup, item) }));
  const internets: readonly (Internet | undefined)[] = setup.internets.length === 0 ? [undefined] : setup.internets.slice(0, MOST_INTERNETS);
  return internets.flatMap((internet): Ladder[] => {
    const all = scenes.map((scene) => ({ scene, streams: streamsOver(scene.graph, internet) })).filter(({ streams }) => streams.length > 0);
    const [most] = [...all].sort((a, b) => total(b.streams, "target") - total(a.streams, "target"));
    if (most === undefined) return [];
    const usable = internet === undefined ? undefined : usableUp(internet, new Trial());
    const alike = all.length === scenes.length && all.every(({ streams }) => total(streams, "target") === total(most.streams, "target"));
    return [{
      internet: internet?.name ?? "the internet", item: alike ? undefined : most.scene.item, sent: total(most.streams, "target"), usable,
      steps: stepsOf(most.scene, internet, most.streams, usable), sound: most.streams.some((s) => s.what === "sound"),
    }];
  });
}

/** Remedies as the check would offer them for what is sent over this connection. */
function remediesOf(scene: Scene, internet: Internet | undefined): readonly Remedy[] {
  return uplinkShort.cases(scene).flatMap((one) => {
    const outcome = one.measure(new Trial());
    const over = outcome?.cause.key === `uplink ${internet?.name ?? "the internet"}`;
    return outcome === undefined || !over ? [] : one.remedies?.(outcome) ?? [];
  });
}

function stepsOf(scene: Scene, internet: Internet | undefined, planned: readonly Stream[], usable: number | undefined): Step[] {
  const out: Step[] = [];
  let before = planned;
  for (const remedy of remediesOf(scene, internet)) {
    const setup = withEdits(scene.setup, remedy.edits);
    const over = internet && setup.internets.find((i) => canonical(i.name) === canonical(internet.name));
    const streams = streamsOver(makeGraph(setup, scene.item), over);
    const changes = changed(before, streams);
    // A remedy that asks for less than the one before it is no step down.
    if (changes.length === 0 || total(streams, "target") >= total(before, "target")) continue;
    const sent = total(streams, "target");
    out.push({ changes, sent, fits: usable === undefined ? undefined : sent <= usable });
    before = streams;
  }
  return out;
}

function changed(before: readonly Stream[], after: readonly Stream[]): string[] {
  return before.flatMap(({ picture, join }): string[] => {
    if (picture === undefined) return [];
    const same = after.find((s) => s.picture !== undefined && s.join.join.device === join.join.device && canonical(s.picture.name) === canonical(picture.name))?.picture;
    if (same === undefined) return [`no picture of ${picture.name}`];
    return modeWords(same) === modeWords(picture) ? [] : [`${picture.name} at ${modeWords(same)}`];
  });
}

/** The setup with edits made on a copy of its texts. */
function withEdits(setup: Setup, edits: readonly Edit[]): Setup {
  const texts = new Map(setup.files.map((file) => {
    const own = edits.filter((edit) => edit.path === file.path);
    return [file.path, own.length === 0 ? file.text : applyEdits(file.text, own)] as const;
  }));
  return readSetup({
    read: (path) => {
      const text = texts.get(path);
      return text === undefined ? { problem: "it is not part of the setup" } : { text };
    },
  }, setup.root);
}
