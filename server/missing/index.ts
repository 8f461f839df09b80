/**
 * What is lost if one device, one lead or one person is missing, and what stands in: each is taken out of a copy of the setup in
 * turn, the best of what is at hand is put in its place, and who still reaches whom is worked out anew, item by item.
 */
import type { Device } from "../model/device";
import { canonical } from "../model/names";
import { list } from "../model/show";
import type { Link, Setup } from "../model/setup";
import type { WayName } from "../model/ways";
import { callState } from "../signal/call-state";
import { cutOff, otherWays, withoutCut } from "./line";
import { standingOf, type Standing } from "./standing";
import { alone, byItself, inPlaceOf, onItsOwn, without, withoutLink } from "./without";
import { once } from "../model/watching/once";

/** Somebody who is not reached any more. */
export interface Loss {
  readonly way: WayName;
  /** As a sentence has it: `the people online do not hear Ines`. */
  readonly says: string;
  /** Items in which it is so; none where it is throughout. */
  readonly items: readonly string[];
}

/** What the text names for it, what of the kit stands idle, what a joined device has of its own, another joined device alone, radio in place of a cable, or a telephone that dials in. */
export type InsteadBy = "planned" | "spare" | "own" | "whole" | "alone" | "radio" | "dial-in";

export interface Missing {
  readonly what: "device" | "lead" | "person";
  /** Of a lead its two ends, of a person also what does not come with them. */
  readonly name: string;
  readonly ends: readonly string[];
  /** Without it, and nothing done about it. */
  readonly lost: readonly Loss[];
  /** What is done: a spare in its place, or what a joined device has of its own; nothing where nothing at hand helps. */
  readonly instead: { readonly by: InsteadBy; readonly names: readonly string[] } | undefined;
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
/** Ways that a telephone in the room mends. */
const BY_TELEPHONE: ReadonlySet<WayName> = new Set(["room-hears-online", "online-hears-room", "call"]);
/** Spares tried for one thing. */
const MOST_SPARES = 3;

/** Worked out once for a setup. Only what takes something away is listed, the greatest loss that stays first. */
export const whatIfMissing = once((setup: Setup): WhatIf => new Trying(setup).all());

class Trying {
  readonly #setup: Setup;
  readonly #items: readonly (string | undefined)[];
  readonly #planned: Standing;
  #copies = 0;

  constructor(setup: Setup) {
    this.#setup = setup;
    this.#items = setup.items.length === 0 ? [undefined] : setup.items.slice(0, MOST_ITEMS).map((item) => item.name);
    this.#planned = standingOf(setup, this.#items);
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
      ...otherWays(this.#setup, bare),
      ...this.#own(bare, [device.name], lost),
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
    return { ...row, lost, ...this.#best(lost, [...otherWays(this.#setup, bare), ...this.#own(bare, ends, lost)]) };
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
    return { ...row, ...this.#best(lost, [...spares, ...otherWays(this.#setup, bare), ...this.#own(bare, things, lost), ...this.#alone(bare)]) };
  }

  /** The one that leaves least lost; nothing where none helps. */
  #best(lost: readonly Loss[], ways: readonly { readonly by: InsteadBy; readonly names: readonly string[]; readonly copy: () => Setup }[]): Pick<Missing, "instead" | "left" | "poorer"> {
    let best: Pick<Missing, "instead" | "left" | "poorer"> = { instead: undefined, left: lost, poorer: false };
    for (const { by, names, copy } of ways) {
      if (this.#copies >= MOST_COPIES || best.left.length === 0) break;
      const now = this.#again(copy());
      const left = this.#losses(now);
      if (weigh(left) < weigh(best.left)) best = { instead: { by, names }, left, poorer: this.#isPoorer(now) };
    }
    // A telephone brings the sound across, both ways; how well, nothing here tells.
    if (best.instead === undefined && this.#setup.service.dialIn === "offered" && lost.some((one) => one.way === "internet")) {
      return { instead: { by: "dial-in", names: [] }, left: lost.filter((one) => !BY_TELEPHONE.has(one.way)), poorer: true };
    }
    return best;
  }

  /** What the joined devices have of their own, where they used what is gone: for what is lost alone, then wherever they named it, then all that they have. */
  #own(bare: Setup, gone: readonly string[], lost: readonly Loss[]): { by: InsteadBy; names: string[]; copy: () => Setup }[] {
    const isGone = (name: string): boolean => gone.some((device) => canonical(name) === canonical(device) || canonical(name).startsWith(`${canonical(device)}.`));
    const ways = new Set(lost.map((one) => one.way));
    const tried = [onItsOwn(bare, isGone, ways), onItsOwn(bare, isGone)];
    const changed = (copy: Setup): string[] => copy.joins.filter((join, i) => join.statements.length !== bare.joins[i]?.statements.length).map((join) => join.device);
    const users = changed(onItsOwn(bare, isGone));
    return [
      ...tried.flatMap((copy, i) => (changed(copy).length === 0 || (i > 0 && same(copy, tried[0])) ? [] : [{ by: "own" as const, names: changed(copy), copy: () => copy }])),
      // Its own loudspeaker with its own microphone: the one pair whose echo it holds for sure.
      ...(users.length === 1 ? users.map((device) => ({ by: "whole" as const, names: [device], copy: () => byItself(bare, device) })) : []),
    ];
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

  #again(copy: Setup): Standing {
    this.#copies += 1;
    const cut = cutOff(this.#setup, copy);
    const rest = withoutCut(copy, cut);
    const standing = standingOf(rest, this.#items);
    const ails = new Map(standing.ails);
    for (const item of this.#items) {
      if (cut.length > 0) ails.set(`internet ${item ?? ""}`, { way: "internet", item, severity: "error", says: `nothing leads from ${list(cut)} to the internet` });
      if (rest.joins.length === 0) ails.set(`call ${item ?? ""}`, { way: "call", item, severity: "error", says: "no device is in the call" });
    }
    return { ...standing, ails };
  }

  #lost = (copy: Setup): Loss[] => this.#losses(this.#again(copy));

  /** Who was reached as planned, and is not now; and which of the six jobs fails now that did not. */
  #losses(now: Standing): Loss[] {
    const out = new Map<string, { way: WayName; says: string; items: string[] }>();
    const add = (way: WayName, says: string, item: string | undefined): void => {
      const one = out.get(`${way} ${says}`) ?? { way, says, items: [] };
      if (item !== undefined) one.items.push(item);
      out.set(`${way} ${says}`, one);
    };
    for (const [key, { way, unmet, item }] of this.#planned.reached) if (!now.reached.has(key)) add(way, unmet, item);
    for (const [key, { way, says, item, severity }] of now.ails) {
      // One loss of a way in an item says enough.
      const told = [...out.values()].some((one) => one.way === way && (item === undefined || one.items.includes(item)));
      if (severity === "error" && this.#planned.ails.get(key)?.severity !== "error" && !told) add(way, says, item);
    }
    return [...out.values()].map((one) => ({ ...one, items: one.items.length === this.#items.length ? [] : one.items }));
  }

  /** Whether something that reached well reaches less well, or one of the six jobs is doubtful that was not. */
  #isPoorer(now: Standing): boolean {
    return [...now.reached].some(([key, one]) => !one.good && this.#planned.reached.get(key)?.good === true)
      || [...now.ails].some(([key, { severity }]) => severity === "warning" && !this.#planned.ails.has(key));
  }
}

const same = (a: Setup, b: Setup | undefined): boolean => a.joins.every((join, i) => join.statements.length === b?.joins[i]?.statements.length);

/** A loss in one item of many is less than one throughout. */
const weigh = (lost: readonly Loss[]): number => lost.reduce((sum, one) => sum + (one.items.length === 0 ? 1000 : one.items.length), 0);
