import { valueOf } from "../model/bound";
import { holding } from "../model/during";
import { insertInto, rewrite, type Edit } from "../model/edits";
import type { PictureLimit } from "../model/service";
import { list, rate } from "../model/show";
import type { Internet } from "../model/setup";
import { Trial } from "../model/trial";
import { facesAt, receivedOver } from "../signal/received";
import { total, usableDown } from "../signal/streams";
import { fileOf, limitOf, type Case, type Check, type Remedy, type Scene } from "./check";
import { inUse } from "./internet-text";

export const downlinkShort: Check = {
  silentInOrder: true, takesLimit: true,
  entry: {
    code: "downlink-short", title: "The downlink is too small for what is received", severity: "warning", group: "The internet",
    notice: "Faces freeze one after the other, and whoever speaks online comes in pieces.",
    why: "Every face that is shown at once comes as a stream of its own; with the sound and what is presented they add up to more than the part of the downlink that can be counted on.",
    todo: ["Show fewer faces at once, or only whoever speaks.", "Take them in smaller: receives picture at 180p15.", "Show no faces on a second device in the room.", "A cable instead of a wireless link."],
    source: "RFC 3550, RFC 768, RFC 791, RFC 3711 (packet overhead); the open-source call implementation's published table of rates; RFC 7587 (sound)",
    symptoms: ["faces freeze", "they come in pieces", "online voices break up"],
    limit: "what is received at target rates fits into the usable part of the downlink",
  },
  cases: (scene) => inUse(scene).filter(({ internet }) => internet.down !== undefined).map(({ internet, joins }): Case => ({
    key: `${internet.name} ${joins.map((state) => `${state.join.device} ${state.plays.length > 0 ? "plays" : ""} ${state.shows.map((shown) => `${shown.what} ${shown.name} ${shown.faces.best} ${shown.letters === undefined ? "" : "presented"}`).join(" ")} ${modeOf(state.receives)}`).join(",")} ${scene.graph.joins.filter((state) => state.content.length > 0).length}`,
    ways: ["internet"],
    measure: (trial) => {
      const received = receivedOver(scene.graph, internet, trial);
      const usable = (usableDown(internet, trial) ?? Infinity) * Math.min(1, limitOf(scene.setup, "downlink-short", 1));
      const wanted = total(received, "target");
      const short = wanted > usable;
      const parts = (): string[] => received.map((one) => `${one.title} ${rate(one.rate.target)}`);
      return {
        severity: short ? "warning" : undefined, badness: (wanted - usable) / 1e6, measured: { value: wanted / 1e6, unit: "Mb/s" }, limit: { value: usable / 1e6, unit: "Mb/s" },
        cause: { key: `downlink ${internet.name}`, subjects: [internet.name], where: internet.where },
        say: () => ({
          because: `of the downlink of ${internet.name} ${rate(usable)} can be counted on`, effect: short ? `${rate(wanted)} is received, by ${list(parts(), 4)}` : "",
          summary: short ? `${rate(wanted)} is received where ${rate(usable)} can be counted on` : `${rate(wanted)} of ${rate(usable)} is received`, chain: parts(),
        }),
      };
    },
    remedies: () => [...fewerFaces(scene, internet), ...smallerFaces(scene, internet)],
  })),
};

const modeOf = (limit: PictureLimit | undefined): string => (limit === undefined ? "" : `${limit.width}x${limit.height} ${limit.rate} ${limit.most?.best ?? ""}`);

/** Sizes in which a call hands pictures out, besides the whole one: lines. */
const SMALLER = [360, 180] as const;

/** The same for all devices: every face taken in smaller. */
function smallerFaces(scene: Scene, internet: Internet): Remedy[] {
  const { setup, item } = scene;
  const trial = new Trial();
  const online = Math.round(trial.value(setup.online));
  const used = inUse(scene).find((one) => one.internet === internet)?.joins ?? [];
  return SMALLER.flatMap((lines): Remedy[] => {
    const edits = used.filter((state) => facesAt(state, online, trial) > 0 && (state.receives?.height ?? Infinity) > lines).flatMap((state): Edit[] => {
      const file = fileOf(setup, state.join.where.path);
      const said = holding(state.join.statements, "receives", item).find((s) => valueOf(s, "what", "word")?.word === "picture" && s.tails.during.length === 0);
      const text = `receives picture at ${lines}p15`;
      return file === undefined ? [] : [said === undefined ? insertInto(file, state.join.bound, [text]) : rewrite(said, text)];
    });
    return edits.length === 0 ? [] : [{ title: `Take in the faces at ${lines} lines, 15 a second`, edits }];
  });
}

/** The same for all devices: at most four, two, one at once. */
function fewerFaces(scene: Scene, internet: Internet): Remedy[] {
  const { setup } = scene;
  const trial = new Trial();
  const online = Math.round(trial.value(setup.online));
  const used = inUse(scene).find((one) => one.internet === internet)?.joins ?? [];
  return [4, 2, 1].flatMap((most): Remedy[] => {
    const edits = used.filter((state) => facesAt(state, online, trial) > most).flatMap((state): Edit[] => {
      const calls = state.shows.filter((shown) => shown.what === "call");
      const file = fileOf(setup, state.join.where.path);
      if (file === undefined) return [];
      const statements = state.join.statements.filter((s) => calls.some((shown) => !shown.assumed && shown.where === s.where));
      if (statements.length === 0) return [insertInto(file, state.join.bound, [`shows call, faces ${most}`])];
      return statements.map((statement) => {
        const faces = statement.children.find((child) => child.row.head === "faces");
        return faces === undefined ? insertInto(file, statement, [`faces ${most}`]) : rewrite(faces, `faces ${most}`);
      });
    });
    return edits.length === 0 ? [] : [{ title: most === 1 ? "Show one face at a time" : `Show no more than ${most} faces at once`, edits }];
  });
}
