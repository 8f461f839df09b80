import { append } from "../model/edits";
import { canonical } from "../model/names";
import type { Internet } from "../model/setup";
import { rootFile, type Case, type Check, type Remedy, type Scene } from "./check";
import { inUse } from "./internet-text";

export const noSecondPath: Check = {
  bearing: "beside",
  entry: {
    code: "no-second-path", title: "There is one way to the internet and nothing behind it", severity: "hint", group: "The internet",
    notice: "The line fails, and everybody looks at everybody.",
    why: "All joined devices go out over one connection, and the text names nothing that steps in for it.",
    todo: ["A mobile router or a telephone that shares its connection: fallback phone for venue.", "Dial in by telephone: the number on the hand-out.", "If the risk is taken: accept it with the reason."],
    source: "common practice, no source", symptoms: ["internet is gone", "line failed", "offline"], limit: "one more way to the outside",
  },
  cases: (scene) => {
    const used = inUse(scene);
    return used.length !== 1 ? [] : used.map(({ internet }): Case => ({
      key: internet.name, ways: ["internet"],
      measure: () => {
        const stepsIn = scene.setup.fallbacks.find((fallback) => canonical(fallback.for) === canonical(internet.name))?.device
          ?? (scene.setup.service.dialIn === "offered" ? "dialling in" : undefined);
        return {
          severity: stepsIn === undefined ? "hint" : undefined, badness: stepsIn === undefined ? 1 : -1,
          cause: { key: `second path ${internet.name}`, subjects: [internet.name], where: internet.where },
          say: () => ({
            because: `everything goes out over ${internet.name}`, effect: "nothing is named that steps in for it",
            summary: stepsIn === undefined ? `nothing steps in for ${internet.name}` : `${stepsIn} steps in for ${internet.name}`, chain: [],
          }),
        };
      },
      remedies: () => remedies(scene, internet),
    }));
  },
};

/** Another connection that the text states, or a telephone or a mobile router that is there. */
function remedies({ setup }: Scene, internet: Internet): Remedy[] {
  const file = rootFile(setup);
  if (file === undefined) return [];
  const others = setup.internets.filter((other) => other !== internet).map((other) => other.name);
  const mobile = [...setup.devices.values()].filter((device) => device.ports.some((port) => port.connector === "mobile")).map((device) => device.name);
  return [...others, ...mobile].slice(0, 3).map((name) => ({ title: `Let ${name} step in for ${internet.name}`, edits: [append(file, `fallback ${name} for ${internet.name}`, ["fallback"])] }));
}
