import { insertInto, rewrite } from "../model/edits";
import { unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import { figure, list } from "../model/show";
import type { Join, Setup } from "../model/setup";
import { fileOf, type Case, type Check, type Remedy } from "./check";

export const secondJoin: Check = {
  silentInOrder: true,
  entry: {
    code: "second-join", title: "One account, and more devices than it admits", severity: "warning", group: "The call",
    notice: "The moment the second device joins, the first one is thrown out of the call.",
    why: "Two devices of the room join under one account, and the service allows fewer.",
    todo: ["Let the second device join as a guest, under a name of its own: account phone.", "Try it beforehand with both devices at once."],
    source: "the limit is the text's", symptoms: ["thrown out of the call", "signed in elsewhere", "second device kicked the first out"], limit: "devices under one account, up to what it admits",
  },
  cases: ({ setup }) => {
    const most = setup.service.devicesPerAccount;
    if (most === undefined) return [];
    // Joins that say nothing of it might be under one account.
    const accounts = new Map<string, Join[]>();
    for (const join of setup.joins) accounts.set(canonical(join.account ?? ""), [...(accounts.get(canonical(join.account ?? "")) ?? []), join]);
    return [...accounts].filter(([, joins]) => joins.length > 1).map(([account, joins]): Case => ({
      key: `account ${account}`, ways: ["call"],
      measure: (trial) => {
        const one = account !== "" || !trial.holds(unsaid("service.accounts", "whether each device joins under a name of its own", false, "common practice, no source", "Does each device join under an account or a name of its own?"));
        const over = one && joins.length > trial.value(most);
        const devices = joins.map((join) => join.device);
        return {
          severity: over ? "warning" : undefined, badness: one ? joins.length - trial.value(most) : -1, measured: { value: joins.length, unit: "devices" }, limit: { value: trial.value(most), unit: "devices" },
          cause: { key: `account ${account}`, subjects: devices, where: joins[1]?.where ?? setup.titleWhere },
          say: () => ({
            because: `${list(devices)} join under ${account === "" ? "one account, as far as the text says" : "one account"}, which admits ${figure(trial.value(most))}`, effect: "whoever joins last throws another out",
            summary: over ? `${list(devices)} under one account` : "each under an account that admits it", chain: [], related: joins.slice(0, 3).map((join) => ({ where: join.where, message: `${join.device} joins here` })),
          }),
        };
      },
      remedies: () => ownNames(setup, joins.slice(1)),
    }));
  },
};

/** Names for the devices behind the first one, each its own. */
function ownNames(setup: Setup, joins: readonly Join[]): Remedy[] {
  const edits = joins.flatMap((join) => {
    const file = fileOf(setup, join.where.path);
    const said = join.statements.find((s) => s.row.head === "account");
    const name = `account "${join.device}"`;
    return file === undefined ? [] : [said === undefined ? insertInto(file, join.bound, [name]) : rewrite(said, name)];
  });
  const first = setup.joins.find((join) => !joins.includes(join) && join.account === undefined);
  const file = first && fileOf(setup, first.where.path);
  // Where none says anything, the first one's account has to be told apart, too.
  const apart = first === undefined || file === undefined || joins.some((join) => join.account !== undefined) ? [] : [insertInto(file, first.bound, [`account "${first.device}"`])];
  return [{ title: `Let ${list(joins.map((join) => join.device))} join under ${joins.length === 1 ? "a name of its own" : "names of their own"}`, edits: [...apart, ...edits] }];
}
