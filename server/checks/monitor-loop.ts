import { remove } from "../model/edits";
import { canonical } from "../model/names";
import { node } from "../signal/edges";
import { carries } from "../signal/graph";
import { monitorOf, wiresOf } from "../signal/loops/net";
import { fileOf, type Case, type Check } from "./check";

export const monitorLoop: Check = {
  entry: {
    code: "monitor-loop", title: "The computer plays what it takes in", severity: "warning", group: "Echo and howl",
    notice: "Whoever speaks into the microphone sounds from the loudspeaker a moment later, or a tone swells up.",
    why: "Monitoring is meant for earphones: the sound of an input is played at once. On loudspeakers the microphone hears itself.",
    todo: ["Switch the monitoring of the input off.", "Monitor on earphones."],
    source: "common practice, no source",
    symptoms: ["own voice from the loudspeaker", "listen to this device", "metallic voice", "howling"],
    limit: "none on loudspeakers",
  },
  cases: (scene) => scene.graph.joins.flatMap((state): Case[] => {
    if (state.monitors.length === 0) return [];
    const wires = wiresOf(scene.graph)(node("in", state.join.device));
    const heard = [...scene.graph.endings.values()].flatMap(({ device, part }) => {
      const path = part.type === "loudspeaker" ? wires.get(node("loudspeaker", part.id)) : undefined;
      return path?.some((edge) => monitorOf(edge) !== undefined) === true ? [{ device, part, path }] : [];
    });
    if (heard.length === 0) return [];
    const { device } = state.join;
    return [{
      key: `${device} ${heard.map((h) => `${h.part.id}${h.path.some((e) => e.gap) ? "!" : ""}`).join(",")}`, ways: ["call"],
      measure: (trial) => {
        const first = heard.find(({ path }) => carries(path, trial));
        if (first === undefined) return undefined;
        return {
          severity: "warning", badness: 0, cause: { key: `monitor ${canonical(device)}`, subjects: [device, first.device.name].filter((n, i, all) => all.indexOf(n) === i), where: state.monitors[0]?.where ?? state.join.where },
          foldUnder: `howl ${canonical(first.device.name)}`,
          say: () => ({
            because: `${device} plays on ${first.part.id} what it takes in`, effect: "whoever speaks sounds twice in the room", summary: `${device} monitors its input on ${first.part.id}`, chain: [],
          }),
        };
      },
      remedies: () => {
        const said = state.join.statements.filter((s) => s.row.head === "monitors" && !s.negated);
        const file = fileOf(scene.setup, state.join.where.path);
        return file === undefined ? [] : [{ title: `Switch the monitoring of ${device} off`, edits: said.map((s) => remove(file, s)) }];
      },
    }];
  }),
};
