/** Figures of what goes round: mean gain, peak allowance and margin of the worst loop in the room and through the call, and what comes back from other rooms. */
import type { Scene } from "../checks/check";
import type { Figure } from "../finding";
import type { Trial } from "../model/trial";
import { howlOf, type Howl } from "../signal/loops/howl";
import { remoteEcho } from "../signal/loops/remote";
import { round } from "./record";

export function loopFigures(scene: Scene, trial: Trial): Figure[] {
  const local = howlOf(scene.graph, "local", trial);
  const whole = howlOf(scene.graph, "whole", trial);
  return [
    ...(local === undefined ? [] : figuresOf(local, "in the room")),
    ...(whole === undefined || !whole.links.some((link) => link.call) ? [] : figuresOf(whole, "through the call")),
    ...scene.setup.remoteRooms.flatMap((room): Figure[] => {
      const echo = remoteEcho(scene.graph, room, trial);
      return echo === undefined ? [] : [
        { name: "echo loss", of: [room.name], value: round(echo.loss), unit: "dB", formula: "46 dB where it cancels its echo, else as assumed", inputs: [], source: "ITU-T P.1110 for 46 dB; model choice else" },
        { name: "talker echo loudness rating", of: [room.name], value: round(echo.telr), unit: "dB", formula: "TELR = SLR + RLR + TCL = 8 + 2 + TCL", inputs: [{ name: "echo loss", value: round(echo.loss), unit: "dB" }], source: "ITU-T G.107" },
        { name: "rating needed at this delay", of: [room.name], value: round(echo.needed), unit: "dB", formula: "14 + 40·lg((1 + T/10)/(1 + T/150))", inputs: [{ name: "delay", value: round(echo.delay * 1000), unit: "ms" }], source: "ITU-T G.131, form inferred" },
      ];
    }),
  ];
}

function figuresOf(howl: Howl, where: string): Figure[] {
  const through = howl.links.flatMap((link) => [link.from.mic?.part.id ?? link.from.remote?.name ?? link.from.sends?.join.device ?? "", link.outlet.speaker?.part.id ?? link.outlet.remote?.name ?? link.outlet.plays?.join.device ?? ""]);
  const common = { of: [...new Set(through)], unit: "dB", band: howl.band };
  const gain = { name: "mean gain", value: round(howl.gain), unit: "dB" };
  const peak = { name: "peak allowance", value: round(howl.peak), unit: "dB" };
  return [
    {
      ...common, name: `mean gain of all loops ${where}`, value: gain.value, formula: "10·lg ρ(M), M_ji = Σ β_il·10^(G_lj/10)", source: "model choice",
      inputs: howl.links.flatMap((link, i) => [{ name: `link ${i + 1}, by wire`, value: round(link.wired), unit: "dB" }, { name: `link ${i + 1}, through the air`, value: round(link.air), unit: "dB" }]),
    },
    { ...common, name: `peak allowance of the worst loop ${where}`, value: peak.value, formula: "20·lg(√d + √(v·ln(B·T/4))) − 10·lg(d + v), B = 0.707·f", inputs: [], source: "model choice, after Schroeder 1954" },
    { ...common, name: `gain of the worst loop ${where}, peaks with it`, value: round(howl.gain + howl.peak), formula: "mean gain + peak allowance; howls from 0 dB on", inputs: [gain, peak], source: "model choice" },
  ];
}
