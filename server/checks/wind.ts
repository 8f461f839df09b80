import { unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import { insertInto } from "../model/edits";
import { micsOf } from "../signal/pick-up/mics";
import { carries } from "../signal/graph";
import { fileOf, type Case, type Check } from "./check";

/** On the scale of Beaufort: leaves and small twigs in constant motion. Common practice, no source. */
export const WINDY = 3;

export const wind: Check = {
  silentInOrder: true,
  entry: {
    code: "wind", title: "Wind at an open microphone", severity: "warning", group: "The people online hear the room",
    notice: "Online it rumbles and thumps, and words are lost in it.",
    why: "Moving air at a microphone makes a sound of its own, far louder than the leaves that it moves. Foam or fur keeps the air still in front of it.",
    todo: ["Put a windshield on the microphone, and write windshield in its block.", "Choose a place out of the wind.", "Listen to it outdoors beforehand."],
    source: "common practice, no source", symptoms: ["rumbling outdoors", "thumping", "wind in the microphone"], limit: `below force ${WINDY}, or a windshield`,
  },
  cases: ({ graph, setup }) => (!setup.room.outdoors ? [] : micsOf(graph).filter(({ ending }) => !ending.part.windshield).map((mic): Case => {
    const { device, part } = mic.ending;
    return {
      key: `${part.id} ${mic.path.flatMap((e) => e.gap?.cause ?? []).join(",")}`, ways: ["online-hears-room"],
      measure: (trial) => {
        if (!carries(mic.path, trial)) return undefined;
        const stated = setup.room.wind;
        const force = stated === undefined ? undefined : trial.value(stated);
        // With nothing said of the wind it is asked for, and no more.
        const blows = force === undefined ? trial.holds(unsaid("room.windy", `whether there is wind at ${setup.room.name}`, false, "the text does not say", `Is there to be wind of force ${WINDY} or more at ${setup.room.name}?`)) : force >= WINDY;
        return {
          severity: blows ? "warning" : undefined, badness: (force ?? (blows ? WINDY : 0)) - WINDY,
          ...(force === undefined ? {} : { measured: { value: force, unit: "" }, limit: { value: WINDY, unit: "" } }),
          cause: { key: "wind", subjects: [device.name], where: device.where },
          say: () => ({
            because: `${part.id} is outdoors without a windshield${force === undefined ? "" : `, at wind of force ${Math.round(force)}`}`, effect: "the people online hear the wind instead of words",
            summary: blows ? `wind at ${part.id}` : `no wind to speak of at ${part.id}`, chain: [],
          }),
        };
      },
      remedies: () => {
        const file = device.placed && fileOf(setup, device.placed.where.path);
        if (file === undefined || device.placed === undefined || canonical(part.id) !== canonical(device.name)) return [];
        return [{ title: `Put a windshield on ${device.name}`, edits: [insertInto(file, device.placed, ["windshield"])] }];
      },
    };
  })),
};
