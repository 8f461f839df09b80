import { canonical } from "../model/names";
import { duration } from "../model/show";
import { liveShots, shotKey, shotsOf } from "../signal/pictures/shots";
import type { Case, Check } from "./check";

export const cameraStops: Check = {
  bearing: "device", silentInOrder: true,
  entry: {
    code: "camera-stops", title: "A camera switches itself off before the end", severity: "error", group: "The people online see the room",
    notice: "Half an hour in, the picture goes black, and nobody in the room sees it.",
    why: "Some still cameras film no longer than half an hour at a time, or sleep when nobody presses a button.",
    todo: ["Find out whether the limit holds for the output that is used: it often holds for recording alone.", "Switch off automatic sleep.", "Or start it anew at the break: somebody must have that job."],
    source: "the device's own figure; 29 min 59 s: a customs class for still cameras, EU explanatory note of 2016", symptoms: ["camera goes black", "camera switches off"], limit: "as long as the meeting",
  },
  cases: ({ graph, setup }) => {
    const { start, end } = setup;
    if (start === undefined || end === undefined) return [];
    return shotsOf(graph).filter((s) => s.ending.part.optics.stops !== undefined && s.ending.part.optics.stops.what !== "recording").map((shot): Case => {
      const { device, part } = shot.ending;
      return {
        key: shotKey([shot]), ways: ["online-sees-room"],
        measure: (trial) => {
          const { stops } = part.optics;
          if (stops === undefined || liveShots([shot], trial).length === 0) return undefined;
          const [lasts, needed] = [trial.value(stops.after), (end - start) * 60];
          return {
            severity: lasts < needed ? "error" : undefined, badness: (needed - lasts) / 60, measured: { value: lasts / 60, unit: "min" }, limit: { value: needed / 60, unit: "min" },
            cause: { key: `stops ${canonical(part.id)}`, subjects: [device.name], where: device.placed?.where ?? device.where },
            say: () => ({
              because: `${part.id} stops after ${duration(lasts)}, and the meeting takes ${duration(needed)}`, effect: "its picture goes black while the meeting goes on",
              summary: `${part.id} goes on for ${duration(lasts)}`, chain: [],
            }),
          };
        },
      };
    });
  },
};
