/** What may make it darker where a picture is, or behind a head: a curtain that is drawn, lamps that are off. */
import { valueOf, type Bound } from "../model/bound";
import { append, insertInto, rewrite } from "../model/edits";
import { canonical } from "../model/names";
import { fileOf, rootFile, type Remedy, type Scene } from "./check";

/** Draws a curtain over a window that has a name: in the room, where this very file describes it, else for this evening alone. */
export function drawCurtain(scene: Scene, window: string): Remedy[] {
  const { setup } = scene;
  const file = rootFile(setup);
  const { room } = setup;
  const opening = room.openings.find((one) => one.kind === "window" && one.named && canonical(one.name) === canonical(window));
  if (file === undefined || opening === undefined) return [];
  const isRoom = (s: Bound, slot: string): boolean => canonical(valueOf(s, slot, "name")?.text ?? "") === canonical(room.name);
  const evening = file.statements.find((s) => s.row.head === "in" && isRoom(s, "room"));
  const own = file.statements.find((s) => s.row.head === "room" && (isRoom(s, "name") || !s.values.has("name")));
  const said = [evening, own].flatMap((s) => s?.children ?? []).find((s) => s.row.head === "curtains" && canonical(valueOf(s, "over", "name")?.text ?? "") === canonical(window));
  const drawn = room.overWindows.find((one) => canonical(one.over) === canonical(window));
  return (["medium", "heavy"] as const).filter((weight) => drawn === undefined || (drawn.weight !== "heavy" && drawn.weight !== weight)).flatMap((weight): Remedy[] => {
    const line = `curtains ${weight} over ${opening.name}`;
    const edit = said !== undefined ? rewrite(said, line) : evening !== undefined ? insertInto(file, evening, [line]) : own !== undefined ? insertInto(file, own, [line])
      : room.where === undefined || fileOf(setup, room.where.path) === undefined ? undefined : append(file, `in ${room.name} { ${line} }`, ["in", "use"]);
    return edit === undefined ? [] : [{ title: `Draw a ${weight} curtain over ${opening.name}; if it has none, ask the venue for a cloth`, edits: [edit] }];
  });
}

/** Switches off the lamps before the picture, where nothing is said of them. */
export function frontLampsOff(scene: Scene): Remedy[] {
  const { room } = scene.setup;
  const file = rootFile(scene.setup);
  if (file === undefined || room.lamps.length > 0) return [];
  return [{ title: "Switch off the lamps at the front, and leave those over the people on", edits: [append(file, "lamps front off", ["lamps", "light"])] }];
}
