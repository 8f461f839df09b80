/** From the graph of one item to what its drawing shows: posts, runs, gaps, echoes. */
import { Trial } from "../../model/trial";
import { WAYS, type Verdict, type WayName } from "../../model/ways";
import { claims } from "../coverage";
import type { Graph } from "../graph";
import { echoRuns } from "./echoes";
import { feedRuns } from "./feeds";
import type { Band, Flow } from "./flow";
import { Posts } from "./posts";
import { runOf } from "./ways";

/** A verdict with its sentence, as the drawing shows it beside its band. */
export interface BandVerdict {
  readonly way: WayName;
  readonly verdict: Verdict;
  readonly weakest: string;
}

export function flowOf(graph: Graph, ways: readonly BandVerdict[]): Flow {
  const posts = new Posts(graph, new Trial());
  const verdict = (way: WayName): { verdict: Verdict; sentence: string } => {
    const found = ways.find((w) => w.way === way);
    return { verdict: found?.verdict ?? "cannot-tell", sentence: found?.weakest ?? "" };
  };
  const bands = WAYS.flatMap((way): Band[] => (way === "call" || way === "internet" ? [] : [{
    way, ...verdict(way), runs: [...claims(graph).filter((claim) => claim.way === way).map((claim) => runOf(claim, posts)), ...(way === "room-hears-online" ? feedRuns(posts) : [])],
  }]));
  const echoes = echoRuns(posts);
  return {
    title: graph.setup.title, item: graph.item, bands, echoes, posts: posts.all(), call: verdict("call"), internet: verdict("internet"),
  };
}

