import type { Device } from "../model/device";
import { append } from "../model/edits";
import { canonical } from "../model/names";
import { duration } from "../model/show";
import { isStated, lasts, timeNeeded } from "../signal/endurance";
import { limitOf, rootFile, type Case, type Check, type Remedy, type Scene } from "./check";
import type { Feed } from "../signal/power";
import { inUse, waysOf } from "./no-power";
import { freeOutlets } from "./outlets";

export const batteryShort: Check = {
  bearing: "device",
  takesLimit: true,
  entry: {
    code: "battery-short", title: "A battery does not last", severity: "error", group: "Power and heat",
    notice: "It goes off in the middle of the second half.",
    why: "Energy over draw, less what age has taken, is shorter than the time from access to the end with the reserve.",
    todo: ["Plug it in.", "A power bank or a spare battery.", "Charge it to the full, and switch it on only for the meeting."],
    source: "arithmetic; reserve of 30 min: common practice, no source",
    symptoms: ["battery empty", "goes off", "died in the middle", "switched itself off"],
    limit: "set-up, meeting and reserve; an error only where draw or life is stated",
  },
  cases: (scene) => {
    const needed = timeNeeded(scene.setup);
    if (needed === undefined) return [];
    return [...scene.graph.feeds.values()]
      .filter((feed) => (feed.by === "battery" || feed.by === "usb") && inUse(scene, feed.device) && feed.device.power.on.has("battery"))
      .map((feed): Case => ({
        key: feed.device.name, ways: waysOf(scene, feed.device),
        measure: (trial) => {
          const { device } = feed;
          const life = lasts(scene.setup, device, feed, scene.graph.feeds, trial);
          if (life === undefined || life === Infinity) return undefined;
          // A limit of one's own is another reserve.
          const reserve = limitOf(scene.setup, "battery-short", trial.value(scene.setup.reserve));
          const wanted = needed.seconds + reserve;
          const short = wanted - life;
          const meeting = life < needed.seconds;
          const deadLead = causeAtLead(scene, device);
          const severity = short <= 0 ? undefined : meeting && isStated(device) ? "error" : "warning";
          const source = feed.by === "usb" && feed.from !== undefined ? ` with ${feed.from}` : "";
          return {
            severity, badness: short, measured: { value: life / 3600, unit: "h" }, limit: { value: wanted / 3600, unit: "h" },
            cause: { key: `battery ${canonical(device.name)}`, subjects: [device.name], where: device.where },
            ...(deadLead === undefined ? {} : { foldUnder: deadLead }),
            say: () => ({
              because: deadLead === undefined ? `the battery of ${device.name}${source} lasts about ${duration(life)}` : `${device.name} is left to its battery`,
              effect: deadLead === undefined ? `${duration(wanted)} is needed` : `the battery of ${device.name} lasts about ${duration(life)} where ${duration(wanted)} is needed`,
              summary: severity === undefined ? `${device.name} lasts ${duration(life)}` : `the battery of ${device.name} is empty after ${duration(life)}`,
              chain: [`${needed.from} to end takes ${duration(needed.seconds)}, and ${duration(reserve)} is kept in reserve`],
            }),
          };
        },
        remedies: () => remedies(scene, feed),
      }));
  },
};

/** It runs on its battery because the lead that it is plugged into is dead: that is what is wrong. */
function causeAtLead(scene: Scene, device: Device): string | undefined {
  const plugged = scene.setup.mains.filter((m) => canonical(m.to) === canonical(device.name));
  return plugged.map((m) => scene.graph.feeds.get(canonical(m.from))?.gap?.cause).find((cause) => cause !== undefined);
}

function remedies(scene: Scene, feed: Feed): Remedy[] {
  const { setup } = scene;
  const file = rootFile(setup);
  if (file === undefined) return [];
  const { device } = feed;
  const out: Remedy[] = [];
  const plugged = device.power.on.has("mains");
  if (plugged || device.ports.some((p) => p.takes.has("power"))) {
    for (const outlet of freeOutlets(scene, device).slice(0, 2)) {
      out.push({
        title: plugged ? `Plug ${device.name} into ${outlet.name} meanwhile` : `Charge ${device.name} from ${outlet.name} meanwhile`,
        edits: [append(file, `mains from ${outlet.name} to ${device.name}`, ["mains"])],
      });
    }
  }
  const bank = [...setup.devices.values()].find((d) => d.type === "power-bank");
  const mine = device.ports.find((p) => p.takes.has("power"));
  const port = bank?.ports.find((p) => !setup.links.some((l) => [l.from, l.to].some((end) => canonical(end) === canonical(p.id))));
  if (bank !== undefined && mine !== undefined && port !== undefined) {
    out.push({ title: `Feed ${device.name} from ${bank.name}`, edits: [append(file, `cable from ${port.id} to ${mine.id}`, ["cable"])] });
  }
  return out;
}
