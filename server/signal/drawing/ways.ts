/** Ways across as runs: from a talker to the people online, from the call to the seats, with the gap where they break. */
import { canonical } from "../../model/names";
import { figure } from "../../model/show";
import { distance } from "../../physics/geometry";
import { acoustics } from "../acoustics";
import { listeners } from "../air";
import type { Assessment, Claim } from "../coverage";
import { leastClear, ONLINE_SPEAKS, softest } from "../seats/heard";
import { CLEAR, SEAT_NOISE } from "../seats/limits";
import { pictureAt } from "../sight";
import { audienceCentre, standOf, triple } from "../stands";
import type { Hop, Run, Via } from "./flow";
import { ONLINE_POST, partName, type Posts } from "./posts";

/** A way across at the best guess. */
export function runOf(claim: Claim, posts: Posts): Run {
  const a = claim.assess(posts.trial);
  const out = claim.way === "online-hears-room" || claim.way === "online-sees-room";
  const via: Via = claim.way.includes("hear") ? "air" : "sight";
  const subject = posts.people(claim.subject);
  const gap = claim.way === "room-hears-online" ? (a.gaps.length === 0 ? seatsShort(posts, claim.subject) : undefined) : a.gaps.length === 0 && a.grade === "bad" ? shortOf(claim, a) : a.gaps.length === 0 && a.grade === "poor" && claim.way === "room-sees-online" ? shortOf(claim, a) : undefined;
  let hops: Hop[];
  if (a.path === undefined) {
    const says = a.gaps[0]?.sentence ?? "no way across";
    posts.online();
    hops = [out ? { from: subject, to: ONLINE_POST, via, gap: says } : { from: ONLINE_POST, to: subject, via, gap: says }];
  } else {
    const inner = posts.hops(a.path);
    const end = out ? inner[0]?.from : inner[inner.length - 1]?.to;
    const device = end ?? ONLINE_POST;
    const part = partName(a.through, device);
    const remark = remarkOf(posts, claim, a, device);
    const last: Hop = out
      ? { from: subject, to: device, via, toPort: part, gap, remark }
      : { from: device, to: subject, via, fromPort: part, gap, remark };
    hops = out ? [last, ...inner] : [...inner, last];
    if (out && a.repeatedBy !== undefined) {
      const repeater = posts.people(a.repeatedBy);
      hops = [{ from: subject, to: repeater, via: "air", remark: "repeats it" }, { ...last, from: repeater, remark: undefined, gap: undefined }, ...inner];
    }
  }
  const title = out ? `${claim.subject} to the people online` : `the people online to ${claim.subject}`;
  return { id: `${claim.way} ${claim.subject}`, title, hops, complete: hops.every((hop) => hop.gap === undefined) };
}

/** Why a way that is whole does not reach everybody, in a few words. */
function shortOf(claim: Claim, a: Assessment): string {
  const rows = a.short?.fromRow !== undefined && a.short.fromRow > 1 ? ` from row ${a.short.fromRow}` : "";
  switch (claim.way) {
    case "room-sees-online": return `too small${rows}`;
    case "room-hears-online": case "online-hears-room": return "";
    case "online-sees-room": return "outside the frame";
  }
}

/** Where what is played is lost at a seat: too soft, or loud enough and not understood. */
function seatsShort({ graph, trial }: Posts, group: string): string | undefined {
  const least = softest(graph, ONLINE_SPEAKS, "most", group, trial);
  if (least === undefined) return undefined;
  const ear = listeners(graph.setup, trial);
  const at = (seat: number): string => ((ear[seat]?.row ?? 1) > 1 ? ` in row ${ear[seat]?.row ?? 1}` : "");
  if (least.level - acoustics(graph.setup, trial).noise < SEAT_NOISE.error) return `too soft${at(least.seat)}`;
  const clear = leastClear(graph, ONLINE_SPEAKS, group, trial);
  return clear !== undefined && clear.sti < CLEAR.error ? `not understood${at(clear.seat)}` : undefined;
}

/** How far it is through the air. */
function remarkOf({ graph, trial }: Posts, claim: Claim, a: Assessment, device: string): string | undefined {
  const { setup } = graph;
  const found = setup.devices.get(canonical(device));
  if (found === undefined || a.gaps.length > 0) return undefined;
  const voice = setup.voices.get(canonical(claim.subject)) ?? (claim.subject === setup.lectern.name ? setup.lectern : undefined);
  if (voice === undefined && setup.floor.group(claim.subject) === undefined) return undefined;
  const at = voice === undefined || voice.seats !== undefined ? audienceCentre(setup, trial, voice?.seats?.name ?? claim.subject) : voice.position.at(trial);
  const seen = claim.way === "room-sees-online" ? pictureAt(setup, found, trial) : standOf(setup, found, trial);
  const far = distance(triple(at), triple(seen));
  return far < 0.3 ? undefined : `${figure(Math.round(far * 10) / 10)} m`;
}
