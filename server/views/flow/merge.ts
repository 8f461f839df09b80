/**
 * Many alike drawn as one. Twelve microphones of a kind, each plugged into the same desk, say no more as twelve posts than as one
 * with a number. Posts are alike when they are of one kind, are named alike but for a number, and stand to the rest of the drawing
 * in the same way; so twelve voices at twelve microphones become one voice at one microphone, twelve times (the coarsest stable
 * partition, by colour refinement).
 */
import type { Flow, Hop, Post } from "../../signal/drawing/flow";

/** So many alike are worth drawing as one; fewer are better named. */
export const FEWEST_ALIKE = 4;
/** Names are compared by no more than this. */
const COMPARED = 80;

/** A name without its numbers: `mic-12` and `mic-3` are both `mic-#`. */
export function stem(name: string): string {
  return name === "" ? "" : name.slice(0, COMPARED).replace(/\d+/gu, "#");
}

/** Numbers for strings, in the order in which they are met: short keys keep the refinement fast with long names. */
export class Numbering {
  private readonly known = new Map<string, number>();
  of(text: string): number {
    const found = this.known.get(text);
    if (found !== undefined) return found;
    this.known.set(text, this.known.size);
    return this.known.size - 1;
  }
  get size(): number {
    return this.known.size;
  }
}

interface Tie {
  readonly other: string;
  /** Number of the kind: band, means, ports, what is missing; even where the tie begins here. */
  readonly kind: number;
}

function ties(flow: Flow): Map<string, Tie[]> {
  const all = new Map<string, Tie[]>();
  const kinds = new Numbering();
  const add = (id: string, tie: Tie): void => {
    const list = all.get(id);
    if (list === undefined) all.set(id, [tie]);
    else list.push(tie);
  };
  const addHop = (band: string, hop: Hop): void => {
    const ports = `${stem(hop.fromPort ?? "")}>${stem(hop.toPort ?? "")}`;
    const kind = kinds.of(`${band} ${hop.via} ${ports} ${(hop.gap ?? "").slice(0, COMPARED)}`);
    add(hop.from, { other: hop.to, kind: 2 * kind });
    add(hop.to, { other: hop.from, kind: 2 * kind + 1 });
  };
  for (const band of flow.bands) for (const run of band.runs) for (const hop of run.hops) addHop(band.way, hop);
  for (const run of flow.echoes) for (const hop of run.hops) addHop("echo", hop);
  return all;
}

/** For every post the group that it is drawn with, as the list of its members in the order of the flow; most stand alone. */
export function groupsOf(flow: Flow): Map<string, readonly Post[]> {
  const tiesOf = ties(flow);
  const alone = new Set<string>();
  for (const post of flow.posts) if (post.role === "call" || post.role === "online-people") alone.add(post.id);

  for (;;) {
    const classes = refine(flow, tiesOf, alone);
    const members = new Map<number, Post[]>();
    for (const post of flow.posts) {
      const key = classes.get(post.id) ?? -1;
      const list = members.get(key);
      if (list === undefined) members.set(key, [post]);
      else list.push(post);
    }
    // A group too small to be worth it falls apart, and then those that were alike only through it do too.
    let fellApart = false;
    for (const list of members.values()) {
      if (list.length === 1 || list.length >= FEWEST_ALIKE) continue;
      for (const post of list) alone.add(post.id);
      fellApart = true;
    }
    if (fellApart) continue;
    const groups = new Map<string, readonly Post[]>();
    for (const list of members.values()) for (const post of list) groups.set(post.id, list);
    return groups;
  }
}

function refine(flow: Flow, tiesOf: Map<string, Tie[]>, alone: ReadonlySet<string>): Map<string, number> {
  let numbering = new Numbering();
  let classes = new Map<string, number>();
  for (const post of flow.posts) {
    const key = alone.has(post.id)
      ? `alone ${post.id}`
      : `${post.role}|${(post.detail ?? "").slice(0, COMPARED)}|${(post.trouble ?? "").slice(0, COMPARED)}|${stem(post.name)}`;
    classes.set(post.id, numbering.of(key));
  }
  for (;;) {
    const before = numbering.size;
    numbering = new Numbering();
    const next = new Map<string, number>();
    for (const post of flow.posts) {
      // One that stands alone is in a class of its own for good: what is around it cannot part it further.
      const around = alone.has(post.id) ? [] : [...new Set((tiesOf.get(post.id) ?? []).map((tie) => `${tie.kind}:${classes.get(tie.other) ?? tie.other}`))];
      next.set(post.id, numbering.of(`${classes.get(post.id) ?? -1} ${around.sort().join(" ")}`));
    }
    classes = next;
    if (numbering.size === before) return classes;
  }
}
