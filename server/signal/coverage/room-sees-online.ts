/** The call is shown to every seat. How large, and what stands before it, the checks of pictures judge. */
import { canonical } from "../../model/names";
import type { Ranged } from "../../model/ranged";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { listeners } from "../air";
import { carries, type Ending, type Graph } from "../graph";
import { faceAngle, FACE_LIMIT } from "../sight";
import { broken, called, candidates, keyOf, worst, type Candidate, type Claim } from "./claim";

export function roomSeesOnline(graph: Graph): Claim[] {
  const { setup } = graph;
  const shown = graph.joins.flatMap((state) => state.shows.filter((s) => s.what === "call").map((s) => ({ show: s, key: canonical(s.name) })));
  const displays = candidates(graph, "picture", "display", "forth");
  const key = keyOf(displays);
  const facesOf = (display: Ending) => shown.find((s) => s.key === canonical(display.part.id) || s.key === canonical(display.device.name))?.show.faces;
  const groups = setup.room.seats.length > 0 ? setup.room.seats.map((s) => s.name) : ["the room"];
  return groups.map((group) => ({
    way: "room-sees-online", subject: group, key: `sees ${group} ${key} ${shown.map((s) => `${s.key}${s.show.faces.best}`).join(",")}`,
    routes: displays.map((d) => d.path),
    title: `the people online are seen by ${called(group)}`, unmet: `the people online are not seen by ${called(group)}`,
    assess: (trial) => {
      const lit = displays.filter((d) => carries(d.path, trial));
      if (lit.length === 0) return broken(graph, displays, "shows the people online", "nothing-shows");
      const inGroup = listeners(setup, trial).map((seat, i) => ({ seat, i })).filter(({ seat }) => seat.group === group);
      const seats = inGroup.map(({ seat }) => seat);
      const anglesOn = (by: Candidate, faces: Ranged): readonly number[] => {
        const all = facesAtSeats(setup, trial, by.ending, faces);
        return inGroup.map(({ i }) => all[i] ?? 0);
      };
      const views = lit.flatMap((d) => {
        const faces = facesOf(d.ending) ?? shown[0]?.show.faces;
        return faces === undefined ? [] : [{ by: d, angles: anglesOn(d, faces) }];
      });
      const angles = seats.map((_, i) => Math.max(0, ...views.map((view) => view.angles[i] ?? 0)));
      // The display that most of these seats look at.
      const total = views.map((view) => view.angles.reduce((sum, angle) => sum + angle, 0));
      const by = views[total.indexOf(Math.max(...total))]?.by ?? lit[0];
      const limits = { poor: FACE_LIMIT, bad: FACE_LIMIT / 4 };
      const graded = worst(seats, angles, limits, "°", "angle of a face");
      if (graded.grade !== "good") {
        // A larger picture is planned, and does not get there: that is what is wrong, not that the small one is small.
        const larger = displays.find((d) => {
          const faces = lit.includes(d) ? undefined : facesOf(d.ending);
          return faces !== undefined && worst(seats, anglesOn(d, faces), limits, "°", "").grade === "good";
        });
        if (larger !== undefined) return broken(graph, [larger], "", "");
      }
      return { ...graded, grade: "good", gaps: [], path: by?.path, through: by?.ending.part.id, repeatedBy: undefined };
    },
  }));
}

/** The angle under which a face on a display is seen by all `listeners`, in their order, in degrees. */
function facesAtSeats(setup: Setup, trial: Trial, display: Ending, faces: Ranged): readonly number[] {
  return trial.keep(`faces on ${display.part.id}, ${faces.id} ${faces.low} ${faces.best} ${faces.high}`, () => {
    const angle = faceAngle(setup, trial, display.device, display.part, faces);
    return listeners(setup, trial).map((seat) => angle(seat.at));
  });
}
