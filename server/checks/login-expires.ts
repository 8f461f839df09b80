import { duration } from "../model/show";
import { limitOf, type Case, type Check } from "./check";
import { inUse, otherConnection } from "./internet-text";

export const loginExpires: Check = {
  takesLimit: true, silentInOrder: true,
  entry: {
    code: "login-expires", title: "The login to the network runs out before the end", severity: "warning", group: "The internet",
    notice: "In the middle of the meeting the call stands still, and a page asks for a password.",
    why: "The network asks again for a login after a time that is shorter than the meeting.",
    todo: ["Ask the venue to exempt the device, or for a network without such a page.", "Log in just before the start, and anew in the break: put it into the programme.", "A mobile router."],
    source: "common practice, no source", symptoms: ["asks for a password", "login page", "suddenly offline"], limit: "the login holds from start to end",
  },
  cases: (scene) => inUse(scene).flatMap(({ internet, joins }): Case[] => {
    const { start, end } = scene.setup;
    const { login } = internet;
    if (login === undefined || start === undefined || end === undefined) return [];
    return [{
      key: internet.name, ways: ["internet"],
      measure: (trial) => {
        const holds = trial.value(login);
        const wanted = (end - start) * 60 + limitOf(scene.setup, "login-expires", 0);
        const short = wanted - holds;
        return {
          severity: short > 0 ? "warning" : undefined, badness: short / 60, measured: { value: holds / 3600, unit: "h" }, limit: { value: wanted / 3600, unit: "h" },
          cause: { key: `login ${internet.name}`, subjects: [internet.name], where: login.from.where ?? internet.where },
          say: () => ({
            because: `a login to ${internet.name} holds for ${duration(holds)}`, effect: `the meeting takes ${duration(wanted)}`,
            summary: short > 0 ? `the login to ${internet.name} runs out after ${duration(holds)}` : `a login to ${internet.name} holds for ${duration(holds)}`,
            chain: ["counted from a login just before the start; one during set-up runs out sooner"],
          }),
        };
      },
      remedies: () => otherConnection(scene.setup, joins, internet, (other) => other.login === undefined),
    }];
  }),
};
