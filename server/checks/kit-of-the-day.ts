/** Whether everything that the setup places will be there, and what it costs. */
import { figure, list } from "../model/show";
import type { Device } from "../model/device";
import { canonical } from "../model/names";
import type { Setup } from "../model/setup";
import type { Check } from "./check";

const GROUP = "Place and people";
const SOURCE = "common practice, no source";

/** Whose a thing is, from whom it comes, that it is to be bought, or that nobody has one. */
const sourced = (device: Device): boolean => device.owner !== undefined || device.toBuy !== undefined || device.missing;
const placed = (setup: Setup): Device[] => [...setup.devices.values()].filter((device) => device.placed !== undefined);

export const kitMissing: Check = {
  bearing: "beside",
  entry: {
    code: "kit-missing", title: "Something of the plan nobody has", severity: "error", group: GROUP,
    notice: "On the evening everybody looks at the place where it should stand.",
    why: "A device that the setup counts on is neither owned, nor borrowed, nor to be bought.",
    todo: ["Ask who lends one, and write it down: borrowed from NAME.", "Buy one: to-buy for 40.", "Plan without it."],
    source: SOURCE, settle: { who: "whoever brings the kit" }, symptoms: ["forgot to bring it", "nobody brought it", "not there"], limit: "a source for each device placed",
  },
  cases: ({ setup }) => [
    ...placed(setup).filter((device) => device.missing).map((device) => ({
      key: `missing ${device.name}`, ways: ["call"] as const,
      measure: () => ({
        severity: "error" as const, badness: 1, cause: { key: `missing ${device.name}`, subjects: [device.name], where: device.where },
        say: () => ({ because: `nobody has ${device.name}`, effect: "it is neither borrowed nor to be bought", summary: `nobody has ${device.name}`, chain: [] }),
      }),
    })),
    ...unsourced(setup),
  ],
};

/** Where the text tells whose things are, one of which it does not is a gap in the plan. Where it tells of none, it is merely not that far. */
function unsourced(setup: Setup): ReturnType<Check["cases"]> {
  const things = placed(setup);
  const open = things.filter((device) => !sourced(device));
  if (open.length === 0 || !things.some((device) => device.owner !== undefined || device.toBuy !== undefined)) return [];
  const names = open.map((device) => device.name);
  return [{
    key: `unsourced ${names.join(" ")}`, ways: ["call"],
    measure: () => ({
      severity: "plan", badness: 1, cause: { key: "unsourced", subjects: names, where: open[0]?.where ?? setup.titleWhere },
      say: () => ({ because: `nothing is said on where ${list(names)} ${names.length === 1 ? "comes" : "come"} from`, effect: "", summary: `${list(names)} of nobody`, chain: [] }),
    }),
  }];
}

/** What has to be bought, and the money for it as far as prices are stated. */
export const shopping = (setup: Setup): { readonly devices: readonly Device[]; readonly cost: number; readonly unpriced: readonly string[] } => {
  const devices = placed(setup).filter((device) => device.toBuy !== undefined);
  const price = (device: Device): number | undefined => (device.toBuy?.price !== undefined && Number.isFinite(device.toBuy.price) ? device.toBuy.price : undefined);
  return { devices, cost: devices.reduce((sum, device) => sum + (price(device) ?? 0), 0), unpriced: devices.filter((device) => price(device) === undefined).map((device) => device.name) };
};

export const overBudget: Check = {
  bearing: "beside",
  entry: {
    code: "over-budget", title: "More has to be bought than there is money for", severity: "warning", group: GROUP,
    notice: "The treasurer says no, a week before.",
    why: "What the setup needs and nobody owns or lends costs more than the budget that is stated.",
    todo: ["Borrow one of the things instead.", "Plan without what no way across hangs on.", "Ask for more."],
    source: "prices and budget are the text's; arithmetic", symptoms: ["too expensive", "no money"], limit: "the budget stated",
  },
  cases: ({ setup }) => {
    const { budget } = setup;
    const { devices, cost, unpriced } = shopping(setup);
    if (budget === undefined || devices.length === 0) return [];
    return [{
      key: "budget", ways: ["call"],
      measure: () => ({
        severity: cost > budget.money ? "warning" : undefined, badness: cost - budget.money, measured: { value: cost, unit: "" }, limit: { value: budget.money, unit: "" },
        cause: { key: "budget", subjects: devices.map((device) => device.name), where: budget.where },
        say: () => ({
          because: `${list(devices.map((device) => device.name))} ${devices.length === 1 ? "costs" : "cost"} ${unpriced.length === 0 ? "" : "at least "}${figure(cost)}`, effect: `${figure(cost - budget.money)} more than the budget of ${figure(budget.money)}`,
          summary: `${figure(cost)} of ${figure(budget.money)}`, chain: unpriced.length === 0 ? [] : [`no price is stated for ${list(unpriced)}`],
        }),
      }),
    }];
  },
};

export const kitDouble: Check = {
  bearing: "beside",
  entry: {
    code: "kit-double", title: "One thing in two places on one evening", severity: "warning", group: GROUP,
    notice: "Two people come to fetch the same loudspeaker.",
    why: "Another setup of this folder is on the same day, in another room, and places the same things.",
    todo: ["Borrow a second one for one of the evenings.", "Place something else in one of the setups.", "If the hours lie apart, state them in both: access, start, end."],
    source: SOURCE, symptoms: ["kit was gone", "somebody else had it"], limit: "each thing in one setup of a day",
  },
  cases: ({ setup }) => setup.sameEvening.map((other) => ({
    key: `double ${other.path}`, ways: ["call"],
    measure: () => ({
      severity: "warning", badness: other.shared.length, cause: { key: `double ${other.path}`, subjects: other.shared, where: setup.devices.get(canonical(other.shared[0] ?? ""))?.where ?? setup.titleWhere },
      say: () => ({
        because: `“${other.title}” in ${other.path} is on the same day`, effect: `both count on ${list(other.shared)}`, summary: `${list(other.shared)} in two setups of one day`, chain: [],
        related: [{ where: other.where, message: "the other setup" }],
      }),
    }),
  })),
};
