import { canonical } from "../model/names";
import { assumed } from "../model/make-ranged";
import { figure } from "../model/show";
import { flickerLeft } from "../physics/light";
import { shotKey, shotsOf } from "../signal/pictures/shots";
import type { Case, Check } from "./check";
import { setInPlace } from "./show-remedies";

/** Share of the lamps' swing that is left between frames. Common practice, no source. */
const LEFT = 0.1;

export const flicker: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "flicker", title: "The exposure does not fit the mains: pictures flicker", severity: "hint", group: "The people online see the room",
    notice: "Dark bars roll through the picture, or it pulses.",
    why: "Many lamps swing at twice the frequency of the mains. An exposure that takes in no whole number of swings takes in more light in one frame than in the next.",
    todo: ["Set the exposure to 1/50 s or 1/100 s where the mains have 50 Hz, to 1/60 s or 1/120 s where they have 60.", "Send slides themselves, and not a picture of the screen."],
    source: "common practice, no source; elementary", symptoms: ["flicker", "bars roll through the picture", "pulsing light"], limit: "whole half-periods of the mains",
  },
  cases: (scene) => shotsOf(scene.graph).filter((s) => s.ending.part.optics.exposure !== undefined).map((shot): Case => {
    const { device, part } = shot.ending;
    return {
      key: shotKey([shot]), ways: ["online-sees-room"], asks: true,
      measure: (trial) => {
        const { exposure } = part.optics;
        if (exposure === undefined) return undefined;
        const time = trial.value(exposure);
        const mains = trial.value({ ...assumed("mains.frequency", "the frequency of the mains", "count", { best: 50, low: 50, high: 60, source: "common practice, no source" }), ask: "Do the mains there have 50 or 60 Hz?" });
        const value = flickerLeft(time, mains);
        return {
          severity: value > LEFT ? "hint" : undefined, badness: value - LEFT, measured: { value: value * 100, unit: "%" }, limit: { value: LEFT * 100, unit: "%" },
          cause: { key: `flicker ${canonical(part.id)}`, subjects: [part.id], where: device.placed?.where ?? device.where },
          say: () => ({
            because: `an exposure of 1/${figure(Math.round(1 / time))} s on mains of ${figure(mains)} Hz leaves ${figure(value * 100)} % of the lamps' swing`, effect: `the picture of ${part.id} flickers`,
            summary: `${part.id} is exposed for 1/${figure(Math.round(1 / time))} s`, chain: [],
          }),
        };
      },
      remedies: () => setInPlace(scene, device, "exposure", "20 ms", `Set the exposure of ${device.name} to 1/50 s`),
    };
  }),
};
