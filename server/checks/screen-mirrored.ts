import { canonical } from "../model/names";
import { remove } from "../model/edits";
import { showings, showingKey } from "../signal/pictures/showing";
import { fileOf, type Case, type Check, type Remedy } from "./check";

export const screenMirrored: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "screen-mirrored", title: "The room sees the presenter's own screen", severity: "warning", group: "The room sees the people online",
    notice: "Mail, notes and the search for the right file are on the wall.",
    why: "A computer that mirrors gives out at its picture port whatever stands on its own screen, notes and messages too.",
    todo: ["Extend the screen in place of mirroring it, and put on the second one only what is to be seen.", "In the call choose the window, not the whole screen.", "Switch messages off."],
    source: "common practice, no source", symptoms: ["private mail on the wall", "notes visible to all"], limit: "extended, or one window",
  },
  cases: (scene) => scene.graph.joins.filter((j) => j.device.mirrored !== undefined).flatMap((join): Case[] => {
    const list = showings(scene.graph).filter((s) => s.join.device === join.device && s.ending.device !== join.device);
    const first = list[0];
    const { mirrored } = join.device;
    if (first === undefined || mirrored === undefined) return [];
    return [{
      key: showingKey(list), ways: ["room-sees-online"],
      measure: () => ({
        severity: "warning", badness: 1, cause: { key: `mirrored ${canonical(join.device.name)}`, subjects: [join.device.name], where: mirrored.where },
        say: () => ({ because: `${join.device.name} mirrors its own screen on ${first.ending.part.id}`, effect: "the room sees notes, messages and whatever is clicked on", summary: `${join.device.name} mirrors its screen`, chain: [] }),
      }),
      remedies: (): Remedy[] => {
        const file = fileOf(scene.setup, mirrored.where.path);
        return file === undefined ? [] : [{ title: `Extend the screen of ${join.device.name}`, edits: [remove(file, mirrored)] }];
      },
    }];
  }),
};
