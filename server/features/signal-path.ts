/**
 * The path of sound and picture as a hierarchy of what feeds what: for a device, a talker, seats or the people online, what leads to it and
 * what it leads to, through cables, radio, air and the call.
 */
import { canonical } from "../model/names";
import type { Where } from "../model/where";
import type { Hop } from "../signal/drawing/flow";
import type { Asked } from "./asked";
import { deviceOf, meantBy, occurrenceAt, occurrences } from "./names";

export interface Station {
  /** As the drawing has it: a device, a talker, seats, `the call`, `people online`. */
  readonly name: string;
  readonly detail: string;
  readonly where: Where;
}

export interface Connection {
  readonly station: Station;
  /** Statements that make it: cables, joins; the station's own where none does. */
  readonly made: readonly Where[];
  /** How: `cable hdmi`, `air 2.3 m`. */
  readonly how: string;
}

type About = Pick<Asked, "setup" | "path" | "text" | "study">;

/** The station under the cursor. */
export function stationAt(asked: About, offset: number): Station | undefined {
  const here = occurrenceAt(occurrences(asked.setup), asked.path, offset);
  if (here === undefined) return undefined;
  const raw = asked.text.slice(here.start, here.end);
  const meant = meantBy(asked.setup, asked.path, raw, here.kind === "alias" ? [] : [here.kind]);
  const name = meant === undefined ? raw : deviceOf(asked.setup, meant.named.name) ?? meant.named.name;
  return station(asked, name);
}

/** A station by the name that the drawing has for it; nothing where the drawing has none. */
export function station({ study }: Pick<About, "study">, name: string): Station | undefined {
  const judged = study();
  const post = judged.flow().posts.find((one) => canonical(one.name) === canonical(name));
  return post && { name: post.name, detail: post.detail ?? "", where: post.where ?? judged.setup.titleWhere };
}

/** What feeds a station: one connection for each that does. */
export const fedBy = (asked: About, name: string): readonly Connection[] => connections(asked, name, "to", "from");

/** What a station feeds. */
export const feeds = (asked: About, name: string): readonly Connection[] => connections(asked, name, "from", "to");

function connections(asked: About, name: string, here: "from" | "to", there: "from" | "to"): readonly Connection[] {
  const flow = asked.study().flow();
  const found = new Map<string, { made: Where[]; how: Set<string> }>();
  for (const run of [...flow.bands.flatMap((band) => band.runs), ...flow.echoes]) {
    for (const hop of run.hops) {
      if (canonical(hop[here]) !== canonical(name) || hop.gap !== undefined) continue;
      const known = found.get(hop[there]) ?? { made: [], how: new Set<string>() };
      if (hop.where !== undefined && !known.made.some((one) => one.path === hop.where?.path && one.start === hop.where.start)) known.made.push(hop.where);
      known.how.add(howOf(hop));
      found.set(hop[there], known);
    }
  }
  return [...found].flatMap(([other, { made, how }]): Connection[] => {
    const one = station(asked, other);
    return one === undefined ? [] : [{ station: one, made: made.length > 0 ? made : [one.where], how: [...how].join(", ") }];
  });
}

const WORDS: Readonly<Record<Hop["via"], string>> = { air: "through the air", cable: "by cable", radio: "by radio", inside: "inside", call: "through the call", sight: "in sight", worn: "" };

const howOf = ({ via, remark }: Hop): string => [WORDS[via], remark].filter((word) => word !== undefined && word !== "").join(" ");
