import { CONNECTOR_TYPES } from "../../grammar/vocabulary";
import { valueOf, valuesOf, type Bound, type PlaceValue } from "./bound";
import { fromText } from "./make-ranged";
import { readOptics, viewFrom, type Optics } from "./optics";
import type { Ring } from "./position";
import type { Ranged } from "./ranged";
import type { Where } from "./where";

export type Signal = "sound" | "picture" | "network" | "power";
export type PartType = "camera" | "microphone" | "loudspeaker" | "earphones" | "display";
/** What strength of sound a port gives or expects. */
export type PortLevel = "microphone" | "line" | "loudspeaker";

/** What picks up, plays or shows: a device of its own, or a part of one. */
export interface Part {
  /** `laptop.camera`, or the device's name where the device is the thing itself. */
  readonly id: string;
  readonly type: PartType;
  readonly pattern: string;
  /** Mouth to microphone, where the kind or the text says how it is used. */
  readonly mouth: Ranged | undefined;
  /** Q in seven octave bands, each scaled together by nothing: loudspeakers only. */
  readonly directivity: readonly number[] | undefined;
  readonly coverage: { readonly horizontal: number; readonly vertical: number } | undefined;
  /** Loudest clean speech at 1 m, dBA. */
  readonly speechLevel: Ranged | undefined;
  readonly view: Ranged | undefined;
  readonly viewWay: "horizontal" | "vertical" | "diagonal";
  /** Metres. */
  readonly diagonal: Ranged | undefined;
  readonly width: Ranged | undefined;
  /** Of a projector, lumens as printed. */
  readonly light: Ranged | undefined;
  /** How it shows, throws or takes a picture. */
  readonly optics: Optics;
  readonly delay: Ranged | undefined;
  /** Foam or fur over a microphone. */
  readonly windshield: boolean;
  /** Whether it is turned up and down by itself; nothing where the text does not say. */
  readonly gain: "fixed" | "automatic" | undefined;
}

export interface Port {
  readonly id: string;
  readonly name: string;
  readonly connector: string;
  readonly gives: ReadonlySet<Signal>;
  readonly takes: ReadonlySet<Signal>;
  /** Watts that it can give. */
  readonly givesPower: Ranged | undefined;
  readonly host: boolean;
  readonly phantom: boolean;
  /** Stated; what follows from connector and device is for the floor above. */
  readonly level: PortLevel | undefined;
  readonly delay: Ranged | undefined;
}

export type PowerSource = "mains" | "battery" | "usb" | "phantom" | "nothing";

export interface Power {
  /** Any one of them will do; empty where nothing is said. */
  readonly on: ReadonlySet<PowerSource>;
  readonly draws: Ranged | undefined;
  /** Joules, when new. */
  readonly battery: Ranged | undefined;
  /** Seconds on its own battery, where stated. */
  readonly life: Ranged | undefined;
}

export interface Device {
  readonly name: string;
  readonly type: string;
  readonly kind: string;
  /** Whether its kind is one of the typical ones, whose figures are assumed. */
  readonly typical: boolean;
  readonly parts: readonly Part[];
  readonly ports: readonly Port[];
  readonly power: Power;
  readonly sockets: Ranged | undefined;
  /** Of a lead: A that it may carry, where stated. */
  readonly rated: Ranged | undefined;
  /** Of a lead: that it stays on its drum. */
  readonly wound: Bound | undefined;
  readonly length: Ranged | undefined;
  /** Has an echo canceller in the unit itself. */
  readonly cancels: boolean;
  /** Whether it turns sound up and down by itself; nothing where the text does not say. */
  readonly gain: Part["gain"];
  /** Whose words it is for, where it gives sound to some or keeps it; nothing where the text does not say. */
  readonly carries: readonly string[] | undefined;
  /** Placed by the setup, and how. */
  readonly placed: Bound | undefined;
  readonly place: PlaceValue | undefined;
  readonly aim: PlaceValue | undefined;
  readonly fills: string | undefined;
  /** Its place among those that one statement places together. */
  readonly ring: Ring | undefined;
  readonly height: Ranged | undefined;
  /** Gives out what stands on its own screen. */
  readonly mirrored: Bound | undefined;
  readonly owner: string | undefined;
  /** Set where it has to be bought; its price where stated, in the money in which the text counts. */
  readonly toBuy: { readonly price: number | undefined } | undefined;
  /** Nobody has one. */
  readonly missing: boolean;
  /** Whether telephone calls come through; nothing where the text does not say. */
  readonly calls: "off" | "on" | undefined;
  /** The statement that brings it in: `place` where it is placed, else `device`. */
  readonly where: Where;
}

/** The layers that describe a device, most general first: its kind, its `device` statement, its `place` statement. */
export interface Layer {
  readonly statements: readonly Bound[];
  readonly builtIn: boolean;
}

const SELF: Readonly<Record<string, PartType>> = {
  camera: "camera", microphone: "microphone", loudspeaker: "loudspeaker", display: "display", projector: "display",
};

export function makeDevice(name: string, type: string, kind: string, typical: boolean, layers: readonly Layer[], placed: Bound | undefined, ring: Ring | undefined, where: Where): Device {
  const facts = new Facts(name, layers);
  const parts: Part[] = [];
  const own = SELF[type];
  if (own !== undefined) parts.push(makePart(name, own, facts));
  for (const [partName, partLayers] of facts.named("part")) {
    const partType = partLayers.flatMap((l) => l.statements).map((s) => s.owner === "device" ? s : undefined);
    const stated = partType.find((s) => s?.row.head === "part");
    const word = stated && valueOf(stated, "type", "word")?.word;
    const id = `${name}.${partName}`;
    const inner = partLayers.map((layer) => ({ statements: layer.statements.flatMap((s) => (s.row.head === "part" ? s.children : [s])), builtIn: layer.builtIn }));
    if (word !== undefined) parts.push(makePart(id, word as PartType, new Facts(id, inner)));
  }
  const ports: Port[] = [];
  for (const [portName, portLayers] of facts.named("port")) {
    const layer = portLayers[portLayers.length - 1];
    const stated = layer?.statements[0];
    if (layer !== undefined && stated !== undefined) ports.push(makePort(name, portName, stated, layer.builtIn));
  }
  const on = new Set<PowerSource>();
  for (const statement of facts.all("runs")) for (const word of valuesOf(statement, "on", "word")) on.add(word.word as PowerSource);
  const place = placed && valueOf(placed, "place", "place");
  const aim = placed?.children.find((c) => c.row.head === "aim");
  const fills = placed?.children.find((c) => c.row.head === "fills");
  const carries = facts.one("carries");
  const owned = facts.one("owned") ?? facts.one("borrowed");
  const buy = facts.one("to-buy");
  const calls = facts.one("calls");
  return {
    name, type, kind, typical, parts, ports,
    power: {
      on, draws: facts.ranged("draws", "power", "the power that", "draws"), battery: facts.ranged("battery", "energy", "the battery of"),
      life: facts.ranged("runs", "for", "how long the battery of", "lasts"),
    },
    sockets: facts.ranged("sockets", "count", "the sockets of"), rated: facts.ranged("rated", "current", "what", "may carry"), wound: facts.one("wound"), length: facts.ranged("length", "length", "the length of"),
    cancels: facts.one("cancels") !== undefined && facts.one("cancels")?.negated !== true,
    gain: gainOf(facts.one("gain")), carries: carries && valuesOf(carries, "of", "name").map((name) => name.text), placed, place, ring, aim: aim && valueOf(aim, "at", "place"), fills: fills && valueOf(fills, "surface", "name")?.text,
    height: facts.ranged("height", "height", "the height of"), mirrored: facts.one("mirrored"),
    owner: owned && (valueOf(owned, "by", "text") ?? valueOf(owned, "from", "text"))?.text, where,
    toBuy: buy && { price: valueOf(buy, "price", "quantity")?.best }, missing: facts.one("missing") !== undefined,
    calls: (calls && valueOf(calls, "how", "word")?.word) as Device["calls"],
  };
}

/** What the layers say of one thing, the most special layer winning. */
class Facts {
  constructor(readonly id: string, readonly layers: readonly Layer[]) {}

  all(head: string): Bound[] {
    for (let i = this.layers.length - 1; i >= 0; i -= 1) {
      const found = this.layers[i]?.statements.filter((s) => s.row.head === head) ?? [];
      if (found.length > 0) return found;
    }
    return [];
  }

  one(head: string): Bound | undefined {
    return this.all(head)[0];
  }

  ranged(head: string, slot: string, before: string, after = ""): Ranged | undefined {
    for (let i = this.layers.length - 1; i >= 0; i -= 1) {
      const layer = this.layers[i];
      for (const statement of layer?.statements ?? []) {
        if (statement.row.head !== head) continue;
        const value = valueOf(statement, slot, "quantity");
        if (value === undefined || value.said === "unknown") continue;
        return fromText(value, statement, `${this.id}.${head}${statement.row.slots[0]?.id === slot ? "" : `.${slot}`}`, `${before} ${this.id}${after === "" ? "" : ` ${after}`}`, layer?.builtIn ?? false);
      }
    }
    return undefined;
  }

  /**
   * Named things (parts, ports) with the layers that speak of each; numbered sets are spread out. A set that is stated anew takes the
   * place of the whole set: a mixer with `ports in 1 to 4` has no more inputs, however many its kind has.
   */
  named(head: "part" | "port"): Map<string, Layer[]> {
    const out = new Map<string, Layer[]>();
    const add = (name: string, statement: Bound, builtIn: boolean): void => {
      out.set(name, [...(out.get(name) ?? []), { statements: [statement], builtIn }]);
    };
    for (const layer of this.layers) {
      const anew = new Set(layer.statements.map(setName));
      for (const [member, said] of out) {
        const sets = said.flatMap((l) => l.statements).map(setName);
        if (sets.every((set) => set !== undefined && anew.has(set))) out.delete(member);
      }
      for (const statement of layer.statements) {
        const name = valueOf(statement, "name", "name")?.text;
        if (name === undefined) continue;
        if (statement.row.head === head) add(name, statement, layer.builtIn);
        else if (head === "port" && statement.row.head === "ports") for (const member of numbered(statement, name)) add(member, statement, layer.builtIn);
      }
    }
    return out;
  }
}

/** The name of a numbered set of ports. */
const setName = (statement: Bound): string | undefined => (statement.row.head === "ports" ? valueOf(statement, "name", "name")?.text : undefined);

/** `in 1 to 8`: in-1 … in-8; at most a few hundred, whatever a file says. */
export function numbered(statement: Bound, name: string): string[] {
  const first = Math.round(valueOf(statement, "first", "quantity")?.best ?? 1);
  const last = Math.min(Math.round(valueOf(statement, "last", "quantity")?.best ?? first), first + 999);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => `${name}-${first + i}`);
}

function makePart(id: string, type: PartType, facts: Facts): Part {
  const factors = facts.one("directivity");
  const coverage = facts.one("coverage");
  const angle = (slot: string): number => (coverage && valueOf(coverage, slot, "quantity")?.best) ?? 90;
  const view = facts.one("view");
  const pattern = facts.one("pattern");
  const optics = readOptics(facts);
  const stated = facts.ranged("view", "angle", "the angle of view of");
  // Sensor and lens that the text states say more than what its kind usually has.
  const reckoned = stated === undefined || stated.from.how === "kind" ? viewFrom(id, optics) : undefined;
  return {
    id, type, pattern: (pattern && valueOf(pattern, "pattern", "word")?.word) ?? "omni",
    mouth: facts.ranged("mouth", "distance", "the distance from mouth to"),
    directivity: factors && valuesOf(factors, "factors", "quantity").map((q) => q.best),
    coverage: coverage && { horizontal: angle("horizontal"), vertical: angle("vertical") },
    speechLevel: facts.ranged("speech-level", "level", "the loudest speech that", "plays cleanly"),
    view: reckoned ?? stated, optics,
    viewWay: (reckoned !== undefined ? "horizontal" : (view && valueOf(view, "way", "word")?.word) ?? "horizontal") as Part["viewWay"],
    diagonal: facts.ranged("diagonal", "length", "the diagonal of"), width: facts.ranged("width", "length", "the width of"),
    light: facts.ranged("light", "flux", "the light of"),
    delay: facts.ranged("delay", "time", "the delay of"),
    windshield: facts.one("windshield") !== undefined,
    gain: gainOf(facts.one("gain")),
  };
}

/** What a `gain` statement says. */
export const gainOf = (statement: Bound | undefined): Part["gain"] => (statement && valueOf(statement, "how", "word")?.word) as Part["gain"];

function makePort(device: string, name: string, stated: Bound, builtIn: boolean): Port {
  const id = `${device}.${name}`;
  const connector = valueOf(stated, "connector", "word")?.word ?? "";
  const find = (head: string): Bound | undefined => stated.children.find((c) => c.row.head === head);
  const gives = find("gives");
  const takes = find("takes");
  const host = find("host") !== undefined;
  const words = (bound: Bound | undefined): Set<Signal> => new Set(bound === undefined ? [] : valuesOf(bound, "what", "word").map((w) => w.word as Signal));
  const both = new Set<Signal>((CONNECTOR_TYPES[connector]?.carries ?? []).filter((signal) => signal !== "power"));
  const silent = gives === undefined && takes === undefined;
  const power = gives && valueOf(gives, "power", "quantity");
  const level = find("level");
  const delay = find("delay");
  const time = delay && valueOf(delay, "time", "quantity");
  return {
    id, name, connector, host, phantom: find("phantom") !== undefined, level: (level && valueOf(level, "of", "word")?.word) as Port["level"],
    gives: silent ? both : new Set([...words(gives), ...(host ? both : [])]),
    takes: silent ? both : new Set([...words(takes), ...(host ? both : [])]),
    givesPower: gives !== undefined && power !== undefined && power.said !== "unknown" ? fromText(power, gives, `${id}.power`, `the power that ${id} gives`, builtIn) : undefined,
    delay: delay !== undefined && time !== undefined && time.said !== "unknown" ? fromText(time, delay, `${id}.delay`, `the delay of ${id}`, builtIn) : undefined,
  };
}
