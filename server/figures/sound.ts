import type { Scene } from "../checks/check";
import type { Figure } from "../finding";
import type { Trial } from "../model/trial";
import { acoustics } from "../signal/acoustics";
import { listeners, loudest, loudspeakerField } from "../signal/air";
import { node } from "../signal/edges";
import { carries, ONLINE } from "../signal/graph";
import { playingLevel } from "../signal/seats/turned-up";
import { given, round } from "./record";

/** What each seat gets of each loudspeaker. */
export function soundFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, graph } = scene;
  const { noise } = acoustics(setup, trial);
  const out: Figure[] = [];
  const forth = graph.ways("sound", ONLINE, "forth");
  for (const ending of graph.endings.values()) {
    const { part, device } = ending;
    if (part.type === "loudspeaker") {
      const path = forth.get(node("loudspeaker", part.id));
      if (path === undefined || path.length === 0 || !carries(path, trial)) continue;
      const field = loudspeakerField(setup, trial, device, part);
      const ears = listeners(setup, trial).map((ear) => ({ ear, h: field(ear.at) }));
      const worst = ears.reduce((a, b) => (b.h < a.h ? b : a), ears[0] ?? { ear: { name: "", group: "", row: 1, at: { x: 0, y: 0, z: 0 } }, h: 0 });
      const level = playingLevel(graph, trial, ending);
      out.push(
        { name: "level at 1 m when playing speech", of: [part.id], value: round(level), unit: "dBA", formula: "median seat gets max(65, N + 20) of all that play together, at most the loudest clean speech", inputs: [given("noise", noise, "dBA"), given("loudest clean speech", loudest(part, trial), "dBA")], source: "model choice; 65 dBA: listening level of commissioning practice" },
        { name: "level at the worst seat", of: [part.id], at: worst.ear.name, value: round(level + worst.h), unit: "dBA", formula: "L₁ + H", inputs: [given("transfer to that seat", worst.h, "dB")], source: "handbook of sound system design, ch. 6" },
        { name: "most speech over noise at the worst seat", of: [part.id], at: worst.ear.name, value: round(loudest(part, trial) + worst.h - noise), unit: "dB", formula: "Lmax + H − N", inputs: [given("noise", noise, "dBA")], source: "common practice, no source" },
      );
    }
  }
  return out;
}
