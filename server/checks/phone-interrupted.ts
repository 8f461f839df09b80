import { insertInto, rewrite } from "../model/edits";
import type { Device } from "../model/device";
import { unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import { list } from "../model/show";
import type { Setup } from "../model/setup";
import { fileOf, type Case, type Check, type Remedy, type Scene } from "./check";

export const phoneInterrupted: Check = {
  bearing: "beside",
  entry: {
    code: "phone-interrupted", title: "A telephone call can take the camera or the microphone", severity: "warning", group: "The call",
    notice: "Somebody's aunt rings, and those online see a frozen picture, or nothing, until she has been turned down.",
    why: "A telephone that rings takes camera and microphone away from the program that uses them.",
    todo: ["Flight mode on, then the wireless network on again.", "Or do not disturb, with nobody let through.", "Write it down: calls off."],
    source: "common practice, no source", symptoms: ["phone rang", "camera froze when somebody rang", "telephone call during the meeting"], limit: "no telephone that sends takes calls",
  },
  cases: (scene) => sending(scene).map(({ device, what }): Case => ({
    key: `${canonical(device.name)} ${what.join(" ")}`, ways: what.includes("picture") ? ["online-sees-room"] : ["online-hears-room"],
    measure: (trial) => {
      const off = device.calls === undefined
        ? trial.holds(unsaid(`${canonical(device.name)}.calls`, `whether telephone calls are off on ${device.name}`, false, "common practice, no source", `Is ${device.name} in flight mode with the wireless on, or set to let no call through?`))
        : device.calls === "off";
      return {
        severity: off ? undefined : "warning", badness: off ? -1 : 1, cause: { key: `calls ${canonical(device.name)}`, subjects: [device.name], where: device.where },
        say: () => ({
          because: device.calls === "on" ? `telephone calls come through on ${device.name}` : `nothing is said on telephone calls to ${device.name}`, effect: `one of them takes ${list(what.map((one) => `the ${one}`))} that it sends`,
          summary: off ? `no call reaches ${device.name}` : `a call can take ${device.name}`, chain: [],
        }),
      };
    },
    remedies: () => callsOff(scene.setup, device),
  })),
};

const isPhone = (device: Device): boolean => device.type === "computer" && device.ports.some((port) => port.connector === "mobile");

/** Telephones whose camera or microphone goes into the call in this item. */
function sending({ setup, graph }: Scene): { device: Device; what: string[] }[] {
  const found = new Map<Device, Set<string>>();
  const add = (name: string, what: string): void => {
    const device = setup.devices.get(canonical(name)) ?? graph.endings.get(canonical(name))?.device;
    if (device !== undefined && isPhone(device)) found.set(device, (found.get(device) ?? new Set()).add(what));
  };
  for (const join of graph.joins) {
    for (const sent of join.pictures) add(sent.name, "picture");
    for (const sent of join.sound) add(sent.name, "sound");
  }
  return [...found].map(([device, what]) => ({ device, what: [...what] }));
}

function callsOff(setup: Setup, device: Device): Remedy[] {
  const owner = device.placed;
  const file = owner && fileOf(setup, owner.where.path);
  if (owner === undefined || file === undefined) return [];
  const said = owner.children.find((c) => c.row.head === "calls");
  return [{ title: `Let no telephone call through to ${device.name}`, edits: [said === undefined ? insertInto(file, owner, ["calls off"]) : rewrite(said, "calls off")] }];
}
