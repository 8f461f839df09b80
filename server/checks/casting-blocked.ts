import { CONNECTOR_TYPES } from "../../grammar/vocabulary";
import { rewrite } from "../model/edits";
import type { Port } from "../model/device";
import { canonical } from "../model/names";
import type { Internet, Link, Setup } from "../model/setup";
import type { Case, Check, Remedy } from "./check";

export const castingBlocked: Check = {
  bearing: "beside",
  entry: {
    code: "casting-blocked", title: "A wireless link over a network that keeps guests apart", severity: "warning", group: "The call",
    notice: "The display does not turn up in the list, however often one looks; at home it did.",
    why: "The link needs both devices to reach each other over the wireless network, and this one lets guests reach only the outside.",
    todo: ["Run a cable.", "Bring an access point or a router of your own and put both on it.", "Ask the venue for a network that does not keep its devices apart."],
    source: "that it isolates is the text's; common practice, no source", symptoms: ["display not found", "cannot cast", "wireless display missing", "phone does not find the screen"], limit: "no link between two guests of a network that isolates them",
  },
  cases: ({ setup }) => {
    const by = setup.internets.find((internet) => internet.isolates);
    if (by === undefined) return [];
    return setup.links.filter((link) => betweenGuests(setup, link)).map((link): Case => ({
      key: `${canonical(link.from)} ${canonical(link.to)}`, ways: ["room-sees-online"],
      measure: () => ({
        severity: "warning", badness: 1, cause: { key: `cast ${canonical(link.from)} ${canonical(link.to)}`, subjects: [deviceOf(setup, link.from), deviceOf(setup, link.to)], where: link.where },
        say: () => saying(setup, link, by),
      }),
      remedies: () => cable(setup, link),
    }));
  },
};

const saying = (setup: Setup, link: Link, by: Internet) => ({
  because: `${by.name} keeps its guests apart`, effect: `${deviceOf(setup, link.from)} and ${deviceOf(setup, link.to)} do not find each other`,
  summary: `${by.name} keeps ${deviceOf(setup, link.from)} and ${deviceOf(setup, link.to)} apart`, chain: [], related: [{ where: by.where, message: "the network is stated here" }],
});

function portOf(setup: Setup, end: string): Port | undefined {
  for (const device of setup.devices.values()) {
    const port = device.ports.find((one) => canonical(one.id) === canonical(end));
    if (port !== undefined) return port;
  }
  return undefined;
}
const deviceOf = (setup: Setup, end: string): string =>
  [...setup.devices.values()].find((device) => canonical(device.name) === canonical(end) || device.ports.some((port) => canonical(port.id) === canonical(end)))?.name ?? end;

/** Both ends are guests of somebody else's wireless network: neither is a network of one's own. */
function betweenGuests(setup: Setup, link: Link): boolean {
  if (link.how !== "radio") return false;
  return [link.from, link.to].every((end) => {
    const type = setup.devices.get(canonical(deviceOf(setup, end)))?.type;
    return portOf(setup, end)?.connector === "wifi" && type !== "access-point" && type !== "router";
  });
}

/** The same by cable, where both have ports for it that nothing is in. */
function cable(setup: Setup, link: Link): Remedy[] {
  const ends = [link.from, link.to].map((end) => setup.devices.get(canonical(deviceOf(setup, end))));
  const taken = new Set(setup.links.flatMap((one) => [canonical(one.from), canonical(one.to)]));
  const ports = ends.map((device) => device?.ports.filter((port) => CONNECTOR_TYPES[port.connector]?.radio !== true && !taken.has(canonical(port.id))) ?? []);
  const out: Remedy[] = [];
  for (const from of ports[0] ?? []) {
    for (const to of ports[1] ?? []) {
      const family = CONNECTOR_TYPES[from.connector]?.families.some((one) => CONNECTOR_TYPES[to.connector]?.families.includes(one)) ?? false;
      if (family && from.gives.has("picture") && to.takes.has("picture")) out.push({ title: `Run a cable from ${from.id} to ${to.id} instead`, edits: [rewrite(link.statement, `cable from ${from.id} to ${to.id}`)] });
    }
  }
  return out;
}
