/** In which column a post stands: its distance from the call, over all the ways together; the room at the left, the people online at the right. */
import type { Network } from "./network";

function link(of: Map<string, Set<string>>, a: string, b: string): void {
  const known = of.get(a);
  if (known === undefined) of.set(a, new Set([b]));
  else known.add(b);
}

/**
 * Column of each post from the left. People in the room stand in column 0, devices by hops to the call (breadth first, both
 * directions, never through people: a talker joins two microphones only in the air), then the call, then the people online.
 */
export function columnsOf(network: Network): Map<string, number> {
  const neighbours = new Map<string, Set<string>>();
  for (const band of network.bands) {
    for (const line of band.lines) {
      link(neighbours, line.from, line.to);
      link(neighbours, line.to, line.from);
    }
  }
  for (const echo of network.echoes) {
    for (const leg of [echo.out, echo.back]) {
      for (let index = 1; index < leg.length; index += 1) {
        const [a, b] = [leg[index - 1], leg[index]];
        if (a === undefined || b === undefined) continue;
        link(neighbours, a, b);
        link(neighbours, b, a);
      }
    }
  }
  const role = new Map(network.posts.map((post) => [post.id, post.role]));
  const distance = new Map<string, number>();
  const spread = (from: readonly string[], start: number): void => {
    let front = from;
    let step = start;
    while (front.length > 0) {
      step += 1;
      const next: string[] = [];
      for (const id of front) {
        for (const other of neighbours.get(id) ?? []) {
          if (distance.has(other) || role.get(other) !== "device") continue;
          distance.set(other, step);
          next.push(other);
        }
      }
      front = next;
    }
  };
  const of = (wanted: string): string[] => network.posts.filter((post) => post.role === wanted).map((post) => post.id);
  spread(of("call"), 0);
  // What has no tie to the call hangs on the people online, or else stands beside the people in the room.
  spread(of("online-people"), 0);
  const last = Math.max(1, ...distance.values());
  const columns = new Map<string, number>();
  for (const post of network.posts) {
    switch (post.role) {
      case "room-people": columns.set(post.id, 0); break;
      case "device": columns.set(post.id, 1 + last - (distance.get(post.id) ?? last)); break;
      case "call": columns.set(post.id, last + 1); break;
      case "online-people": columns.set(post.id, last + 2); break;
    }
  }
  return columns;
}
