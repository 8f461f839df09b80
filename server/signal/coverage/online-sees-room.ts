/** A camera is sent to the people online that is there for whoever speaks, and for what else is asked for. What it frames the checks of pictures judge. */
import { carries, type Graph } from "../graph";
import { frameOf, pointsOf } from "../sight";
import { broken, called, candidates, keyOf, UNMET, type Claim } from "./claim";
import { namesOf } from "../../model/voices";

export function onlineSeesRoom(graph: Graph): Claim[] {
  const { setup } = graph;
  const cameras = candidates(graph, "picture", "camera", "back");
  const key = keyOf(cameras);
  const wanted = new Set<string>();
  for (const voice of graph.voices) wanted.add(voice.name);
  for (const name of setup.shallShow(graph.item)) wanted.add(name.text);
  return [...wanted].map((subject): Claim => ({
    way: "online-sees-room", subject, key: `seen ${subject} ${key} ${namesOf(graph.voices)}`,
    routes: cameras.map((c) => c.path),
    title: `the people online see ${called(subject)}`, unmet: `the people online do not see ${called(subject)}`,
    assess: (trial) => {
      const live = cameras.filter((c) => carries(c.path, trial));
      if (live.length === 0) return broken(graph, cameras, "sends a picture", "nothing-sends-picture");
      const points = subject === setup.lectern.name ? [setup.lectern.position.at(trial)] : pointsOf(setup, subject, trial);
      if (points.length === 0) return { ...UNMET, grade: "good", gaps: [], path: live[0]?.path, through: live[0]?.ending.part.id };
      const frames = live.map((c) => frameOf(setup, trial, c.ending, graph.voices));
      const inside = frames.map((frame) => points.map(frame));
      const margins = points.map((_, i) => Math.max(...inside.map((of) => of[i] ?? -180)));
      // Of many, half in the frame are an audience seen; of one, that one must be.
      const sorted = [...margins].sort((a, b) => a - b);
      const value = sorted[Math.floor((sorted.length - 1) / 2)] ?? 0;
      if (value < 0) {
        // A camera that would have it in its frame is planned, and does not get there: that is what is wrong.
        const planned = cameras.find((c) => {
          if (live.includes(c)) return false;
          const far = points.map(frameOf(setup, trial, c.ending, graph.voices)).sort((a, b) => a - b);
          return (far[Math.floor((far.length - 1) / 2)] ?? -1) >= 0;
        });
        if (planned !== undefined) return broken(graph, [planned], "", "");
      }
      const by = live[mostInside(inside)];
      const out = margins.filter((m) => m < 0).length;
      return {
        grade: "good", gaps: [], path: by?.path, through: by?.ending.part.id, repeatedBy: undefined,
        measured: { value, unit: "°", limit: 0, what: "distance to the edge of the frame" },
        short: out === 0 ? undefined : { count: out, of: margins.length, within: subject, worst: subject, fromRow: undefined },
      };
    },
  }));
}

/** Which camera has most of the points well inside its frame. */
function mostInside(inside: readonly (readonly number[])[]): number {
  const sums = inside.map((of) => of.reduce((sum, margin) => sum + Math.min(10, margin), 0));
  return sums.indexOf(Math.max(...sums));
}
