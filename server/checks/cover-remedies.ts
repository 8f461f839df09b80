/** What may mend a way that does not go through: a setting, a cable, a turn of a camera, something owned. */
import type { Port, Signal } from "../model/device";
import { append, insertInto } from "../model/edits";
import { canonical } from "../model/names";
import { Trial } from "../model/trial";
import type { Where } from "../model/where";
import type { Claim } from "../signal/coverage";
import { goTogether } from "../signal/wiring";
import { fileOf, rootFile, type Remedy, type Scene } from "./check";
import { joinCamera } from "./camera-remedies";
import { replaceIn } from "./join-text";
import { portPair, touches, wiredTo } from "./plugs";

export function remediesFor(scene: Scene, claim: Claim): readonly Remedy[] {
  const assessment = claim.assess(new Trial());
  const gap = assessment.gaps[0];
  if (gap === undefined) return [];
  const [first, second] = gap.between;
  if (gap.cause.startsWith("link ") && first !== undefined && second !== undefined) return connect(scene, first, second, claim);
  switch (gap.cause) {
    case "nothing-plays": return [...setting(scene, "plays", "sound"), ...playElsewhere(scene)];
    case "nothing-sends-sound": return setting(scene, "sends", "sound");
    case "nothing-sends-picture": return [...setting(scene, "sends", "picture"), ...joinCamera(scene, claim.subject)];
    case "nothing-shows": return showLarger(scene);
    default: return [];
  }
}

/** Free ports on both sides that one cable, or radio, joins in the way that is needed. */
function connect(scene: Scene, computer: string, other: string, claim: Claim): Remedy[] {
  const { setup } = scene;
  const file = rootFile(setup);
  const a = setup.devices.get(canonical(computer));
  const b = setup.devices.get(canonical(other));
  if (file === undefined || a === undefined || b === undefined) return [];
  const signal: Signal = claim.way.includes("hear") ? "sound" : "picture";
  const fromComputer = claim.way.startsWith("room-");
  const [source, sink] = fromComputer ? [a, b] : [b, a];
  // A cable that goes into the wrong port is moved, not joined by a second one.
  const wrong = setup.links.find((l) => !isSet(scene, l.where) && touches(l, a) && touches(l, b));
  const taken = new Set(setup.links.filter((l) => l !== wrong).flatMap((l) => [canonical(l.from), canonical(l.to)]));
  const free = (port: Port): boolean => !taken.has(canonical(port.id)) || port.connector === "bluetooth";
  const out: Remedy[] = [];
  for (const how of ["cable", "radio"] as const) {
    for (const x of source.ports.filter((p) => p.gives.has(signal) && free(p))) {
      for (const y of sink.ports.filter((p) => p.takes.has(signal) && free(p))) {
        if (!goTogether(x, y, how)) continue;
        const text = `${how} from ${x.id} to ${y.id}`;
        out.push({
          title: how === "cable" ? `Run ${wrong?.how === how ? "the" : "a"} cable from ${x.id} to ${y.id}` : `Link ${x.id} with ${y.id} by radio`,
          edits: [wrong === undefined || wrong.how !== how ? append(file, text, [how, "cable", "radio"]) : { path: wrong.where.path, start: wrong.where.start, end: wrong.where.end, newText: text }],
        });
      }
    }
  }
  // What plugs straight in comes before what is led through an adapter of many ports.
  return out.slice(0, 4);
}

/** Turns on again what a join says it does not do; else lets its own part do it. */
function setting(scene: Scene, head: "plays" | "sends", what: "sound" | "picture"): Remedy[] {
  const type = head === "plays" ? "loudspeaker" : what === "sound" ? "microphone" : "camera";
  return scene.graph.joins.flatMap((state): Remedy[] => {
    if (!state.device.parts.some((part) => part.type === type)) return [];
    const verb = head === "plays" ? "play" : "send";
    return [{ title: `Let ${state.join.device} ${verb} ${what === "sound" ? "sound" : "its picture"}`, edits: replaceIn(scene.setup, state, head, what, scene.item, `${head} ${what}`) }];
  });
}

/** A loudspeaker that is there already, connected or not, instead of what plays now. */
export function playElsewhere(scene: Scene): Remedy[] {
  const { setup, graph } = scene;
  return graph.joins.slice(0, 1).flatMap((state) => [...setup.devices.values()]
    .filter((d) => d.placed !== undefined && d !== state.device && d.parts.some((p) => p.type === "loudspeaker") && !state.plays.some((s) => canonical(s.name).startsWith(canonical(d.name))))
    .map((d): Remedy => ({ title: `Play the call on ${d.name}`, edits: replaceIn(setup, state, "plays", "sound", scene.item, `plays sound on ${d.name}`) })));
}

/** The call on another display: one that stands there, or one that is owned and can be placed and connected. */
function showLarger(scene: Scene): Remedy[] {
  const { setup, graph } = scene;
  const file = rootFile(setup);
  if (file === undefined) return [];
  return graph.joins.slice(0, 1).flatMap((state) => {
    const screens = [...setup.devices.values()].filter((d) => d.type !== "computer" && d.parts.some((p) => p.type === "display"));
    return screens.flatMap((d): Remedy[] => {
      if (state.shows.some((s) => s.what === "call" && canonical(s.name).startsWith(canonical(d.name)))) return [];
      const owner = fileOf(setup, state.join.where.path);
      if (owner === undefined) return [];
      const edits = [insertInto(owner, state.join.bound, [`shows call on ${d.name}`])];
      if (!wiredTo(setup, state.device, d)) {
        const pair = portPair(setup, state.device, d, "picture", true);
        if (pair === undefined) return [];
        edits.push(append(file, `cable from ${pair[0].id} to ${pair[1].id}`, ["cable", "radio"]));
      }
      if (d.placed === undefined) edits.push(append(file, d.type === "projector" ? `place ${d.name} on table at middle, fills front-screen` : `place ${d.name} at front`, ["place"]));
      const beside = state.shows.some((s) => s.what !== "call" && canonical(s.name).startsWith(canonical(d.name)));
      return [{ title: `Show the call on ${d.name}${beside ? " too, beside what is presented" : ""}`, edits }];
    });
  });
}

/** Whether one statement plugs in a whole set. */
const isSet = (scene: Scene, where: Where): boolean => scene.setup.links.filter((l) => l.where === where).length > 1;
