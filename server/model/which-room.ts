/** Which of the rooms that the files state is meant, and what is said of it for this evening. */
import { rowFor } from "../../grammar/vocabulary";
import { valueOf, type Bound } from "./bound";
import { canonical } from "./names";
import type { Reading } from "./reading";
import { makeRoom, type Room } from "./room";

/** The room that `in` names, else the last one stated, with a warning if there are others; a room of defaults if there is none. */
export function chooseRoom(reading: Reading, rooms: readonly Bound[]): Room {
  const evenings = reading.by("in");
  const meant = evenings[0] && valueOf(evenings[0], "room", "name");
  const chosen = (meant && rooms.find((r) => canonical(reading.nameOf(r)) === canonical(reading.names.find(evenings[0]?.where.path ?? "", meant.text)?.name ?? meant.text)))
    ?? rooms[rooms.length - 1];
  if (rooms.length > 1 && meant === undefined && chosen !== undefined) {
    reading.problems.push({
      code: "which-room", severity: "warning", where: chosen.where, related: rooms.slice(0, -1).map((r) => ({ where: r.where, message: "another room" })),
      message: `Several rooms are stated; ${reading.nameOf(chosen)} is taken. Say which one is meant: in ${reading.nameOf(chosen)} { }.`,
    });
  }
  const evening = evenings.filter((e) => chosen !== undefined && canonical(reading.names.find(e.where.path, valueOf(e, "room", "name")?.text ?? "")?.name ?? "") === canonical(reading.nameOf(chosen)));
  return makeRoom(chosen, evening, reading.all.filter((s) => s.owner === "file" && rowFor("room", s.row.head) !== undefined && s.row.head !== "note" && s.row.head !== "in"));
}
