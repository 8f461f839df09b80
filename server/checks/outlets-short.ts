import { canonical } from "../model/names";
import type { WayName } from "../model/ways";
import { plugsIn, socketsOf } from "../signal/circuits";
import type { Case, Check, Remedy, Scene } from "./check";
import { elsewhere, replug } from "./mains-remedies";
import { waysOf } from "./no-power";

export const outletsShort: Check = {
  bearing: "device", silentInOrder: true, asksWhenRaised: true,
  entry: {
    code: "outlets-short", title: "More plugs than sockets", severity: "error", group: "Power and heat",
    notice: "Somebody stands there with a plug in the hand, and one by one things are unplugged to find out what they were for.",
    why: "The plan puts more plugs into an outlet or a lead than it has sockets.",
    todo: ["Another outlet, if the lead reaches.", "One extension lead with more sockets, unwound, into an outlet: never a lead into a lead.", "What an outlet may carry does not grow with its sockets: see circuit-overload."],
    source: "common practice, no source", symptoms: ["no free socket", "not enough sockets"], limit: "as many plugs as sockets",
  },
  cases: (scene) => [...new Set(scene.setup.mains.map(({ from }) => canonical(from)))].flatMap((key): Case[] => {
    const { setup } = scene;
    const place = setup.room.outlets.get(key) ?? setup.devices.get(key);
    if (place === undefined || ("type" in place && place.type !== "lead")) return [];
    const plugs = plugsIn(setup, place.name);
    return [{
      key: `plugs ${place.name} ${plugs.length}`, ways: waysAt(scene, plugs.map(({ to }) => to)), asks: true,
      measure: (trial) => {
        const most = Math.round(trial.value(socketsOf(setup, place.name)));
        const value = plugs.length;
        return {
          severity: value > most ? "error" : undefined, badness: value - most, measured: { value, unit: "" }, limit: { value: most, unit: "" },
          cause: { key: `plugs ${key}`, subjects: [place.name], where: plugs[plugs.length - 1]?.where ?? place.where },
          say: () => {
            const is = `${value} ${value === 1 ? "plug goes" : "plugs go"} into ${place.name}, which has ${most} ${most === 1 ? "socket" : "sockets"}`;
            return { because: is, effect: `${plugs.slice(most).map(({ to }) => to).join(" and ")} ${value - most === 1 ? "finds" : "find"} no socket`, summary: is, chain: [] };
          },
        };
      },
      remedies: () => [...plugs].reverse().slice(0, 3).flatMap((link): Remedy[] => {
        const device = setup.devices.get(canonical(link.to));
        return device === undefined ? [] : elsewhere(scene, device, { circuit: undefined, names: [place.name] }).slice(0, 2).flatMap((name) => replug(scene, link, name));
      }),
    }];
  }),
};

const waysAt = (scene: Scene, names: readonly string[]): readonly WayName[] => [...new Set(names.flatMap((name) => {
  const device = scene.setup.devices.get(canonical(name));
  return device === undefined ? [] : waysOf(scene, device);
}))];
