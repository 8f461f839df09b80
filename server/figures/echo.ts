import type { Scene } from "../checks/check";
import type { Figure } from "../finding";
import type { Trial } from "../model/trial";
import { echoOf, returnOf, worstLoops, type Loop } from "../signal/echo";
import { callDelay } from "../signal/graph";
import { byBand, given, input, round } from "./record";

/** What comes back to the people online, and of the room's own voices to the room. */
export function echoFigures(scene: Scene, trial: Trial): Figure[] {
  return worstLoops(scene.graph).flatMap((loop): Figure[] => {
    const echo = echoOf(scene.graph, loop, trial);
    if (echo === undefined) return [];
    const of = [loop.plays.join.device, loop.sends.join.device];
    const delay = callDelay(scene.setup, loop.plays);
    const pair = echo.pair;
    return [
      ...(pair === undefined ? [] : byBand(pair.coupling, (value) => ({
        name: "coupling beside the near talker", of: [pair.speaker.part.id, pair.mic.part.id], value: round(value), unit: "dB", formula: "G = L_S1 − L_N1 + H_S − H_N",
        inputs: [given("distance", pair.metres, "m"), given("H_N", pair.talkerTransfer, "dB")], source: "model choice",
      }))),
      { name: "echo loss before cancellers", of, value: round(echo.uncancelled), unit: "dB", formula: "TCL = −10·lg Σ wₖ·10^(G/10)", inputs: [], source: "ITU-T G.122 (weights recalled)" },
      { name: "echo loss", of, value: round(echo.loss), unit: "dB", formula: "max(46, TCL) where a canceller holds what is played", inputs: [], source: "ITU-T P.1110 for 46 dB" },
      { name: "talker echo loudness rating", of, value: round(echo.telr), unit: "dB", formula: "TELR = SLR + RLR + TCL = 8 + 2 + TCL", inputs: [given("echo loss", echo.loss, "dB")], source: "ITU-T G.107" },
      { name: "delay of the echo, half the round trip", of, value: round(echo.delay * 1000), unit: "ms", formula: "T = ½(D₁ + τ_out + r/c + τ_in + D₂)", inputs: [input(delay, trial, "ms", 1000)], source: "ITU-T G.131" },
      { name: "rating needed at this delay", of, value: round(echo.needed), unit: "dB", formula: "14 + 40·lg((1 + T/10)/(1 + T/150))", inputs: [given("delay", echo.delay * 1000, "ms")], source: "ITU-T G.131, form inferred" },
      ...returned(scene, loop, trial),
    ];
  });
}


/** A voice of the room that a second device plays again. */
function returned(scene: Scene, loop: Loop, trial: Trial): Figure[] {
  const back = returnOf(scene.graph, loop, trial);
  if (back === undefined) return [];
  const of = [loop.plays.join.device, loop.sends.join.device];
  return [
    {
      name: "voice coming back, over the voice itself", of, at: back.seat, value: round(back.over), unit: "dB", formula: "L_S + H_S − (L_V + H_V), at the seat where that is most",
      inputs: [given(`level of ${back.speaker.part.id} there`, back.played, "dBA"), given(`level of ${back.voice.name} there`, back.spoken, "dBA")], source: "handbook of sound system design, ch. 6",
    },
    {
      name: "voice coming back, how late", of, value: round(back.delay * 1000), unit: "ms", formula: "D₁ + D₂ + τ_in + τ_out",
      inputs: [input(callDelay(scene.setup, loop.sends), trial, "ms", 1000), input(callDelay(scene.setup, loop.plays), trial, "ms", 1000)], source: "arithmetic",
    },
  ];
}
