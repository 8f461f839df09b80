import { remove } from "../model/edits";
import { canonical } from "../model/names";
import { withUnit } from "../model/show";
import { bottlenecks, loadOn } from "../signal/circuits";
import { fileOf, type Case, type Check, type Remedy, type Scene } from "./check";
import { waysThrough } from "./circuit-overload";
import { elsewhere, replug } from "./mains-remedies";

export const leadChained: Check = {
  bearing: "device", silentInOrder: true,
  entry: {
    code: "lead-chained", title: "A lead in a lead, or a drum that stays wound up", severity: "error", group: "Power and heat",
    notice: "Nothing, until a plug is warm to the hand, or smells; or somebody’s foot parts the two and half the plan goes dark.",
    why: "Each plug and each metre heats up, and the first lead carries what hangs on all of them. On a drum the heat cannot leave.",
    todo: ["One lead, long enough, straight into an outlet.", "Unwind all of it, whatever it carries.", "Feel the plugs after half an hour. What the venue and the local code say goes before."],
    source: "fire services’ guidance, US 29 CFR 1910.303 as quoted: no lead into a lead; leads unwound: site safety guidance", symptoms: ["plug gets warm", "smell of hot plastic", "lead gets hot"], limit: "none",
  },
  cases: (scene) => [...chains(scene), ...drums(scene)],
};

function chains(scene: Scene): Case[] {
  const { setup } = scene;
  return setup.mains.flatMap((link): Case[] => {
    const [outer, inner] = [setup.devices.get(canonical(link.from)), setup.devices.get(canonical(link.to))];
    if (outer?.type !== "lead" || inner?.type !== "lead") return [];
    const neck = bottlenecks(setup).find((one) => one.kind === "lead" && one.name === inner.name);
    return [{
      key: `chain ${outer.name} ${inner.name}`, ways: neck === undefined ? [] : waysThrough(scene, neck),
      measure: () => ({
        severity: "error", badness: 1, cause: { key: `chain ${canonical(inner.name)}`, subjects: [inner.name, outer.name], where: link.where },
        say: () => ({ because: `${inner.name} is plugged into ${outer.name}, a lead into a lead`, effect: `what hangs on ${inner.name} hangs on both`, summary: `${inner.name} in ${outer.name}`, chain: [] }),
      }),
      remedies: () => elsewhere(scene, inner, { circuit: undefined, names: [outer.name] }).slice(0, 3).flatMap((name) => replug(scene, link, name)),
    }];
  });
}

function drums(scene: Scene): Case[] {
  return bottlenecks(scene.setup).filter(({ kind }) => kind === "lead").flatMap((neck): Case[] => {
    const lead = scene.setup.devices.get(canonical(neck.name));
    const wound = lead?.wound;
    if (wound === undefined) return [];
    return [{
      key: `drum ${neck.name}`, ways: waysThrough(scene, neck),
      measure: (trial) => {
        const value = loadOn(neck, trial);
        return {
          severity: "error", badness: value, measured: { value, unit: "W" }, limit: { value: 0, unit: "W" },
          cause: { key: `drum ${canonical(neck.name)}`, subjects: [neck.name], where: wound.where },
          say: () => ({ because: `${neck.name} stays wound up on its drum, and ${withUnit(value, "W")} go through it`, effect: "it gets hot inside where nobody feels it", summary: `${neck.name} is wound up`, chain: [] }),
        };
      },
      remedies: (): Remedy[] => {
        const file = fileOf(scene.setup, wound.where.path);
        return file === undefined ? [] : [{ title: `Unwind all of ${neck.name}`, edits: [remove(file, wound)] }];
      },
    }];
  });
}
