import { valuesOf, type Bound } from "../model/bound";
import { holding } from "../model/during";
import { append, insertInto, rewrite } from "../model/edits";
import { unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import { figure } from "../model/show";
import { CANCELLER_LOSS } from "../physics/coupling";
import { carries, gainOf } from "../signal/graph";
import { mixCause, returnsOf, type Returned } from "../signal/loops/returns";
import { deviceNamed, fileOf, rootFile, type Case, type Check, type Remedy, type Scene } from "./check";
import { wireEcho } from "./echo-path";
import { cancelRemedy } from "./join-text";
import { concerns, opinion } from "./observes";

export const mixNotMinus: Check = {
  entry: {
    code: "mix-not-minus", title: "The mix sent to the call contains what came from the call", severity: "error", group: "Echo and howl",
    notice: "Whoever speaks online hears the own voice come back, clear and at full level.",
    why: "The mixer takes in what the call plays, so that the room can hear it, and gives it out again on the very bus that goes into the call. What is sent has to be everything minus that.",
    todo: ["Take the channel of the call off the bus that is sent: holds no CHANNEL.", "On a small mixer without such a bus: send an auxiliary output, with the call's channel turned down on it."],
    source: "common practice, no source (mix-minus)",
    symptoms: ["they hear themselves", "echo at full level", "mix-minus", "n-1", "clean feed"],
    limit: "none in the mix: an error; a warning where the canceller of the one device that plays and sends holds it",
  },
  cases: (scene) => returnsOf(scene.graph).map((returned): Case => ({
    key: `${returned.plays.join.device}>${returned.sends.join.device} ${returned.from}>${returned.to} ${gainOf(returned.path)} ${returned.path.some((e) => e.gap) ? "!" : ""} ${returned.sends.cancels.best}`,
    ways: ["call"],
    measure: (trial) => {
      const { path, plays, sends } = returned;
      if (!carries(path, trial)) return undefined;
      const gain = gainOf(path);
      // As soft as a canceller would leave it, it is not there.
      if (gain <= -CANCELLER_LOSS) return undefined;
      const mixer = deviceNamed(scene.setup, returned.mixer)?.name ?? returned.mixer;
      if (returned.set === undefined && !trial.holds(leftAlone(mixer))) return undefined;
      const held = plays === sends && trial.holds(sends.cancels);
      const call = returned.channel?.name;
      const bus = returned.bus?.name ?? "the mix";
      return {
        severity: held ? "warning" : "error", badness: gain,
        cause: { key: mixCause(returned), subjects: [mixer, plays.join.device], where: returned.bus?.where ?? sends.sound[0]?.where ?? sends.join.where },
        foldUnder: wireEcho(returned),
        say: () => ({
          because: `${bus} of ${mixer}, which ${sends.join.device} sends, holds what ${plays.join.device} plays from the call`,
          effect: held ? `only the canceller of ${sends.join.device} keeps it from coming back` : "it goes back to where it came from, and no canceller holds it",
          summary: `${bus} of ${mixer} holds the call itself`,
          chain: [`${plays.join.device} plays the call into ${returned.from}${call === undefined ? "" : ` (${call})`}`, `${mixer} gives it out at ${returned.to}, at ${figure(gain)} dB`, `${sends.join.device} sends that back into the call`],
        }),
      };
    },
    remedies: () => remedies(scene, returned),
    observed: (seen) => (concerns(seen, [returned.mixer, returned.plays.join.device, returned.sends.join.device]) ? opinion(seen, ["echo"]) : undefined),
  })),
};

/** A mixer of which nothing is said gives everything everywhere, if it was left as it comes. */
const leftAlone = (mixer: string) => unsaid(
  `${mixer}.set`, `how ${mixer} is set`, true, "as a desk left alone; common practice, no source", `Does the mix that ${mixer} sends to the call hold what comes from the call?`,
);

function remedies(scene: Scene, returned: Returned): Remedy[] {
  return [...(returned.set === undefined ? written(scene, returned) : withoutReturn(scene, returned)), ...(returned.plays === returned.sends ? cancelRemedy(returned.sends) : [])];
}

/** Takes the call's channel off the bus that is sent. */
function withoutReturn(scene: Scene, { bus, channel, mixer }: Returned): Remedy[] {
  const file = bus && fileOf(scene.setup, bus.where.path);
  if (bus === undefined || channel === undefined || file === undefined) return [];
  const title = `Take ${channel.name} off ${bus.name} of ${deviceNamed(scene.setup, mixer)?.name ?? mixer}`;
  const names = (s: Bound): string[] => valuesOf(s, "channel", "name").map((n) => canonical(n.text));
  const own = holding(bus.statements, "holds", scene.item).findLast((s) => !s.negated && names(s).length === 1 && names(s)[0] === canonical(channel.name));
  if (own === undefined) return [{ title, edits: [insertInto(file, bus.statement, [`holds no ${channel.name}`])] }];
  const during = own.tails.during.length === 0 ? "" : ` during ${own.tails.during.map((n) => n.text).join(" and ")}`;
  return [{ title, edits: [rewrite(own, `holds no ${channel.name}${during}`)] }];
}

/** States how a mixer is set of which nothing is said: every output holds every input, but the one that is sent leaves out the call. */
function written(scene: Scene, returned: Returned): Remedy[] {
  const { setup } = scene;
  const device = deviceNamed(setup, returned.mixer);
  const file = rootFile(setup);
  if (device === undefined || file === undefined) return [];
  const plugged = new Set(setup.links.flatMap((link) => [canonical(link.from), canonical(link.to)]));
  const used = device.ports.filter((port) => plugged.has(canonical(port.id)));
  const ins = used.filter((port) => port.takes.has("sound"));
  const outs = used.filter((port) => port.gives.has("sound"));
  const strip = (port: (typeof ins)[number]): string => `strip-${port.name}`;
  const call = ins.find((port) => canonical(port.id) === returned.from);
  const sent = outs.find((port) => canonical(port.id) === returned.to);
  if (call === undefined || sent === undefined) return [];
  const lines = [
    ...ins.map((port) => `  channel ${strip(port)} from ${port.id}`),
    ...outs.map((port) => (port === sent ? `  bus far-end to ${port.id} { holds all, holds no ${strip(call)} }` : `  bus ${`mix-${port.name}`} to ${port.id} { holds all }`)),
  ];
  return [{ title: `Take ${call.id} off what ${device.name} gives at ${sent.id}`, edits: [append(file, `mixer ${device.name} {\n${lines.join("\n")}\n}`, ["mixer"])] }];
}
