/**
 * From the runs of a flow to what is drawn: posts, and lines between them. Runs of one band that share a hop share its line; what is
 * too much for one drawing is left out and counted.
 */
import type { Band, Flow, Hop, Post, Run, Via } from "../../signal/drawing/flow";
import type { Where } from "../../model/where";
import { groupsOf, Numbering, stem } from "./merge";

/** More than this nobody can read in one picture. */
export const MOST_POSTS = 90;
export const MOST_LINES_IN_A_BAND = 60;
export const MOST_ECHOES = 4;

/** `out`: from the room to the people online; `in`: from them to the room. */
export type Direction = "out" | "in";

export interface DrawnPost {
  readonly id: string;
  readonly name: string;
  readonly detail: string;
  readonly role: Post["role"];
  readonly trouble: string;
  readonly where: Where | undefined;
  /** All that it stands for; one, unless many alike are drawn as one. */
  readonly members: readonly Post[];
}

/** One line: a hop, with all the runs of its band that take it. */
export interface Line {
  readonly from: string;
  readonly to: string;
  fromPort: string;
  toPort: string;
  readonly via: Via;
  remark: string;
  /** What is missing; empty where nothing is. */
  readonly gap: string;
  readonly where: Where | undefined;
  /** How many hops it stands for. */
  count: number;
  /** Whether some run reaches it before anything is missing. */
  live: boolean;
  readonly runs: Run[];
}

/** A run as the lines that it takes. */
export interface DrawnRun {
  readonly run: Run;
  readonly lines: readonly Line[];
}

export interface DrawnBand {
  readonly band: Band;
  readonly direction: Direction;
  readonly lines: readonly Line[];
  readonly runs: readonly DrawnRun[];
  /** Runs that are not drawn, for want of room. */
  readonly left: number;
}

/** An echo: out along one leg, round, and back along the other; each leg as the posts that it passes, in order. */
export interface DrawnEcho {
  readonly run: Run;
  readonly out: readonly string[];
  readonly back: readonly string[];
}

export interface Network {
  readonly posts: readonly DrawnPost[];
  /** Posts that no drawn line touches. */
  readonly loose: readonly DrawnPost[];
  readonly bands: readonly DrawnBand[];
  readonly echoes: readonly DrawnEcho[];
  readonly postsLeft: number;
  readonly echoesLeft: number;
}

export function directionOf(way: Band["way"]): Direction {
  return way === "online-hears-room" || way === "online-sees-room" ? "out" : "in";
}

const ORDER: readonly Band["way"][] = ["room-hears-online", "online-hears-room", "room-sees-online", "online-sees-room"];

/** Hops inside one post are not drawn, but what is missing inside is: it moves to the hop after it, else to the one before. */
function withoutInner(hops: readonly Hop[]): Hop[] {
  const kept: Hop[] = [];
  let owed = "";
  for (const hop of hops) {
    if (hop.from === hop.to) {
      if (hop.gap !== undefined && owed === "") owed = hop.gap;
      continue;
    }
    kept.push(owed !== "" && hop.gap === undefined ? { ...hop, gap: owed } : hop);
    owed = "";
  }
  const last = kept.at(-1);
  if (owed !== "" && last !== undefined && last.gap === undefined) kept[kept.length - 1] = { ...last, gap: owed };
  return kept;
}

/** The hops of a run; one that is not complete and does not say where it breaks gets an open end towards its goal. */
function hopsOf(run: Run, goal: string | undefined, start: string | undefined): Hop[] {
  const hops = withoutInner(run.hops);
  if (run.complete || hops.some((hop) => hop.gap !== undefined) || goal === undefined) return hops;
  const inner = run.hops.find((hop) => hop.gap !== undefined);
  const from = hops.at(-1)?.to ?? run.hops.at(-1)?.to ?? start;
  if (from === undefined || from === goal) return hops;
  return [...hops, { from, to: goal, via: "inside", gap: inner?.gap ?? "goes no further" }];
}

/** `in-1 … in-12`, or the one that all share. */
function spanOf(values: readonly string[]): string {
  const distinct = [...new Set(values)];
  const [first] = distinct;
  const last = distinct.at(-1);
  if (first === undefined || last === undefined) return "";
  return distinct.length === 1 ? first : `${first} … ${last}`;
}

function drawnPost(members: readonly Post[]): DrawnPost | undefined {
  const [first] = members;
  const last = members.at(-1);
  if (first === undefined || last === undefined) return undefined;
  return {
    id: first.id,
    name: members.length === 1 ? first.name : `${first.name} … ${last.name} (${members.length})`,
    detail: first.detail ?? "",
    role: first.role,
    trouble: first.trouble ?? "",
    where: first.where,
    members,
  };
}

/** Hops collected into lines, within the bounds of one band. */
class Collector {
  readonly lines = new Map<string, { line: Line; hops: Hop[]; keys: Set<string> }>();
  private readonly numbers = new Numbering();
  constructor(private readonly groups: Map<string, readonly Post[]>) {}

  /** A short key for texts of any length. */
  private key(...texts: readonly string[]): string {
    return texts.map((text) => this.numbers.of(text)).join(" ");
  }

  keyOf(hop: Hop): string {
    const merged = this.isGroup(hop.from) || this.isGroup(hop.to);
    const port = (name: string | undefined): string => (merged ? stem(name ?? "") : (name ?? ""));
    return this.key(this.idOf(hop.from), this.idOf(hop.to), hop.via, port(hop.fromPort), port(hop.toPort), hop.gap ?? "");
  }
  idOf(id: string): string {
    return this.groups.get(id)?.[0]?.id ?? id;
  }
  private isGroup(id: string): boolean {
    return (this.groups.get(id)?.length ?? 1) > 1;
  }

  add(hop: Hop, run: Run): Line {
    const key = this.keyOf(hop);
    let entry = this.lines.get(key);
    if (entry === undefined) {
      const line: Line = {
        from: this.idOf(hop.from), to: this.idOf(hop.to), fromPort: "", toPort: "", via: hop.via, remark: "", gap: hop.gap ?? "",
        where: hop.where, count: 0, live: false, runs: [],
      };
      entry = { line, hops: [], keys: new Set() };
      this.lines.set(key, entry);
    }
    const exact = this.key(hop.from, hop.to, hop.fromPort ?? "", hop.toPort ?? "", hop.remark ?? "");
    if (!entry.keys.has(exact)) {
      entry.keys.add(exact);
      entry.hops.push(hop);
    }
    if (entry.line.runs.at(-1) !== run) entry.line.runs.push(run);
    return entry.line;
  }

  finish(): Line[] {
    for (const { line, hops } of this.lines.values()) {
      line.fromPort = spanOf(hops.flatMap((hop) => hop.fromPort ?? []));
      line.toPort = spanOf(hops.flatMap((hop) => hop.toPort ?? []));
      const remarks = [...new Set(hops.flatMap((hop) => hop.remark ?? []))];
      line.remark = remarks.length <= 2 ? remarks.join(", ") : "";
      line.count = new Set(hops.map((hop) => this.key(hop.from, hop.to, hop.fromPort ?? "", hop.toPort ?? ""))).size;
    }
    return [...this.lines.values()].map((entry) => entry.line);
  }
}

/** Builds what is to be drawn. Runs that break come first when there is not room for all: they are what the reader must see. */
export function networkOf(flow: Flow): Network {
  const groups = groupsOf(flow);
  const byId = new Map<string, DrawnPost>();
  for (const members of new Set(groups.values())) {
    const post = drawnPost(members);
    if (post !== undefined) byId.set(post.id, post);
  }
  const roomSide = flow.posts.find((post) => post.role === "room-people")?.id;
  const farSide = flow.posts.find((post) => post.role === "online-people")?.id;
  const used = new Set<string>();
  const postOf = (id: string): void => {
    used.add(id);
    if (!byId.has(id)) {
      const post: Post = { id, name: id, role: "device" };
      byId.set(id, { id, name: id, detail: "", role: "device", trouble: "", where: undefined, members: [post] });
    }
  };

  const bands: DrawnBand[] = [];
  const sorted = [...flow.bands].sort((a, b) => ORDER.indexOf(a.way) - ORDER.indexOf(b.way));
  for (const band of sorted) {
    const direction = directionOf(band.way);
    const goal = direction === "out" ? farSide : roomSide;
    const start = direction === "out" ? roomSide : farSide;
    const none: Run = { id: `${band.way} nothing`, title: "", hops: [], complete: false };
    const given = band.runs.length > 0 ? band.runs : [none];
    const ranked = [...given.filter((run) => !run.complete), ...given.filter((run) => run.complete)];
    const collector = new Collector(groups);
    const chosen = new Map<Run, Hop[]>();
    let left = 0;
    for (const run of ranked) {
      const hops = hopsOf(run, goal, start).map((hop) => (run === none ? { ...hop, gap: "no way across" } : hop));
      const keys = new Set(hops.slice(0, MOST_LINES_IN_A_BAND + 1).map((hop) => collector.keyOf(hop)));
      const fresh = [...keys].filter((key) => !collector.lines.has(key)).length;
      const posts = new Set(hops.slice(0, MOST_POSTS + 1).flatMap((hop) => [collector.idOf(hop.from), collector.idOf(hop.to)]));
      const freshPosts = [...posts].filter((id) => !used.has(id)).length;
      if (collector.lines.size + fresh > MOST_LINES_IN_A_BAND || used.size + freshPosts > MOST_POSTS) {
        left += 1;
        continue;
      }
      for (const id of posts) postOf(id);
      for (const hop of hops) collector.add(hop, run);
      chosen.set(run, hops);
    }
    // Once more in the order of the flow, so that the drawing keeps the author's order.
    const ordered = new Collector(groups);
    const runs: DrawnRun[] = [];
    for (const run of given) {
      const hops = chosen.get(run);
      if (hops === undefined) continue;
      const lines = hops.map((hop) => ordered.add(hop, run));
      for (const line of lines) {
        line.live = true;
        if (line.gap !== "") break;
      }
      runs.push({ run, lines });
    }
    bands.push({ band, direction, lines: ordered.finish(), runs, left });
  }

  const echoes: DrawnEcho[] = [];
  for (const run of flow.echoes) {
    if (echoes.length === MOST_ECHOES) break;
    const echo = echoOf(run, (id) => groups.get(id)?.[0]?.id ?? id);
    if (echo === undefined) continue;
    const fresh = new Set([...echo.out, ...echo.back].filter((id) => !used.has(id)));
    if (used.size + fresh.size > MOST_POSTS) continue;
    for (const id of [...echo.out, ...echo.back]) postOf(id);
    echoes.push(echo);
  }

  const posts = [...byId.values()].filter((post) => used.has(post.id));
  const rest = [...byId.values()].filter((post) => !used.has(post.id));
  const loose = rest.slice(0, Math.max(0, MOST_POSTS - posts.length));
  const postsLeft = rest.slice(loose.length).reduce((sum, post) => sum + post.members.length, 0);
  return { posts, loose, bands, echoes, postsLeft, echoesLeft: flow.echoes.length - echoes.length };
}

/** The two legs of an echo. Where the flow does not say which hop turns, it is the one in the middle. */
function echoOf(run: Run, idOf: (id: string) => string): DrawnEcho | undefined {
  if (run.hops.length === 0 || run.hops.length > MOST_LINES_IN_A_BAND) return undefined;
  const given = run.turnsAt ?? Math.floor(run.hops.length / 2);
  const turn = Math.min(Math.max(0, given), run.hops.length - 1);
  const visited = (hops: readonly Hop[], first: string | undefined): string[] => {
    const ids = [...(first === undefined ? [] : [first]), ...hops.map((hop) => hop.to)].map(idOf);
    return ids.filter((id, index) => id !== ids[index - 1]);
  };
  // A closed loop comes back to where it began by its own bend.
  const closed = (back: string[], first: string): string[] => (run.kind === "howl" && back.length > 1 && back.at(-1) === first ? back.slice(0, -1) : back);
  return {
    run,
    out: visited(run.hops.slice(0, turn), run.hops[0]?.from),
    back: closed(visited(run.hops.slice(turn + 1), run.hops[turn]?.to), idOf(run.hops[0]?.from ?? "")),
  };
}
