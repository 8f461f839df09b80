/**
 * What is lost if one device, one lead or one person is missing, and what stands in: each is taken out of a copy of the setup in
 * turn, the best of what is at hand is put in its place, and who still reaches whom is worked out anew, item by item.
 */
import type { Device } from "../../model/device";
import { canonical } from "../../model/names";
import type { Link, Setup } from "../../model/setup";
import { Trial } from "../../model/trial";
import type { WayName } from "../../model/ways";
import { callState } from "../call-state";
import { claims } from "../coverage";
import { makeGraph } from "../graph";
import { heard, isWell, margin } from "../pick-up/hearing";
import { alone, inPlaceOf, onItsOwn, without, withoutLink } from "./without";

/** Somebody who is not reached any more. */
export interface Loss {
  readonly way: WayName;
  /** As a sentence has it: `the people online do not hear Ines`. */
  readonly says: string;
  /** Items in which it is so; none where it is throughout. */
  readonly items: readonly string[];
}

export interface Missing {
  readonly what: "device" | "lead" | "person";
  /** Of a lead its two ends, of a person also what does not come with them. */
  readonly name: string;
  readonly ends: readonly string[];
  /** Without it, and nothing done about it. */
  readonly lost: readonly Loss[];
  /** What is done: a spare in its place, or what a joined device has of its own; nothing where nothing at hand helps. */
  readonly instead: { readonly by: "planned" | "spare" | "own" | "alone"; readonly names: readonly string[] } | undefined;
  /** What stays lost all the same. */
  readonly left: readonly Loss[];
  /** Something that does reach is reached less well than it was. */
  readonly poorer: boolean;
  /** Of a person: jobs that nobody else has. */
  readonly jobs: readonly string[];
}

export interface WhatIf {
  readonly rows: readonly Missing[];
  /** Things that were not tried, because there are more than anybody would read. */
  readonly untried: number;
}

/** Things taken out in turn, copies that are worked out in all, and items that each is worked out in. Bounds what a large text costs. */
const MOST_THINGS = 40;
const MOST_COPIES = 100;
const MOST_ITEMS = 6;
/** So far below their limits, in steps of a level, is what a microphone gets of a voice that nobody would follow. Model choice. */
const OUT_OF_REACH = -1;
/** Spares tried for one thing. */
const MOST_SPARES = 3;

const KNOWN = new WeakMap<Setup, WhatIf>();

/** Worked out once for a setup. Only what takes something away is listed, the greatest loss that stays first. */
export function whatIfMissing(setup: Setup): WhatIf {
  let known = KNOWN.get(setup);
  if (known === undefined) {
    known = new Trying(setup).all();
    KNOWN.set(setup, known);
  }
  return known;
}

interface Reached {
  readonly way: WayName;
  readonly unmet: string;
  readonly item: string | undefined;
  readonly good: boolean;
}

class Trying {
  readonly #setup: Setup;
  readonly #items: readonly (string | undefined)[];
  readonly #reached: ReadonlyMap<string, Reached>;
  #copies = 0;

  constructor(setup: Setup) {
    this.#setup = setup;
    this.#items = setup.items.length === 0 ? [undefined] : setup.items.slice(0, MOST_ITEMS).map((item) => item.name);
    this.#reached = this.#who(setup);
  }

  all(): WhatIf {
    if (this.#setup.joins.length === 0) return { rows: [], untried: 0 };
    const devices = [...this.#setup.devices.values()].filter((device) => device.placed !== undefined);
    const people = this.#people();
    const things = [...devices.map((device) => () => this.#device(device)), ...people.map((who) => () => this.#person(who)), ...this.#setup.links.map((link) => () => this.#lead(link))];
    const rows: Missing[] = [];
    let tried = 0;
    for (const thing of things.slice(0, MOST_THINGS)) {
      if (this.#copies >= MOST_COPIES) break;
      tried += 1;
      const row = thing();
      // Who only brings one thing is missed as that thing is, which has a row of its own.
      const told = row.what === "person" && row.jobs.length === 0 && row.ends.length < 2;
      if (!told && (row.lost.length > 0 || row.jobs.length > 0)) rows.push(row);
    }
    const weight = (row: Missing): number => row.left.length * 100 + row.lost.length + row.jobs.length;
    return { rows: rows.map((row, i) => ({ row, i })).sort((a, b) => weight(b.row) - weight(a.row) || a.i - b.i).map(({ row }) => row), untried: things.length - tried };
  }

  #device(device: Device): Missing {
    const row = { what: "device", name: device.name, ends: [], jobs: [] } as const;
    const bare = without(this.#setup, [device.name]);
    const lost = this.#lost(bare);
    if (lost.length === 0) return { ...row, lost, instead: undefined, left: [], poorer: false };
    return { ...row, lost, ...this.#best(lost, [
      ...this.#spares(device).map(({ spare, by }) => ({ by, names: [spare.name], copy: () => inPlaceOf(this.#setup, device, spare) })),
      ...this.#own(bare, [device.name]),
      ...this.#alone(bare),
    ]) };
  }

  #lead(link: Link): Missing {
    const row = { what: "lead", name: `${link.from} – ${link.to}`, ends: [link.from, link.to], jobs: [] } as const;
    const bare = withoutLink(this.#setup, link);
    const lost = this.#lost(bare);
    if (lost.length === 0) return { ...row, lost, instead: undefined, left: [], poorer: false };
    // What the lead led to cannot be used: joins fall back as if the farther thing were gone.
    const ends = [link.from, link.to].map((end) => this.#deviceOf(end)).filter((name) => !this.#setup.joins.some((join) => canonical(join.device) === canonical(name)));
    return { ...row, lost, ...this.#best(lost, this.#own(bare, ends)) };
  }

  #person(who: string): Missing {
    const things = [...this.#setup.devices.values()].filter((device) => device.placed !== undefined && device.owner !== undefined && canonical(device.owner) === canonical(who)).map((device) => device.name);
    const bare = without(this.#setup, things);
    const lost = things.length === 0 ? [] : this.#lost(bare);
    const jobs = [...new Set(this.#setup.jobs.filter((job) => job.who !== undefined && canonical(job.who) === canonical(who)).map((job) => job.what))]
      .filter((what) => !this.#setup.jobs.some((job) => job.what === what && job.who !== undefined && canonical(job.who) !== canonical(who)));
    const row = { what: "person", name: who, ends: things, lost, jobs } as const;
    if (lost.length === 0) return { ...row, instead: undefined, left: [], poorer: false };
    const spares = things.flatMap((name) => {
      const device = this.#setup.devices.get(canonical(name));
      return device === undefined ? [] : this.#spares(device).filter(({ spare }) => spare.owner === undefined || canonical(spare.owner) !== canonical(who)).slice(0, 1)
        .map(({ spare, by }) => ({ by, names: [spare.name], copy: () => inPlaceOf(without(this.#setup, things.filter((other) => other !== name)), device, spare) }));
    });
    return { ...row, ...this.#best(lost, [...spares, ...this.#own(bare, things)]) };
  }

  /** The one that leaves least lost; nothing where none helps. */
  #best(lost: readonly Loss[], ways: readonly { readonly by: "planned" | "spare" | "own" | "alone"; readonly names: readonly string[]; readonly copy: () => Setup }[]): Pick<Missing, "instead" | "left" | "poorer"> {
    let best: Pick<Missing, "instead" | "left" | "poorer"> = { instead: undefined, left: lost, poorer: false };
    for (const { by, names, copy } of ways) {
      if (this.#copies >= MOST_COPIES || best.left.length === 0) break;
      const now = this.#again(copy());
      const left = this.#losses(now);
      const poorer = [...now].some(([key, one]) => !one.good && this.#reached.get(key)?.good === true);
      if (weigh(left) < weigh(best.left)) best = { instead: { by, names }, left, poorer };
    }
    return best;
  }

  /** What the joined devices have of their own, where they used what is gone. */
  #own(bare: Setup, gone: readonly string[]): { by: "own"; names: string[]; copy: () => Setup }[] {
    const isGone = (name: string): boolean => gone.some((device) => canonical(name) === canonical(device) || canonical(name).startsWith(`${canonical(device)}.`));
    const copy = onItsOwn(bare, isGone);
    const changed = copy.joins.filter((join, i) => join.statements.length !== bare.joins[i]?.statements.length).map((join) => join.device);
    return changed.length === 0 ? [] : [{ by: "own", names: changed, copy: () => copy }];
  }

  /** Where what joined is gone, another that is in the call takes it over, with its sound on now that it is the only one. */
  #alone(bare: Setup): { by: "alone"; names: string[]; copy: () => Setup }[] {
    // While another sends sound the call goes on, and a second live device would be an echo.
    if (bare.joins.length === this.#setup.joins.length || this.#items.some((item) => callState(bare, item).some((join) => join.sound.length > 0))) return [];
    return bare.joins.slice(0, MOST_SPARES).map((join) => ({ by: "alone", names: [join.device], copy: () => alone(bare, join.device) }));
  }

  /** What could stand there: what the text names for it, then what of the kit stands idle, of the same kind before others of its type. */
  #spares(device: Device): { spare: Device; by: "planned" | "spare" }[] {
    const { devices, fallbacks, joins, links } = this.#setup;
    const planned = fallbacks.filter((one) => canonical(one.for) === canonical(device.name)).flatMap((one) => devices.get(canonical(one.device)) ?? []);
    const idle = [...devices.values()].filter((other) => other !== device && !other.missing && other.toBuy === undefined && other.type === device.type && !planned.includes(other)
      && !joins.some((join) => canonical(join.device) === canonical(other.name)) && !links.some((link) => [link.from, link.to].some((end) => canonical(this.#deviceOf(end)) === canonical(other.name))));
    idle.sort((a, b) => Number(b.kind === device.kind) - Number(a.kind === device.kind));
    return [...planned.map((spare) => ({ spare, by: "planned" as const })), ...idle.map((spare) => ({ spare, by: "spare" as const }))].slice(0, MOST_SPARES);
  }

  #deviceOf(end: string): string {
    const { devices } = this.#setup;
    if (devices.has(canonical(end))) return end;
    const at = end.lastIndexOf(".");
    return at < 0 ? end : this.#deviceOf(end.slice(0, at));
  }

  /** Those who have a job or bring something, as far as they are people and not clubs. */
  #people(): string[] {
    const found = new Map<string, string>();
    for (const { who } of this.#setup.jobs) if (who !== undefined) found.set(canonical(who), who);
    for (const { owner, placed } of this.#setup.devices.values()) if (owner !== undefined && placed !== undefined && !/^(the|our)\b|\s/i.test(owner)) found.set(canonical(owner), owner);
    return [...found.values()];
  }

  /** Who reaches whom in a copy, by claim and item. */
  #who(setup: Setup): Map<string, Reached> {
    const out = new Map<string, Reached>();
    // Of a copy everything is worked out afresh: what a trial keeps is kept for one setup.
    const trial = new Trial();
    for (const item of this.#items) {
      const graph = makeGraph(setup, item);
      for (const claim of claims(graph)) {
        const a = claim.assess(trial);
        const gap = a.gaps.some((one) => !(one.open !== undefined && trial.holds(one.open)));
        const voice = claim.way === "online-hears-room" ? graph.voices.find((one) => one.name === claim.subject) : undefined;
        const hearing = gap || voice === undefined ? undefined : heard(graph, voice, trial)?.home;
        // A microphone that is far beyond its reach is none.
        const reached = !gap && a.grade !== "bad" && (hearing === undefined || margin(hearing) >= OUT_OF_REACH);
        if (reached) out.set(`${claim.way} ${canonical(claim.subject)} ${item ?? ""}`, { way: claim.way, unmet: claim.unmet, item, good: a.grade === "good" && (voice === undefined || hearing === undefined || isWell(hearing, voice)) });
      }
    }
    return out;
  }

  #again(copy: Setup): ReadonlyMap<string, Reached> {
    this.#copies += 1;
    return this.#who(copy);
  }

  #lost = (copy: Setup): Loss[] => this.#losses(this.#again(copy));

  /** Who was reached as planned, and is not now. */
  #losses(now: ReadonlyMap<string, Reached>): Loss[] {
    const out = new Map<string, { way: WayName; says: string; items: string[] }>();
    for (const [key, { way, unmet, item }] of this.#reached) {
      if (now.has(key)) continue;
      const one = out.get(`${way} ${unmet}`) ?? { way, says: unmet, items: [] };
      if (item !== undefined) one.items.push(item);
      out.set(`${way} ${unmet}`, one);
    }
    return [...out.values()].map((one) => ({ ...one, items: one.items.length === this.#items.length ? [] : one.items }));
  }
}

/** A loss in one item of many is less than one throughout. */
const weigh = (lost: readonly Loss[]): number => lost.reduce((sum, one) => sum + (one.items.length === 0 ? 1000 : one.items.length), 0);
