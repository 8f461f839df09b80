import { assumed, unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import type { Ranged } from "../model/ranged";
import { figure, withUnit } from "../model/show";
import type { Trial } from "../model/trial";
import type { WayName } from "../model/ways";
import { ratedPower } from "../physics/mains";
import { bottlenecks, circuitOf, drawOf, loadOn, voltageOf, type Bottleneck } from "../signal/circuits";
import { limitOf, type Case, type Check, type Outcome, type Remedy, type Scene } from "./check";
import { elsewhere, heaviest, replug } from "./mains-remedies";
import { waysOf } from "./no-power";

export const circuitOverload: Check = {
  bearing: "device", silentInOrder: true, takesLimit: true, asksWhenRaised: true,
  entry: {
    code: "circuit-overload", title: "More hangs on an outlet, a lead or a circuit than it may carry", severity: "error", group: "Power and heat",
    notice: "A breaker goes, and with it everything behind it: picture, sound and call at once. Or a lead gets hot.",
    why: "All that is plugged in behind one breaker goes through it, from however many outlets, and what hangs on it besides counts too. A lead carries no more than is printed on it.",
    todo: ["Spread the plugs over outlets of other circuits: ask the venue which breaker feeds which.", "Heaters, urns and kettles elsewhere, or off.", "Never replace a fuse or a breaker by a larger one. What may hang on what, the venue, the local code and licensed people decide."],
    source: "arithmetic, P = I·U; 80 per cent over three hours: US National Electrical Code 210.20(A), where a limit declares it; draws: as data sheets or kinds have them", symptoms: ["fuse blown", "breaker tripped", "everything off at once", "lead gets hot"],
    limit: "what is rated, times the voltage; limit circuit-overload 80 % where the venue says so",
  },
  cases: (scene) => [...perhapsShared(scene), ...bottlenecks(scene.setup).filter(({ rated }) => rated !== undefined).map((neck): Case => ({
    key: `load ${neck.kind} ${neck.name}`, ways: waysThrough(scene, neck),
    measure: (trial) => measure(scene, neck, trial), remedies: () => spread(scene, neck),
  }))],
};

/** Outlets of which nobody says behind which breaker they are: all behind one, at worst, and then it may be too much. Never more than a question. */
function perhapsShared(scene: Scene): Case[] {
  const { setup } = scene;
  const loose = bottlenecks(setup).filter((neck) => neck.kind === "outlet" && circuitOf(setup, neck.name) === undefined);
  if (loose.length < 2) return [];
  const names = loose.map(({ name }) => name);
  const called = names.length > 3 ? "the outlets" : names.join(" and ");
  const rated: Ranged = loose.map((neck) => neck.rated).filter((r) => r !== undefined).sort((a, b) => b.best - a.best)[0]
    ?? assumed("circuit.rated", "what the breaker behind an outlet is rated", "current", { best: 16, low: 10, high: 20, source: "common practice, no source" });
  const shared = unsaid("circuit.shared", `whether ${called} are behind one breaker`, false, undefined, `Are ${called} behind one breaker, and what may it carry?`);
  const neck: Bottleneck = { name: called, kind: "circuit", rated, devices: [...new Set(loose.flatMap(({ devices }) => devices))], outlets: names, besides: undefined, where: loose[0]?.where ?? setup.titleWhere };
  return [{
    key: `shared ${names.join(" ")}`, ways: waysThrough(scene, neck), asks: true,
    measure: (trial) => {
      const all = measure(scene, neck, trial);
      return all === undefined || all.severity === undefined || trial.holds(shared) ? all : { ...all, severity: undefined, badness: -1 };
    },
  }];
}

/** All ways that go through what hangs there. */
export const waysThrough = (scene: Scene, neck: Bottleneck): readonly WayName[] => [...new Set(neck.devices.flatMap((device) => waysOf(scene, device)))];

function measure({ setup }: Scene, neck: Bottleneck, trial: Trial): Outcome | undefined {
  if (neck.rated === undefined) return undefined;
  const share = limitOf(setup, "circuit-overload", 1);
  const [volts, amperes] = [voltageOf(setup, trial), trial.value(neck.rated)];
  const most = ratedPower(amperes, volts) * share;
  const value = loadOn(neck, trial);
  return {
    severity: value > most ? "error" : undefined, badness: (value - most) / 100, measured: { value, unit: "W" }, limit: { value: most, unit: "W" },
    cause: { key: `load ${canonical(neck.name)}`, subjects: [neck.name], where: neck.where },
    say: () => {
      const parts = [...heaviest(neck.devices).map((device) => `${device.name} ${withUnit(drawOf(device, trial), "W")}`), ...(neck.besides === undefined ? [] : [`${withUnit(trial.value(neck.besides), "W")} besides`])];
      const listed = parts.length > 4 ? [...parts.slice(0, 3), `${parts.length - 3} more`] : parts;
      const through = neck.outlets.length > 1 ? `, through ${neck.outlets.join(" and ")} together` : "";
      const is = `${withUnit(value, "W")} hang on ${neck.name}${through}: ${listed.join(", ")}`;
      return {
        because: `${is}; ${withUnit(amperes, "A")} at ${withUnit(volts, "V")}${share < 1 ? `, of which ${figure(share * 100)} % are allowed,` : ""} carry ${withUnit(most, "W")}`,
        effect: "it may trip, and all of that goes off at once", summary: is, chain: [`load ${withUnit(value, "W")}, ${withUnit(most, "W")} are allowed`],
      };
    },
  };
}

/** What takes most, plugged in on another circuit. */
function spread(scene: Scene, neck: Bottleneck): Remedy[] {
  const { setup } = scene;
  return heaviest(neck.devices).slice(0, 4).flatMap((device): Remedy[] => {
    // A device on a lead takes its lead with it only where the lead is what is too full.
    const link = setup.mains.find((m) => canonical(m.to) === canonical(device.name));
    if (link === undefined) return [];
    const behind = new Set([neck.name, ...neck.outlets, link.from]);
    return elsewhere(scene, device, { circuit: neck.kind === "circuit" ? neck.name : undefined, names: [...behind] })
      .filter((name) => !reaches(scene, neck, name)).slice(0, 2).flatMap((name) => replug(scene, link, name));
  });
}

/** Whether what is plugged in there goes through the bottleneck all the same. */
function reaches(scene: Scene, neck: Bottleneck, name: string): boolean {
  const own = new Set([neck.name, ...neck.outlets].map(canonical));
  let at: string | undefined = name;
  for (let i = 0; at !== undefined && i < 20; i += 1) {
    if (own.has(canonical(at))) return true;
    const here: string = at;
    at = scene.setup.mains.find((m) => canonical(m.to) === canonical(here))?.from;
  }
  return false;
}
