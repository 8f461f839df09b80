/** What the drawing shows of hearing loops, receivers, interpreters' earphones and recorders: runs that end with those few, or in the device. */
import { soundFeeds, wayOfOnline, wayOfVoice, type SoundFeed } from "../feeds-of-sound";
import type { Hop, Run } from "./flow";
import type { Edge } from "../edges";
import type { Graph } from "../graph";
import type { Posts } from "./posts";

const HOW = { loop: "hearing loop", receivers: "receivers", earphones: "earphones" } as const;

/** One run from each of those whom a feed is for; those of the room first. */
export function feedRuns(posts: Posts): Run[] {
  const { graph, trial } = posts;
  return soundFeeds(graph).flatMap((feed) => {
    const { device } = feed;
    const voices = feed.wants?.voices ?? graph.voices;
    const runs = voices.map((voice) => run(feed, voice.name, posts.people(voice.name), wayOfVoice(graph, voice, device, trial), posts));
    const way = wayOfOnline(graph, device, trial);
    if (feed.wants?.online === true || way !== undefined) runs.push(run(feed, "the people online", posts.online(), way, posts));
    // What a feed holds without being asked for it is worth a line; what it lacks is not.
    return feed.wants === undefined ? runs.filter((one) => one.complete) : runs;
  });

  function run(feed: SoundFeed, name: string, from: string, way: readonly Edge[] | undefined, to: Posts): Run {
    const device = to.device(feed.device.name);
    const inner = way === undefined ? [] : to.hops(way);
    const first = inner[0];
    const hops: Hop[] = first === undefined ? [{ from, to: device, via: "cable", gap: "nothing leads there" }]
      : first.from === from ? inner : [{ from, to: first.from, via: "air" }, ...inner];
    const end = feed.for === undefined ? undefined : to.people(feed.for.name);
    const listeners = end ?? (feed.by === "record" ? undefined : to.people(audienceOf(graph)));
    const last: Hop[] = listeners === undefined || feed.by === "record" ? [] : [{ from: device, to: listeners, via: "worn", remark: HOW[feed.by] }];
    return { id: `feed ${feed.device.name} ${name}`, title: `${name} to ${feed.by === "record" ? feed.device.name : `those who listen through ${feed.device.name}`}`, hops: [...hops, ...last], complete: way !== undefined };
  }
}

/** The seats whose people may wear receivers: the first group. */
const audienceOf = ({ setup }: Graph): string => setup.room.seats[0]?.name ?? "the room";
